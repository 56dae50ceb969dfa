/// Real screws by two aims, joined in order of the first; the pick is the full mark.
import * as Plot from '@observablehq/plot'
import type { Axis, Trade } from './data'
import { text_width } from './letters'
import { Paper, around } from './place'
import type { Stage } from './stage'
import {
  base, frame, grid, hover, name_of, other_ticks, other_unit, other_x, other_y, own_ticks, stage, tick_words, ticks_width,
  ticks_x, ticks_y, with_unit,
} from './stage'
import type { Point } from './svg'
import { HAS, INK, NARROW, SOFT, circle, group, outline, path, text } from './svg'

const HEIGHT = 236

function lay_out(figure: Trade, width: number): Stage {
  const { x, y } = figure, rough = stage([width, HEIGHT], [36, 12, 33, 30], x, y)
  const widest = (values: number[]) => Math.max(0, ...values.map((value) => text_width(tick_words(value))))
  const right = Math.max(14, ticks_width(rough, y) + 1)
  return stage([width, HEIGHT], [x.unit?.other ? 36 : 19, right, 33, 9 + widest(own_ticks(y, rough.y, 5))], x, y)
}

/// Marks and their words; a screw whose word finds no room keeps its mark, and the table has its name.
function screws(s: Stage, figure: Trade): SVGElement {
  const at = (point: { x: number; y: number }): Point => [s.x(point.x), s.y(point.y)]
  const sorted = [...figure.points].sort((one, two) => one.x - two.x || one.y - two.y)
  const right = s.width - s.right - 1, bottom = s.height - s.bottom - 1
  const paper = new Paper({ left: s.left + 1, top: s.top + 1, right, bottom })
  paper.keep_off(sorted.map(at))
  for (const [x, y] of sorted.map(at)) paper.boxes.push({ left: x - 3, right: x + 3, top: y - 3, bottom: y + 3 })
  const made = group(path(outline(sorted.map(at)), { stroke: SOFT, 'stroke-width': NARROW, fill: 'none' }))
  for (const point of [...sorted].sort((one, two) => Number(two.pick) - Number(one.pick))) {
    const look = point.pick ? { fill: HAS } : { fill: '#fff', stroke: INK, 'stroke-width': 1.2 }
    made.append(circle(at(point), point.pick ? 4.3 : 3, look))
    const pen = { fill: point.pick ? HAS : INK }
    const words = paper.put({ lines: [point.label], weight: point.pick ? 700 : 400, pen }, around(at(point), 8))
    if (words) made.append(words)
  }
  return made
}

function names(s: Stage, x: Axis, y: Axis): SVGElement {
  const made = group(text(0, 10, name_of(y)), text(s.width - s.right, HEIGHT - 3, name_of(x), { 'text-anchor': 'end' }))
  if (y.unit?.other) made.append(text(s.width, 10, y.unit.other, { 'text-anchor': 'end', fill: SOFT }))
  return made
}

export function trade(figure: Trade, width: number): SVGSVGElement {
  const { x, y } = figure, s = lay_out(figure, width), up = own_ticks(y, s.y, 5)
  const marks: Plot.Markish[] = [Plot.gridY(up, grid), frame, ticks_x(own_ticks(x, s.x, 6)), ticks_y(up)]
  const letters = names(s, x, y)
  if (x.unit?.other) {
    const { kept, word } = other_unit(s, x, other_ticks(x, s.x, 5))
    marks.push(other_x(kept, x.unit.factor))
    if (word) letters.append(word)
  }
  if (y.unit?.other) marks.push(other_y(other_ticks(y, s.y, 5), y.unit.factor))
  const said = figure.points.map((point) => ({ x: point.x, y: point.y, title: `${point.label}\n${x.name} `
    + `${with_unit(point.x, x)}\n${y.name} ${with_unit(point.y, y)}` }))
  return Plot.plot({ ...base(s, x, y), marks: [...marks, () => screws(s, figure), () => letters, hover(said)],
  }) as SVGSVGElement
}
