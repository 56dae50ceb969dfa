/// The friction map: one mark a bin of passes, its shape what became of most of them, its size how many.
import * as Plot from '@observablehq/plot'
import type { FrictionMap } from './data'
import { hatched } from './hatch'
import { text_width } from './letters'
import { fig3 } from './numbers'
import type { Spot } from './place'
import { Paper } from './place'
import type { Stage } from './stage'
import {
  base, frame, hover, name_of, other_ticks, other_unit, other_x, other_y, own_ticks, stage, tick_words, ticks_width,
  ticks_x, ticks_y,
} from './stage'
import type { Point } from './svg'
import { ASK, HAS, INK, SOFT, circle, element, group, outline, path, rectangle, text } from './svg'
import { wall_pen, wall_words } from './walls'

type Outcome = FrictionMap['shares'][number]['outcome']

const OUTCOMES: Outcome[] = ['holds', 'short', 'damaged', 'winds back']
const STRIP = 15, FEWEST = 10, FRAME = 228

interface Bin { x: number; y: number; count: number; outcome: Outcome; title: string }

function bins(figure: FrictionMap): Bin[] {
  return figure.cells.map(([x, y, ...passes]) => {
    const count = passes.reduce((sum, one) => sum + one, 0), most = passes.indexOf(Math.max(...passes))
    const shares = OUTCOMES.map((outcome, i) => [outcome, passes[i]] as const).filter(([, one]) => one > 0)
    const title = [`${figure.x.name} ${fig3(x)}, ${figure.y.name} ${fig3(y)}`, `${fig3(count)} passes`,
      ...shares.map(([outcome, one]) => `${fig3((100 * one) / count)} % ${outcome}`)].join('\n')
    return { x, y, count, outcome: OUTCOMES[most], title }
  }).filter((bin) => bin.count >= FEWEST)
}

/// The mark of an outcome: full circle, triangle, cross, square.
function mark_at([x, y]: Point, outcome: Outcome, r: number): SVGElement {
  if (outcome === 'holds') return circle([x, y], r, { fill: HAS, 'fill-opacity': 0.75 })
  const corners: Point[] = [[x - r, y - r * 0.8], [x + r, y - r * 0.8], [x, y + r]]
  if (outcome === 'short') return path(outline(corners, true), { fill: ASK })
  if (outcome === 'damaged') {
    const d = r * 0.85
    return path(`M${x - d} ${y - d}L${x + d} ${y + d}M${x - d} ${y + d}L${x + d} ${y - d}`,
      { stroke: ASK, 'stroke-width': 1.4, fill: 'none' })
  }
  return rectangle(x - r * 0.8, y - r * 0.8, 1.6 * r, 1.6 * r, { fill: '#fff', stroke: INK, 'stroke-width': 1 })
}

/// Marks as large as their share of the passes, but never into the next bin.
function all_marks(s: Stage, figure: FrictionMap, cells: Bin[]): SVGElement {
  const most = Math.max(1, ...cells.map((bin) => bin.count)), made = group()
  const cell = Math.min(Math.abs(s.x(figure.x.from + figure.step[0]) - s.x(figure.x.from)),
    Math.abs(s.y(figure.y.from + figure.step[1]) - s.y(figure.y.from)))
  const largest = Math.min(4.5, Math.max(1.2, 0.5 * cell))
  for (const bin of cells) {
    const r = largest * Math.max(bin.outcome === 'holds' ? 0.3 : 0.6, (bin.count / most) ** 0.3)
    made.append(mark_at([s.x(bin.x), s.y(bin.y)], bin.outcome, r))
  }
  return made
}

function curve(s: Stage, one: FrictionMap['curves'][number], clip: string): SVGElement {
  const points = one.points.map(([x, y]): Point => [s.x(x), s.y(y)])
  const strip = [...points, ...[...points].reverse().map(([x, y]): Point => [x + one.side * STRIP, y])]
  const made = group(path(outline(strip, true), hatched('no')), path(outline(points), wall_pen))
  made.setAttribute('clip-path', `url(#${clip})`)
  return made
}

interface Key { x: number; y: number; outcome: Outcome; words: string }

/// What became of all passes, above the frame: mark and words, in as many rows as they need.
function key_rows(figure: FrictionMap, width: number): Key[] {
  let x = 0, y = 8
  return figure.shares.map(({ outcome, label }) => {
    const long = 12 + text_width(label, undefined, 700) + 16
    if (x > 0 && x + long - 16 > width) { x = 0; y += 15 }
    const key = { x, y, outcome, words: label }
    x += long
    return key
  })
}

