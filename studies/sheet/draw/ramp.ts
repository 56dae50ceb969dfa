/// One turn of the thread unrolled at the pitch diameter, to scale; the slopes that friction holds as a fan.
import type { Ramp } from './data'
import { across } from './dimension'
import { hatched } from './hatch'
import { fig3, plain } from './numbers'
import type { Point } from './svg'
import {
  HAS, INK, arrow, dimension_pen, dual, element, group, label, line, outline, path, picture, rectangle, text, thick,
} from './svg'

const WIDTH = 330, START = 12, END = 250, HIGHEST = 118, TOP = 40, LOW = 62, LEAST = 182

interface Slope { figure: Ramp; start: Point; end: Point; foot: number; k: number }

function tangent(degrees: number): number {
  return Math.tan((Math.min(degrees, 80) * Math.PI) / 180)
}

function lay_out(figure: Ramp): Slope {
  const tallest = Math.max(figure.lead, figure.turn * tangent(figure.holds.q95))
  const k = Math.min((END - START) / figure.turn, HIGHEST / tallest)
  const foot = Math.min(TOP + Math.max(LOW, tallest * k) + 30, Math.max(LEAST, TOP + tallest * k))
  return { figure, k, foot, start: [START, foot], end: [START + figure.turn * k, foot - figure.lead * k] }
}

/// Where a slope ends after one turn.
function after_turn(s: Slope, degrees: number): Point {
  return [s.end[0], s.foot - (s.end[0] - s.start[0]) * tangent(degrees)]
}

function fan(s: Slope): SVGElement {
  const { q05, nominal, q95 } = s.figure.holds, edge = { stroke: HAS, 'stroke-width': 0.7 }
  const low = after_turn(s, q05), high = after_turn(s, q95)
  return group(path(outline([s.start, low, high], true), { fill: HAS, opacity: 0.13 }), line(s.start, low, edge),
    line(s.start, high, edge), line(s.start, after_turn(s, nominal), { stroke: HAS, 'stroke-width': 1.9 }))
}

function wedge(s: Slope): SVGElement {
  const corners = outline([s.start, s.end, [s.end[0], s.foot]], true)
  return group(path(corners, { ...thick, fill: '#fff' }), path(corners, hatched('screw')))
}

/// The load on the slope, and the turn that pushes it up.
function load(s: Slope): SVGElement {
  const share = 0.42, x = s.start[0] + share * (s.end[0] - s.start[0]), y = s.foot + share * (s.end[1] - s.foot)
  const pen = { stroke: INK, 'stroke-width': 2 }, tilt = `translate(${x} ${y}) rotate(${-s.figure.lead_angle})`
  const block = element('g', { transform: tilt }, rectangle(-14, -19, 28, 19, { ...thick, fill: '#fff' }))
  return group(block, line([x, y - 44], [x, y - 29], pen), arrow([x, y - 20], 90, INK, 11),
    label(x + 7, y - 36, 'load'), line([x - 46, y - 11], [x - 27, y - 11], pen), arrow([x - 17, y - 11], 0, INK, 11),
    label(x - 46, y - 17, 'turn'))
}

function angles(s: Slope): SVGElement {
  const { q05, nominal, q95 } = s.figure.holds, aim = s.end[0] - 26
  const on = s.foot - (aim - s.start[0]) * tangent(nominal)
  const arc = 52, tip: Point = [s.start[0] + arc * Math.cos((s.figure.lead_angle * Math.PI) / 180),
    s.foot - arc * Math.sin((s.figure.lead_angle * Math.PI) / 180)]
  return group(text(0, 11, `friction holds slopes up to ${fig3(nominal)}°`, { fill: HAS, 'font-weight': 700 }),
    text(0, 24, `(${fig3(q05)}° to ${fig3(q95)}° in 90 of 100)`, { fill: HAS }),
    path(outline([[aim, 28], [aim, on]]), dimension_pen), arrow([aim, on], 90, HAS, 6),
    path(`M${s.start[0] + arc} ${s.foot}A${arc} ${arc} 0 0 0 ${tip[0]} ${tip[1]}`, { ...dimension_pen, stroke: INK }),
    text(s.start[0] + 2, s.foot + 13, `thread ${fig3(s.figure.lead_angle)}°`, { 'font-weight': 700 }))
}

function dimensions(s: Slope): SVGElement {
  const { turn, lead, length } = s.figure, other = (value: number) => length.other ? fig3(value * length.factor) : ''
  const x = s.end[0] + 10, top = s.end[1], words = `one turn ${fig3(turn)}`
  const tight = s.foot - top < 26, out = tight ? 13 : 0
  return group(across([s.start[0], s.end[0]], s.foot + 30, [s.foot + 14, s.foot], words, other(turn)),
    line([x - 8, top], [x + 4, top], dimension_pen), line([x - 8, s.foot], [x + 4, s.foot], dimension_pen),
    line([x, top - out], [x, s.foot + out], dimension_pen), arrow([x, top], tight ? 90 : -90),
    arrow([x, s.foot], tight ? -90 : 90), dual(x + 7, (top + s.foot) / 2 + 3.5, plain(lead), other(lead)))
}

export function ramp(figure: Ramp): SVGSVGElement {
  const s = lay_out(figure), drawn = picture(WIDTH, Math.round(s.foot + 38))
  // A slope that friction does not hold rises over the fan: the fan is then drawn on it.
  if (figure.overhauls) drawn.append(wedge(s), fan(s))
  else drawn.append(fan(s), wedge(s))
  drawn.append(load(s), angles(s), dimensions(s))
  if (figure.starts > 1) {
    drawn.append(text(WIDTH, s.foot + 34, `${figure.starts} starts`, { 'text-anchor': 'end' }))
  }
  return drawn
}
