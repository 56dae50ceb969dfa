/// The screw in its cut nut, to scale, after ISO 6410: crest thick, root thin; how it bows as a phantom line.
import type { View } from './data'
import { across, upright } from './dimension'
import { hatched } from './hatch'
import { text_width } from './letters'
import { fig3, plain } from './numbers'
import type { Point } from './svg'
import {
  HAS, INK, SOFT, arrow, centre_line, circle, dimension_pen, element, group, label, line, outline, path, phantom,
  picture, rectangle, text, thick, thin,
} from './svg'

const UNITS_PER_MM = 96 / 25.4
const SCALES = [5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100, 1 / 200] // ISO 5455
const WIDE_PAPER = 646 // the framed sheet leaves less than two modules
const BEFORE = { wide: 44, narrow: 10 } // the upright dimension
const ARROW = 62, TO_SECTION = 34, BETWEEN = 80 // the force and its words; from them to the section, and at most

interface Sheet {
  figure: View
  narrow: boolean
  width: number
  scale: number
  axis: number      // y of the screw's axis
  nut: [number, number]
  tip: number
  major: number     // radii, in units of the picture
  root: number
  outside: number
  pad: number
  depth: number     // of the face part, along the axis
  left: number      // where the screw is broken off
  sag: number       // of the screw as it bows
  section: number | null   // x of its middle; null: no room for it
}

function face_depth(figure: View): number {
  return figure.face.kind === 'point' ? figure.d * 0.5 : figure.d * 0.32
}

/// Free length as drawn: where none is stated the screw reaches as far out of the nut as on its other side.
function drawn_length(figure: View): number {
  return figure.free_length ?? figure.d + figure.nut_length / 2
}

function pad_radius(figure: View): number {
  if (figure.face.kind === 'point') return figure.root / 2
  return Math.max(figure.root / 2, (figure.face.outer ?? 2.4 * figure.face.radius) / 2)
}

/// From the break at the left to the end of the part that the loaded end bears on, and the greatest height.
function extent(figure: View): { long: number; high: number } {
  const beyond = figure.free_length === null ? 0 : face_depth(figure)
  return { long: figure.d + figure.nut_length / 2 + drawn_length(figure) + beyond,
    high: Math.max(figure.nut_outside, figure.free_length === null ? 0 : 2 * pad_radius(figure)) }
}

function section_width(figure: View, k: number): number {
  return figure.nut_outside * k + 18
}

/// What the words of the force need beyond the end.
function force_width(figure: View): number {
  const [own, other] = figure.force.split(' [')
  if (!figure.force) return 14
  return Math.max(ARROW, 10 + text_width(force_word(figure) + own, undefined, 700), 12 + text_width(other ?? ''))
}

function force_word(figure: View): string {
  return figure.lift ? 'load ' : ''
}

function fitting_scale(figure: View, narrow: boolean): number {
  const { long, high } = extent(figure)
  const room = narrow ? 330 - BEFORE.narrow - ARROW : WIDE_PAPER - BEFORE.wide - force_width(figure)
  const fits = (scale: number) => {
    const k = UNITS_PER_MM * figure.mm * scale
    return long * k <= room && high * k <= (narrow ? 96 : 136)
  }
  return SCALES.find(fits) ?? SCALES[SCALES.length - 1]
}

/// Where the drawing begins, and the middle of the section; all stands in the middle of the paper. A section that
/// finds no room beside the screw is left out.
function places(figure: View, narrow: boolean, k: number): { start: number; section: number | null } {
  const width = narrow ? 330 : WIDE_PAPER, before = narrow ? BEFORE.narrow : BEFORE.wide
  const screw = before + extent(figure).long * k + (narrow ? ARROW : force_width(figure))
  const free = width - screw - section_width(figure, k)
  if (narrow || free < 6) return { start: before + Math.max(0, (width - screw) / 2), section: null }
  const between = Math.min(BETWEEN, Math.max(Math.min(free, TO_SECTION), free / 2)), aside = (free - between) / 2
  return { start: before + aside, section: width - aside - section_width(figure, k) / 2 }
}

function lay_out(figure: View, narrow: boolean): Sheet {
  const scale = fitting_scale(figure, narrow), k = UNITS_PER_MM * figure.mm * scale
  const { start, section } = places(figure, narrow, k), first = start + figure.d * k
  const nut: [number, number] = [first, first + figure.nut_length * k]
  const tip = (nut[0] + nut[1]) / 2 + drawn_length(figure) * k, sag = Math.min(narrow ? 24 : 36, 0.3 * (tip - nut[1]))
  const outside = (figure.nut_outside / 2) * k, major = (figure.d / 2) * k
  const pad = figure.free_length === null ? 0 : pad_radius(figure) * k
  const above = Math.max(outside + (narrow ? 18 : 38), pad + 24, figure.bows ? major + sag + 8 : 0)
  return { figure, narrow, scale, width: narrow ? 330 : WIDE_PAPER, axis: above + 14, nut, left: start, tip, major,
    root: (figure.root / 2) * k, outside, pad, depth: face_depth(figure) * k, sag, section }
}

