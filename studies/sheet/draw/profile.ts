/// The engaged thread, cut along the axis and to scale: nut and screw hatched, the flank that carries thick.
import type { Profile } from './data'
import { across, upright } from './dimension'
import { hatched } from './hatch'
import { fig3, plain } from './numbers'
import { spread } from './place'
import type { Point } from './svg'
import {
  HAS, INK, SOFT, SUBSCRIPT, arrow, centre_line, dimension_pen, element, group, halo, label, line, neat, outline, path,
  picture, rectangle, text, thick, thin,
} from './svg'

const UNITS_PER_MM = 96 / 25.4
const SCALES = [20, 10, 5, 2, 1, 1 / 2, 1 / 5] // ISO 5455
const WIDTH = 330, LEFT = 36, RIGHT = 226, TOP = 32, DEEPEST = 150, FEWEST_PITCHES = 1.4

interface Cut {
  figure: Profile
  scale: number
  from: number                              // radii at the lower and the upper break
  to: number
  foot: number                              // y of the lower break
  x: (axial: number) => number
  y: (radius: number) => number
}

function radii(figure: Profile): { low: number; high: number; nut: number; crest: number } {
  const all = [...figure.screw, ...figure.nut].map(([, radius]) => radius)
  return { low: Math.min(...all), high: Math.max(...all), nut: Math.min(...figure.nut.map(([, r]) => r)),
    crest: Math.max(...figure.screw.map(([, r]) => r)) }
}

function lay_out(figure: Profile): Cut {
  const { low, high } = radii(figure), beyond = 0.3 * (high - low)
  const from = low - beyond, to = high + beyond
  const unit = UNITS_PER_MM * figure.mm
  const most = Math.min(DEEPEST / (to - from), (RIGHT - LEFT) / (FEWEST_PITCHES * figure.pitch)) / unit
  const scale = SCALES.find((one) => one <= most) ?? most
  const k = scale * unit
  const middle = LEFT + Math.max(0.3 * figure.pitch * k, (RIGHT - LEFT - figure.pitch * k) / 2)
  return { figure, scale, from, to, foot: TOP + (to - from) * k, x: (axial) => middle + axial * k,
    y: (radius) => TOP + (to - radius) * k }
}

/// One outline over all pitches in view.
function repeated(cut: Cut, corners: [number, number][]): Point[] {
  const { pitch } = cut.figure, k = cut.x(1) - cut.x(0)
  const before = Math.ceil((cut.x(0) - LEFT) / (pitch * k)) + 1
  const after = Math.ceil((RIGHT - cut.x(0)) / (pitch * k)) + 1
  const points: Point[] = []
  for (let turn = -before; turn <= after; turn++) {
    for (const [axial, radius] of corners) points.push([cut.x(axial + turn * pitch), cut.y(radius)])
  }
  return points
}

function bodies(cut: Cut, name: string): SVGElement {
  const body = (corners: [number, number][], edge: number, hatch: string) => {
    const points = repeated(cut, corners)
    const far: Point[] = [[points[points.length - 1][0], edge], [points[0][0], edge]]
    return path(outline([...points, ...far], true), { ...thick, ...hatched(hatch) })
  }
  const made = element('g', { 'clip-path': `url(#${name})` }, body(cut.figure.nut, TOP - 4, 'nut'),
    body(cut.figure.screw, cut.foot + 4, 'screw'))
  const [from, to] = cut.figure.load_flank
  for (let turn = -3; turn <= 4; turn++) {
    const at = ([axial, radius]: Point): Point => [cut.x(axial + turn * cut.figure.pitch), cut.y(radius)]
    made.append(line(at(from), at(to), { stroke: HAS, 'stroke-width': 3.2 }))
  }
  return made
}

/// A wavy line where the part is broken off.
function broken(x: number, top: number, foot: number): SVGElement {
  const step = (foot - top) / 8
  const waves = `q4 ${neat(step / 2)} 0 ${neat(step)}` + `t0 ${neat(step)}`.repeat(7)
  return path(`M${x} ${top}${waves}`, { ...thin, stroke: SOFT })
}

/// Diameters as levels at the right, words kept apart.
function levels(cut: Cut): SVGElement {
  const made = group(), at = cut.figure.levels.map((level) => cut.y(level.diameter / 2))
  const rows = spread(at, 15, TOP + 4, Math.max(cut.foot, TOP + 15 * at.length))
  cut.figure.levels.forEach((level, i) => {
    const { other, factor } = cut.figure.length
    const words = text(RIGHT + 21, rows[i] + 3.5, '', {})
    words.append(element('tspan', { 'font-style': 'italic' }, level.name))
    if (level.sub) words.append(element('tspan', { 'font-size': SUBSCRIPT, dy: 2 }, level.sub))
    words.append(element('tspan', { dy: level.sub ? -2 : 0 }, ` ${plain(level.diameter)}`))
    if (other) words.append(element('tspan', { fill: SOFT }, ` [${fig3(level.diameter * factor)}]`))
    made.append(path(`M${RIGHT + 2} ${at[i]}h6L${RIGHT + 16} ${rows[i]}h3`, dimension_pen), words)
  })
  return made
}

