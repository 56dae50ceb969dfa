/// Bars with intervals, one a row, and a column of words at the right.
import * as Plot from '@observablehq/plot'
import type { Axis, Bars } from './data'
import { text_width, wrap } from './letters'
import { fig3 } from './numbers'
import type { Stage } from './stage'
import { base, grid, hover, name_of, own_ticks, stage, tick_words, ticks_x } from './stage'
import { ASK, HAS, INK, NARROW, SOFT, group, halo, line, rectangle, text } from './svg'

type Row = Bars['rows'][number]

const THICK = 15, LEADING = 12.5

interface Place { row: Row; top: number; names: string[]; bar: number }

function within(axis: Axis, value: number): number {
  return Math.min(axis.to, Math.max(axis.from, value))
}

function places(figure: Bars, room: number, top: number): { rows: Place[]; foot: number } {
  let y = top
  const rows = figure.rows.map((row) => {
    const names = wrap(row.label, room, undefined, 400, 2)
    const place = { row, top: y, names, bar: y + LEADING * names.length + 4 }
    y = place.bar + THICK + 10
    return place
  })
  return { rows, foot: y }
}

function interval(s: Stage, axis: Axis, low: number, high: number, y: number): SVGElement {
  const from = s.x(within(axis, low)), to = s.x(within(axis, high)), pen = { stroke: INK, 'stroke-width': 1.2 }
  return group(line([from, y], [to, y], { stroke: '#fff', 'stroke-width': 3.6 }), line([from, y], [to, y], pen),
    line([from, y - 3], [from, y + 3], pen), line([to, y - 3], [to, y + 3], pen))
}

function draw_row(s: Stage, axis: Axis, place: Place): SVGElement {
  const { row, bar } = place, zero = s.x(within(axis, 0)), end = s.x(within(axis, row.value)), y = bar + THICK / 2
  const made = group(rectangle(Math.min(zero, end), bar, Math.abs(end - zero), THICK, { fill: row.missed ? ASK : HAS }))
  if (row.low !== null && row.high !== null) made.append(interval(s, axis, row.low, row.high, y))
  const fill = row.missed ? ASK : INK, negative = row.value < 0
  const edge = row.high === null ? end : s.x(within(axis, row.high))
  const value = negative ? text(end - 6, y + 3.7, row.text, { ...halo, 'text-anchor': 'end', 'font-weight': 700, fill })
    : text(Math.max(end, edge) + 6, y + 3.7, row.text, { ...halo, 'font-weight': 700, fill })
  place.names.forEach((name, i) => made.append(text(4, place.top + LEADING * (i + 1) - 3, name, halo)))
  made.append(value, text(s.width, place.top + LEADING - 3, row.right, { 'text-anchor': 'end', fill }))
  return made
}

function title_of(figure: Bars, row: Row): string {
  const bounds = row.low === null || row.high === null ? '' : ` (${fig3(row.low)} to ${fig3(row.high)})`
  return `${row.label}\n${row.text}${bounds}` + (row.right ? `\n${figure.right_head}: ${row.right}` : '')
}

export function bars(figure: Bars, width: number): SVGSVGElement {
  const { axis } = figure
  const heads = wrap(figure.right_head, 90, undefined, 400, 3)
  const column = Math.max(0, ...[...heads, ...figure.rows.map((row) => row.right)].map((words) => text_width(words)))
  const long = (negative: boolean) => Math.max(0, ...figure.rows.filter((row) => (row.value < 0) === negative)
    .map((row) => text_width(row.text, undefined, 700) + 8))
  const top = Math.max(8, heads.length * LEADING + 2)
  const { rows, foot } = places(figure, width - column - 16, top)
  const down: Axis = { name: '', from: foot, to: top }
  const left = Math.max(4, text_width(tick_words(axis.from)) / 2, long(true)), right = Math.max(12, long(false))
  const s = stage([width, foot + 33], [top, right, 33, left], axis, down)
  const letters = group(text(width, foot + 30, name_of(axis), { 'text-anchor': 'end' }))
  const soft = { 'text-anchor': 'end', fill: SOFT }
  heads.forEach((words, i) => letters.append(text(width, 10 + i * LEADING, words, soft)))
  const ticks = own_ticks(axis, s.x, 5)
  const said = rows.map(({ row, bar }) =>
    ({ x: within(axis, row.value), y: bar + THICK / 2, title: title_of(figure, row) }))
  return Plot.plot({ ...base(s, axis, down), marks: [Plot.gridX(ticks, grid), ticks_x(ticks),
    () => group(...rows.map((place) => draw_row(s, axis, place)),
      line([s.x(within(axis, 0)), top], [s.x(within(axis, 0)), foot], { stroke: INK, 'stroke-width': NARROW })),
    () => letters, hover(said)] }) as SVGSVGElement
}