/// The shape of a bowing column between nut and loaded end, 0 to 1 along it, the greatest deflection being 1.
function bow_shape(figure: View): (share: number) => number {
  const held = `${figure.far_end} ${figure.end}`
  if (held === 'fixed free') return (t) => 1 - Math.cos((t * Math.PI) / 2)
  if (held === 'rounded rounded') return (t) => Math.sin(Math.PI * t)
  if (held === 'fixed fixed') return (t) => (1 - Math.cos(2 * Math.PI * t)) / 2
  return figure.far_end === 'fixed' ? fixed_rounded : (t) => fixed_rounded(1 - t)
}

/// Fixed at 0, rounded at 1: sin kt − kt + k(1 − cos kt) with tan k = k, over its greatest value.
function fixed_rounded(t: number): number {
  const k = 4.493409
  return (k * (1 - Math.cos(k * t)) - (k * t - Math.sin(k * t))) / 6.28
}

/// The screw as it bows, from the nut to the loaded end.
function bowed(s: Sheet): SVGElement {
  const made = group()
  if (!s.figure.bows || s.figure.free_length === null) return made
  const from = s.nut[1], shape = bow_shape(s.figure)
  const side = (offset: number) => Array.from({ length: 41 }, (_, i): Point => {
    const share = i / 40
    return [from + share * (s.tip - from), s.axis + offset - s.sag * shape(share)]
  })
  const above = side(-s.major), below = side(s.major), moved = s.sag * Math.abs(shape(1)) > 2
  made.append(path(outline(above), phantom), path(outline(below), phantom))
  if (moved) made.append(line(above[40], below[40], phantom))
  return made
}

function cut_nut(s: Sheet): SVGElement {
  const long = s.nut[1] - s.nut[0], deep = s.outside - s.major
  return group(...[s.axis - s.outside, s.axis + s.major].map((top) =>
    rectangle(s.nut[0], top, long, deep, { ...thick, ...hatched('nut') })))
}

/// A short break: the part goes on.
function break_line(x: number, y1: number, y2: number): SVGElement {
  const third = (y2 - y1) / 3
  return path(`M${x} ${y1}q4 ${third / 2} 0 ${third}t0 ${third}t0 ${third}`, { ...thin, stroke: SOFT })
}

function screw(s: Sheet): SVGElement {
  const { left } = s, top = s.axis - s.major, foot = s.axis + s.major, slope = Math.min(s.major - s.root, 8)
  const chamfer = s.figure.free_length === null ? 0 : slope
  const made = group(
    rectangle(left, top, s.tip - left - chamfer, 2 * s.major, { fill: '#fff' }),
    path(`M${left} ${top}H${s.tip - chamfer}M${left} ${foot}H${s.tip - chamfer}`, thick), break_line(left, top, foot),
    line([left, s.axis - s.root], [s.tip, s.axis - s.root]), line([left, s.axis + s.root], [s.tip, s.axis + s.root]))
  if (s.figure.free_length === null) made.append(break_line(s.tip, top, foot))
  else {
    const at = s.tip - chamfer
    const corners: Point[] = [[at, top], [s.tip, s.axis - s.root], [s.tip, s.axis + s.root], [at, foot]]
    made.append(path(outline(corners), { ...thick, fill: '#fff' }), line([at, top], [at, foot], thick))
  }
  return made
}

/// What the loaded end bears on.
function face(s: Sheet): SVGElement {
  if (s.figure.free_length === null) return group()
  if (s.figure.face.kind === 'point') {
    return path(`M${s.tip} ${s.axis - s.root}L${s.tip + s.depth} ${s.axis}L${s.tip} ${s.axis + s.root}`,
      { ...thick, fill: '#fff' })
  }
  const made = group(rectangle(s.tip, s.axis - s.pad, s.depth, 2 * s.pad, { ...thick, fill: '#fff' }))
  if (s.figure.face.kind === 'rolling') {
    const r = Math.min(s.depth * 0.36, 5), at = Math.max(s.root * 0.7, s.pad - 2 * r)
    for (const side of [-1, 1]) made.append(circle([s.tip + s.depth / 2, s.axis + side * at], r))
  }
  return made
}

function end_of(s: Sheet): number {
  return s.tip + (s.figure.free_length === null ? 0 : s.depth)
}

function force_arrow(s: Sheet): SVGElement {
  if (!s.figure.force) return group()
  const at = end_of(s) + 4, pen = { stroke: HAS, 'stroke-width': 3 }, [own, other] = s.figure.force.split(' [')
  const made = s.figure.compression
    ? group(line([at + 10, s.axis], [at + 46, s.axis], pen), arrow([at, s.axis], 180, HAS, 13))
    : group(line([at, s.axis], [at + 36, s.axis], pen), arrow([at + 46, s.axis], 0, HAS, 13))
  const words = force_word(s.figure) + own, x = Math.min(at + 4, s.width - 1 - text_width(words, undefined, 700))
  made.append(label(x, s.axis - 8, words, { 'font-weight': 700, fill: HAS }))
  if (other && !s.narrow) made.append(label(x, s.axis + 16, `[${other}`, { fill: HAS }))
  return made
}

