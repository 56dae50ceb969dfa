/// Bars with intervals, one a row, and a column of words at the right.
import * as Plot from '@observablehq/plot'
import type { Axis, Bars } from './data'
import { shorten, text_width, wrap } from './letters'
import { fig3 } from './numbers'
import type { Stage } from './stage'
import { base, grid, hover, name_of, own_ticks, stage, tick_words, ticks_x } from './stage'
import { ASK, HAS, INK, NARROW, SOFT, group, halo, line, rectangle, text } from './svg'

type Row = Bars['rows'][number]

const THICK = 15, LEADING = 12.5, COLUMN = 98, GAP = 10, FOOT = 33

interface Place { row: Row; top: number; names: string[]; words: string[]; bar: number }

function within(axis: Axis, value: number): number {
  return Math.min(axis.to, Math.max(axis.from, value))
}

/// Rows from top to foot: the name, which takes the whole width, then the bar, as high as the words beside it.
function places(figure: Bars, width: number, top: number): { rows: Place[]; foot: number } {
  let y = top
  const rows = figure.rows.map((row) => {
    const names = wrap(row.label, width - 8, undefined, 400, 2)
    const words = wrap(row.right.replace(' …', '\u00a0…'), COLUMN, undefined, 400, 2)
    const high = Math.max(THICK, LEADING * words.length)
    const place = { row, top: y, names, words, bar: y + LEADING * names.length + 3 + (high - THICK) / 2 }
    y = place.bar + (high + THICK) / 2 + 9
    return place
  })
  return { rows, foot: y }
}

function interval(s: Stage, axis: Axis, low: number, high: number, y: number): SVGElement {
  const from = s.x(within(axis, low)), to = s.x(within(axis, high)), pen = { stroke: INK, 'stroke-width': 1.2 }
  return group(line([from, y], [to, y], { stroke: '#fff', 'stroke-width': 3.6 }), line([from, y], [to, y], pen),
    line([from, y - 3], [from, y + 3], pen), line([to, y - 3], [to, y + 3], pen))
}

/// Where a bar and its interval end at the right: its value stands behind, that of a bar to the left behind zero.
function right_end(s: Stage, axis: Axis, row: Row): number {
  return Math.max(...[0, row.value, row.high ?? 0].map((value) => s.x(within(axis, value))))
}

function draw_row(s: Stage, axis: Axis, place: Place): SVGElement {
  const { row, bar } = place, zero = s.x(within(axis, 0)), end = s.x(within(axis, row.value)), y = bar + THICK / 2
  const made = group(rectangle(Math.min(zero, end), bar, Math.abs(end - zero), THICK, { fill: row.missed ? ASK : HAS }))
  if (row.low !== null && row.high !== null) made.append(interval(s, axis, row.low, row.high, y))
  const fill = row.missed ? ASK : INK, first = y + 3.7 - (LEADING * (place.words.length - 1)) / 2
  place.names.forEach((name, i) => made.append(text(4, place.top + LEADING * (i + 1) - 3, name, halo)))
  made.append(text(right_end(s, axis, row) + 6, y + 3.7, row.text, { ...halo, 'font-weight': 700, fill }))
  place.words.forEach((words, i) =>
    made.append(text(s.width, first + LEADING * i, words, { 'text-anchor': 'end', fill })))
  return made
}

/// The frame, narrow enough that every value has room behind its bar and every tick stands in the picture.
function lay_out(figure: Bars, size: [number, number], top: number, column: number): Stage {
  const { axis } = figure, down: Axis = { name: '', from: size[1] - FOOT, to: top }
  const left = Math.max(4, text_width(tick_words(axis.from)) / 2 + 1)
  let right = Math.max(column + GAP, text_width(tick_words(axis.to)) / 2 + 1)
  const framed = () => stage(size, [top, right, FOOT, left], axis, down)
  const lack = (s: Stage) => Math.max(...figure.rows.map((row) =>
    right_end(s, axis, row) + 6 + text_width(row.text, undefined, 700) + GAP + column - s.width))
  for (let turn = 0; turn < 8 && lack(framed()) > 0; turn++) right += lack(framed())
  return framed()
}

/// Heads of the column and the name of the axis, which ends with it or, where it is long, takes the whole width.
function letters_of(s: Stage, figure: Bars, heads: string[], foot: number): SVGElement {
  const name = name_of(figure.axis), end = Math.min(s.width, Math.max(s.width - s.right, text_width(name) + 1))
  const made = group(text(end, foot + 30, shorten(name, s.width), { 'text-anchor': 'end' }))
  const soft = { 'text-anchor': 'end', fill: SOFT }
  heads.forEach((words, i) => made.append(text(s.width, 10 + i * LEADING, words, soft)))
  return made
}

function title_of(figure: Bars, row: Row): string {
  const bounds = row.low === null || row.high === null ? '' : ` (${fig3(row.low)} to ${fig3(row.high)})`
  return `${row.label}\n${row.text}${bounds}` + (row.right ? `\n${figure.right_head}: ${row.right}` : '')
}

export function bars(figure: Bars, width: number): SVGSVGElement {
  const { axis } = figure, heads = wrap(figure.right_head, COLUMN, undefined, 400, 3)
  const top = Math.max(8, heads.length * LEADING + 2), { rows, foot } = places(figure, width, top)
  const column = Math.max(0, ...[...heads, ...rows.flatMap((row) => row.words)].map((words) => text_width(words)))
  const s = lay_out(figure, [width, foot + FOOT], top, column), down: Axis = { name: '', from: foot, to: top }
  const ticks = own_ticks(axis, s.x, 5), zero = s.x(within(axis, 0))
  const said = rows.map(({ row, bar }) =>
    ({ x: within(axis, row.value), y: bar + THICK / 2, title: title_of(figure, row) }))
  return Plot.plot({ ...base(s, axis, down), marks: [Plot.gridX(ticks, grid), ticks_x(ticks),
    () => line([zero, top], [zero, foot], { stroke: INK, 'stroke-width': NARROW }),
    () => group(...rows.map((place) => draw_row(s, axis, place))), () => letters_of(s, figure, heads, foot),
    hover(said)] }) as SVGSVGElement
}