function colour_of(outcome: Outcome): string {
  return outcome === 'holds' ? HAS : outcome === 'winds back' ? INK : ASK
}

/// Names of both axes and the units of the other system.
function axis_names(s: Stage, { x, y }: FrictionMap): SVGElement {
  const made = group(text(s.width - s.right, s.height - 3, name_of(x), { 'text-anchor': 'end' }),
    text(0, s.top - (x.unit?.other ? 26 : 9), name_of(y)))
  if (y.unit?.other) made.append(text(s.width, s.top - 9, y.unit.other, { 'text-anchor': 'end', fill: SOFT }))
  return made
}

function key_words(keys: Key[]): SVGElement {
  return group(...keys.flatMap(({ x, y, outcome, words }) => [mark_at([x + 5, y], outcome, 4),
    text(x + 12, y + 3.7, words, { 'font-weight': 700, fill: colour_of(outcome) })]))
}

/// The name of each limit beside its curve, where few passes lie.
function curve_words(s: Stage, figure: FrictionMap, cells: Bin[]): SVGElement {
  const made = group(), right = s.width - s.right, foot = s.height - s.bottom
  const paper = new Paper({ left: s.left + 2, top: s.top + 2, right: right - 2, bottom: foot - 2 })
  const seen = figure.curves.map((one) => one.points.map(([x, y]): Point => [s.x(x), s.y(y)])
    .filter(([x, y]) => x >= s.left && x <= right && y >= s.top && y <= foot))
  for (const points of seen) paper.keep_off(points)
  for (const { x, y } of cells) paper.keep_off([[s.x(x) - 1, s.y(y)], [s.x(x) + 1, s.y(y)]], 3)
  figure.curves.forEach(({ label, side }, i) => {
    const spots = seen[i].flatMap(([x, y]) => [side, -side].map((way, turn): Spot =>
      ({ x: x + (turn ? 6 : STRIP + 4) * way, y, anchor: way > 0 ? 'start' : 'end', worse: 2 * turn })))
    const words = label && spots.length && paper.put(wall_words(label), spots)
    if (words) made.append(words)
  })
  return made
}

/// Margins: keys on top, then the name of y and, where x has one, the scale of the other system.
function lay_out(figure: FrictionMap, width: number, keys: Key[]): Stage {
  const { x, y } = figure, rows = keys.length ? keys[keys.length - 1].y + 8 : 0
  const top = rows + (x.unit?.other ? 40 : 23), size: [number, number] = [width, FRAME + top + 33]
  const rough = stage(size, [top, 12, 33, 32], x, y)
  const left = 9 + Math.max(...own_ticks(y, rough.y, 7).map((value) => text_width(tick_words(value))))
  return stage(size, [top, Math.max(12, ticks_width(rough, y)), 33, left], x, y)
}

function scales(s: Stage, { x, y }: FrictionMap): Plot.Markish[] {
  const marks: Plot.Markish[] = [ticks_x(own_ticks(x, s.x, 7)), ticks_y(own_ticks(y, s.y, 7))]
  if (y.unit?.other) marks.push(other_y(other_ticks(y, s.y, 5), y.unit.factor))
  if (!x.unit?.other) return marks
  const { kept, word } = other_unit(s, x, other_ticks(x, s.x, 5))
  return [...marks, other_x(kept, x.unit.factor), () => word ?? group()]
}

export function friction_map(figure: FrictionMap, width: number, name: string): SVGSVGElement {
  const keys = key_rows(figure, width), s = lay_out(figure, width, keys), cells = bins(figure), clip = `${name}-frame`
  const drawn = Plot.plot({ ...base(s, figure.x, figure.y),
    marks: [frame, () => group(...figure.curves.map((one) => curve(s, one, clip))), () => all_marks(s, figure, cells),
      ...scales(s, figure), () => axis_names(s, figure), () => key_words(keys), () => curve_words(s, figure, cells),
      hover(cells)] }) as SVGSVGElement
  const inside = rectangle(s.left, s.top, s.width - s.left - s.right, s.height - s.top - s.bottom, {})
  drawn.prepend(element('clipPath', { id: clip }, inside))
  return drawn
}