/// A length and the same in the other system.
function both(s: Sheet, value: number, before = ''): [string, string] {
  const { other, factor } = s.figure.length
  return [before + plain(value), other && !s.narrow ? fig3(value * factor) : '']
}

function dimensions(s: Sheet): SVGElement {
  const { figure } = s, foot = s.axis + s.outside, y = below(s), middle = (s.nut[0] + s.nut[1]) / 2
  const made = group()
  made.append(across(s.nut, figure.free_length === null ? y : y + 22, [foot, foot], ...both(s, figure.nut_length)))
  if (figure.free_length !== null) {
    made.append(across([middle, s.tip], y, [s.axis + s.major, s.axis + s.pad], ...both(s, figure.free_length)))
  }
  if (!s.narrow) {
    made.append(upright([s.axis - s.outside, s.axis + s.outside], s.left - 18, s.nut[0],
      ...both(s, figure.nut_outside, 'Ø')))
  }
  return made
}

/// Height of the first dimension line.
function below(s: Sheet): number {
  return s.axis + Math.max(s.outside + (s.narrow ? 0 : 26), s.pad, s.major + 34) + 22
}

function notes(s: Sheet): SVGElement {
  const { figure } = s, made = group()
  const right = s.narrow ? s.width - 1 : Math.max(end_of(s), text_width(figure.bows) + 2)
  if (figure.bows) made.append(label(right, 11, figure.bows, { 'text-anchor': 'end', fill: SOFT }))
  const at = s.nut[1] + (s.tip - s.nut[1]) * 0.2, y = s.axis + s.major
  const words = label(at + 21, y + 25.5, figure.designation, { 'font-weight': 700 })
  if (!s.narrow) {
    words.append(element('tspan', { 'font-weight': 400 }, `, lead ${plain(figure.lead)}`))
    if (figure.length.other) {
      const other = fig3(figure.lead * figure.length.factor)
      words.append(element('tspan', { 'font-weight': 400, fill: SOFT }, ` [${other}]`))
    }
  }
  made.append(path(`M${at} ${y}L${at + 12} ${y + 22}h6`, dimension_pen), arrow([at, y], -119), words)
  return made
}

/// Section A–A through nut and screw: both cut, root as three quarters of a thin circle.
function section(s: Sheet, middle: number): SVGElement {
  const at: Point = [middle, s.axis], cut = s.nut[0] + 0.3 * (s.nut[1] - s.nut[0]), r = s.root
  const long = s.outside + 8, end = s.outside + 24
  const point = (degrees: number) => [at[0] + r * Math.cos((degrees * Math.PI) / 180),
    at[1] - r * Math.sin((degrees * Math.PI) / 180)]
  const made = group(
    circle(at, s.outside, { ...thick, ...hatched('nut') }), circle(at, s.major, { ...thick, fill: '#fff' }),
    circle(at, s.major, hatched('screw')), path(`M${point(8).join(' ')}A${r} ${r} 0 1 1 ${point(82).join(' ')}`),
    line([at[0] - long, at[1]], [at[0] + long, at[1]], centre_line),
    line([at[0], at[1] - long], [at[0], at[1] + long], centre_line),
    text(at[0], at[1] - long - 5, 'A–A', { 'text-anchor': 'middle', 'font-weight': 700 }),
    line([cut, s.axis - end], [cut, s.axis + end], centre_line))
  for (const side of [-1, 1]) {
    const y = s.axis + side * end
    made.append(line([cut, y - side * 9], [cut, y], { stroke: INK, 'stroke-width': 2 }), line([cut, y], [cut + 8, y]),
      arrow([cut + 15, y], 0, INK), label(cut - 5, y + 3, 'A', { 'font-weight': 700, 'text-anchor': 'end' }))
  }
  return made
}

function scale_words(scale: number): string {
  return scale >= 1 ? `Scale ${scale}:1 on paper` : `Scale 1:${Math.round(1 / scale)} on paper`
}

export function view(figure: View, width: number): SVGSVGElement {
  const narrow = width < 500, s = lay_out(figure, narrow), height = Math.round(below(s) + 34)
  const drawn = picture(s.width, height)
  drawn.append(cut_nut(s), screw(s), face(s), line([s.left - 8, s.axis], [end_of(s) + 8, s.axis], centre_line), bowed(s))
  if (s.section !== null) drawn.append(section(s, s.section))
  drawn.append(dimensions(s), force_arrow(s), notes(s),
    text(s.width, height - 4, scale_words(s.scale), { 'text-anchor': 'end', fill: SOFT }))
  return drawn
}
