/// Where the torque goes: solid lifts, slanted hatch rubs in the thread, dots in the face; the rest is drag.
import * as Plot from '@observablehq/plot'
import type { Axis, Torque, Wall } from './data'
import { hatched } from './hatch'
import { shorten, text_width } from './letters'
import { fig3 } from './numbers'
import type { Stage } from './stage'
import {
  base, frame, hover, name_of, other_ticks, other_unit, other_x, own_ticks, stage, ticks_x, with_unit,
} from './stage'
import { HAS, INK, NARROW, group, halo, rectangle, text } from './svg'
import { draw_wall, wall_words } from './walls'
import type { Spot } from './place'
import { Paper } from './place'

type Part = 'lifts' | 'thread' | 'face' | 'drag'
type Bar = Torque['bars'][number]

const PARTS: Part[] = ['lifts', 'thread', 'face', 'drag']
const WORDS = { lifts: 'lifts', thread: 'thread', face: 'face', drag: 'drag' }
const PITCH = 40, THICK = 19

function total(bar: Bar): number {
  return PARTS.reduce((sum, part) => sum + bar[part], 0)
}

function fill_of(part: Part) {
  return part === 'lifts' ? { fill: HAS } : hatched(part)
}

/// One share in its stretch of the bar, with its word where there is room.
function share_words(part: Part, share: number, from: number, to: number, y: number): SVGElement | null {
  const number = String(Math.round(share)), long = `${number} ${WORDS[part]}`, room = to - from - 6
  const words = [long, number].find((one) => text_width(one, undefined, 700) <= room)
  if (!words) return null
  const look = part === 'lifts' ? { fill: '#fff' } : { ...halo, 'stroke-width': 5 }
  return text((from + to) / 2, y + 3.7, words, { 'text-anchor': 'middle', 'font-weight': 700, ...look })
}

/// Name above, sum behind or, where a wall or the frame leaves it no room, above too.
function bar_words(s: Stage, name: string, sum: string, end: number, top: number, paper: Paper): SVGElement[] {
  const edge = s.width - s.right, above = top + 9.5, middle = top + 19 + THICK / 2, words = { lines: [sum] }
  const spots: Spot[] = [{ x: end + 5, y: middle, anchor: 'start' },
    { x: end + 24, y: middle, anchor: 'start', worse: 8 },
    { x: Math.min(end, edge - 4), y: above, anchor: 'end', worse: 4 },
    { x: end - 26, y: above, anchor: 'end', worse: 6 }]
  const { spot } = paper.best(words, spots)
  const room = (spot.y === above ? spot.x - text_width(sum) - 12 : edge - 8) - s.left - 5
  const named = paper.take({ lines: [shorten(name, room)] }, { x: s.left + 5, y: above, anchor: 'start' })
  return [named, paper.take(words, spot)]
}

function draw_bar(s: Stage, bar: Bar, top: number, paper: Paper): SVGElement {
  const made = group(), whole = total(bar), y = top + 19
  let sum = 0
  for (const part of PARTS.filter((one) => bar[one] > 0)) {
    const from = s.x(sum), to = s.x((sum += bar[part])), look = { stroke: HAS, 'stroke-width': NARROW }
    made.append(rectangle(from, y, to - from, THICK, { fill: '#fff' }),
      rectangle(from, y, to - from, THICK, { ...fill_of(part), ...look }))
    const words = share_words(part, (100 * bar[part]) / whole, from, to, y + THICK / 2)
    if (words) made.append(words)
  }
  paper.boxes.push({ left: s.left, right: s.x(sum), top: y, bottom: y + THICK })
  made.append(...bar_words(s, bar.label, fig3(whole), s.x(sum), top, paper))
  return made
}

function wall_letters(s: Stage, figure: Torque, paper: Paper): SVGElement {
  const made = group(), x = s.x(figure.available!), foot = s.height - s.bottom
  const spots = [-1, 1].flatMap((side) => [s.top + 9, foot - 8].map((y) => ({ x: x + side * 5, y,
    anchor: side < 0 ? 'end' as const : 'start' as const, worse: y > 100 ? 1 : 0 })))
  const words = paper.put(wall_words(figure.available_says), spots)
  if (words) made.append(words)
  return made
}

function said_by(figure: Torque, middle: (index: number) => number): { x: number; y: number; title: string }[] {
  return figure.bars.flatMap((bar, index) => {
    let sum = 0
    return PARTS.filter((part) => bar[part] > 0).map((part) => {
      const x = sum + bar[part] / 2
      sum += bar[part]
      return { x, y: middle(index), title: `${bar.label}\n${WORDS[part]}: ${with_unit(bar[part], figure.axis)}` }
    })
  })
}

function wall_of(figure: Torque): Wall | null {
  return figure.available === null ? null : { on: 'x', at: figure.available, side: 1, label: figure.available_says }
}

export function torque(figure: Torque, width: number): SVGSVGElement {
  const { axis } = figure, dual = Boolean(axis.unit?.other), top = dual ? 36 : 8, room = figure.available === null ? 2 : 18
  const height = top + room + figure.bars.length * PITCH + 37
  const down: Axis = { name: '', from: height - 33, to: top }
  const s = stage([width, height], [top, 10, 33, 4], axis, down)
  const starts = figure.bars.map((_, i) => top + room + i * PITCH)
  const paper = new Paper({ left: s.left + 1, top: top + 1, right: width - 11, bottom: height - 34 })
  const wall = wall_of(figure)
  const edges = wall ? [s.x(wall.at), s.x(wall.at) + 8] : [] // a line and its hatching
  for (const x of edges) paper.keep_off([[x, top], [x, height]])
  const bars = group(...figure.bars.map((bar, i) => draw_bar(s, bar, starts[i], paper)))
  const { kept, word } = dual ? other_unit(s, axis, other_ticks(axis, s.x, 6)) : { kept: [], word: null }
  const letters = group(text(width - 10, height - 3, name_of(axis), { 'text-anchor': 'end', fill: INK }))
  if (word) letters.append(word)
  return Plot.plot({ ...base(s, axis, down), marks: [frame, () => wall ? draw_wall(s, wall) : group(), () => bars,
    ticks_x(own_ticks(axis, s.x, 6)), ...(dual ? [other_x(kept, axis.unit!.factor)] : []),
    () => wall ? wall_letters(s, figure, paper) : group(), () => letters,
    hover(said_by(figure, (index) => starts[index] + 19 + THICK / 2))] }) as SVGSVGElement
}