/// The two flanks of a groove of the screw, each from crest to root, in units of the picture.
function groove(cut: Cut): [[Point, Point], [Point, Point]] | null {
  const points = repeated(cut, cut.figure.screw), mid = cut.x(cut.figure.pitch / 2)
  const falls = points.findIndex(([, y], i) => i > 0 && y > points[i - 1][1] + 1 && points[i][0] > cut.x(0))
  const rises = points.findIndex(([x, y], i) => i > falls && y < points[i - 1][1] - 1 && x > mid)
  return falls > 0 && rises > falls ? [[points[falls - 1], points[falls]], [points[rises], points[rises - 1]]] : null
}

/// The angle between the flanks, measured on their prolongations below the part.
function flank_angle(cut: Cut): SVGElement {
  const made = group(), flanks = groove(cut)
  if (!cut.figure.angle || !flanks) return made
  const [one, two] = flanks.map(([crest, root]) => ({ root, slope: (root[0] - crest[0]) / (root[1] - crest[1]) }))
  const turn = one.slope - two.slope
  if (Math.abs(turn) < 0.02) return made
  const apex_y = (two.root[0] - two.slope * two.root[1] - one.root[0] + one.slope * one.root[1]) / turn
  const apex: Point = [one.root[0] + one.slope * (apex_y - one.root[1]), apex_y]
  const reach = cut.foot + 9 - apex_y, r = Math.abs(reach)
  const on = (slope: number): Point => {
    const share = reach / Math.hypot(1, slope)
    return [apex[0] + slope * share, apex_y + share]
  }
  const ends = [on(one.slope), on(two.slope)].sort((a, b) => a[0] - b[0])
  for (const { root, slope } of [one, two]) {
    made.append(line([root[0] + slope * 2, root[1] + 2], [root[0] + slope * (cut.foot + 13 - root[1]), cut.foot + 13],
      { ...dimension_pen, stroke: INK }))
  }
  made.append(path(`M${outline(ends).slice(1).split('L')[0]}A${neat(r)} ${neat(r)} 0 0 ${reach > 0 ? 0 : 1} `
    + outline([ends[1]]).slice(1), dimension_pen))
  made.append(...angle_arrows(ends), label((ends[0][0] + ends[1][0]) / 2, cut.foot + 25, cut.figure.angle,
    { 'text-anchor': 'middle' }))
  return made
}

function angle_arrows([left, right]: Point[]): SVGElement[] {
  const outside = right[0] - left[0] < 26
  return [arrow(left, outside ? 10 : 170, SOFT, 6), arrow(right, outside ? 170 : 10, SOFT, 6)]
}

function dimensions(cut: Cut): SVGElement {
  const { figure } = cut, { nut, crest } = radii(figure), { other, factor } = figure.length
  const both = (value: number, before = ''): [string, string] =>
    [before + plain(value), other ? fig3(value * factor) : '']
  const top = cut.y(crest) - 3
  return group(across([cut.x(0), cut.x(figure.pitch)], 18, [top, top], ...both(figure.pitch, 'P ')),
    upright([cut.y(crest), cut.y(nut)], LEFT - 12, LEFT, ...both(figure.depth)))
}

export function profile(figure: Profile, _width: number, name: string): SVGSVGElement {
  const cut = lay_out(figure), height = Math.round(cut.foot + 44), clip = `${name}-cut`
  const drawn = picture(WIDTH, height), high = cut.foot - TOP
  const pitch_line = figure.levels.find((level) => level.sub === '2')
  const word = { ...halo, 'stroke-width': 5, 'font-weight': 700 }
  drawn.append(element('clipPath', { id: clip }, rectangle(LEFT, TOP, RIGHT - LEFT, high, {})), bodies(cut, clip),
    broken(LEFT, TOP, cut.foot), broken(RIGHT, TOP, cut.foot))
  if (pitch_line) {
    const y = cut.y(pitch_line.diameter / 2)
    drawn.append(line([LEFT - 6, y], [RIGHT + 8, y], centre_line))
  }
  drawn.append(levels(cut), dimensions(cut), flank_angle(cut), text(LEFT + 6, TOP + 12, 'nut', word),
    text(LEFT + 6, cut.foot - 5, 'screw', word),
    text(WIDTH, height - 4, scale_words(cut.scale), { 'text-anchor': 'end', fill: SOFT }))
  return drawn
}

function scale_words(scale: number): string {
  if (!SCALES.includes(scale)) return ''
  return scale >= 1 ? `Scale ${scale}:1 on paper` : `Scale 1:${Math.round(1 / scale)} on paper`
}
