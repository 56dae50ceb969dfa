/// One rung a limit: what the screw has over what is asked, in a log scale; the wall stands at 1.
import * as Plot from '@observablehq/plot'
import type { Axis, Ladder } from './data'
import { fig3 } from './numbers'

import { text_width, wrap } from './letters'
import type { Stage } from './stage'
import { base, frame, grid, hover, own_ticks, stage, ticks_x } from './stage'
import type { Attributes, Point } from './svg'
import { ASK, DASH, GRID, HAS, INK, NARROW, SMALL, SOFT, WIDE, circle, group, halo, line, path, text } from './svg'
import { draw_wall } from './walls'

type Rung = Ladder['rungs'][number]
type State = Rung['states'][number]

interface Row { rung: Rung; top: number; middle: number; height: number; words: { bold: string[]; soft: string[] } }

type Pens = NonNullable<Ladder['pens']>

const PENS: Pens = { working: 'working pull', overload: 'overload pull' }
const LABELS = { wide: 178, narrow: 106 }

function rows_of(figure: Ladder, narrow: boolean, from: number): Row[] {
  let top = from
  return figure.rungs.map((rung) => {
    const room = narrow ? LABELS.narrow : LABELS.wide
    const bold = wrap(rung.label, room, undefined, 700, 2), soft = wrap(rung.sub, room, SMALL, 400, narrow ? 3 : 2)
    const spare = narrow && rung.spare ? 11 : 0
    const height = Math.max(rung.states.length > 1 ? 38 : 30, 12.5 * bold.length + 10.5 * soft.length + 9 + spare)
    const row = { rung, top, middle: top + height / 2, height, words: { bold, soft } }
    top += height
    return row
  })
}

/// The range of the axis: all that is drawn, and enough on both sides of the wall.
function axis_of(figure: Ladder): Axis {
  const states = figure.rungs.flatMap((rung) => rung.states)
  const values = states.flatMap((state) => [state.q05, state.q95, state.nominal, state.judged ?? 1])
    .filter((value) => Number.isFinite(value) && value > 0)
  const from = Math.max(0.01, Math.min(0.8, 0.93 * Math.min(...values)))
  return { name: 'has ÷ asked', log: true, from, to: Math.min(1000, Math.max(2.5, 1.2 * Math.max(...values))) }
}

/// Within the frame; what lies beyond stands at its edge.
function within(axis: Axis, value: number): number {
  return Math.min(axis.to, Math.max(axis.from, Number.isNaN(value) ? axis.from : value))
}

function diamond([x, y]: Point, r: number, pen: Attributes): SVGElement {
  return path(`M${x} ${y - r}l${r} ${r}l${-r} ${r}l${-r} ${-r}Z`, pen)
}

function state_marks(s: Stage, axis: Axis, state: State, y: number): SVGElement {
  const x = (value: number) => s.x(within(axis, value))
  const working = state.pen === 'working', stroke = working ? HAS : INK
  const rule = { stroke, 'stroke-width': working ? WIDE : NARROW * 1.2,
    'stroke-dasharray': working ? undefined : DASH.dashed }
  const end = { stroke, 'stroke-width': 1.3 }, at: Point = [x(state.nominal), y]
  const made = group()
  if (state.q95 > state.q05) {
    made.append(line([x(state.q05), y], [x(state.q95), y], rule))
    for (const value of [state.q05, state.q95]) made.append(line([x(value), y - 3.5], [x(value), y + 3.5], end))
  }
  made.append(working ? circle(at, 4, { fill: HAS }) : diamond(at, 4.6, { fill: '#fff', stroke, 'stroke-width': 1.3 }))
  if (state.judged !== null) made.append(path(`M${x(state.judged)} ${y - 5}l-3.4 -6h6.8Z`, { fill: INK }))
  return made
}

function heights(row: Row): number[] {
  const count = row.rung.states.length, pitch = Math.min(18, (row.height - 4) / Math.max(1, count))
  return row.rung.states.map((_, i) => row.middle + 2 + (i - (count - 1) / 2) * pitch)
}

function label_of(row: Row, narrow: boolean): SVGElement {
  const { bold, soft } = row.words, spare = narrow && row.rung.spare
  const block = 12.5 * bold.length + 10.5 * soft.length + (spare ? 11 : 0)
  let y = row.middle - block / 2 - 2
  const made = group()
  const put = (words: string, pitch: number, look: Attributes) => made.append(text(0, (y += pitch), words, look))
  for (const words of bold) put(words, 12.5, { 'font-weight': 700 })
  for (const words of soft) put(words, 10.5, { 'font-size': SMALL, fill: SOFT })
  if (spare) put(spare_words(row.rung), 11, { 'font-size': SMALL, ...spare_pen(row.rung) })
  return made
}

function spare_words(rung: Rung): string {
  return (rung.holds ? '' : '✕ ') + rung.spare
}

function spare_pen(rung: Rung): Attributes {
  return { fill: rung.holds ? INK : ASK, 'font-weight': rung.holds ? undefined : 700 }
}

/// What solid and dashed mean, beside the first rung that has both.
function pen_words(s: Stage, axis: Axis, rows: Row[], pens: Pens): SVGElement {
  const made = group(), row = rows.find((one) => one.rung.states.length > 1)
  if (!row) return made
  const at = heights(row)
  row.rung.states.forEach((state, i) => {
    const words = pens[state.pen], long = text_width(words)
    const right = s.x(within(axis, Math.max(state.q95, state.nominal, state.judged ?? 0))) + 8
    const left = s.x(within(axis, Math.min(state.q05, state.nominal, state.judged ?? axis.to))) - 8
    const fits = right + long < s.width - s.right - 2
    made.append(text(fits ? right : left, at[i] + 3.5, words, { ...halo, 'font-style': 'italic',
      'text-anchor': fits ? 'start' : 'end', fill: state.pen === 'working' ? HAS : INK }))
  })
  return made
}

function letters(s: Stage, axis: Axis, rows: Row[], narrow: boolean): SVGElement {
  const made = group(text(s.x(1), s.top - 6, 'limit', { 'text-anchor': 'middle', fill: ASK, 'font-weight': 700 }),
    text(s.width - s.right, s.height - 3, axis.name, { 'text-anchor': 'end' }))
  if (!narrow) made.append(text(s.width, s.top - 6, 'to spare', { 'text-anchor': 'end', fill: SOFT }))
  for (const row of rows) {
    made.append(label_of(row, narrow))
    if (!narrow && row.rung.spare) {
      const pen = { 'text-anchor': 'end', ...spare_pen(row.rung) }
      made.append(text(s.width, row.middle + 3.5, spare_words(row.rung), pen))
    }
  }
  return made
}

function marks(s: Stage, axis: Axis, rows: Row[]): SVGElement {
  const made = group()
  for (const row of rows) {
    if (row !== rows[0]) made.append(line([0, row.top], [s.width, row.top], { stroke: GRID, 'stroke-width': NARROW }))
    const at = heights(row)
    row.rung.states.forEach((state, i) => made.append(state_marks(s, axis, state, at[i])))
  }
  return made
}

function said_by(axis: Axis, rows: Row[], pens: Pens): { x: number; y: number; title: string }[] {
  return rows.flatMap((row) => row.rung.states.map((state, i) => ({
    x: within(axis, state.nominal), y: heights(row)[i],
    title: `${row.rung.label}, ${pens[state.pen]}\nhas ÷ asked: nominal ${fig3(state.nominal)}\n5 to 95 of 100: `
      + `${fig3(state.q05)} to ${fig3(state.q95)}`
      + (state.judged === null ? '' : `\njudged at ${fig3(state.judged)}`) })))
}

export function ladder(figure: Ladder, width: number): SVGSVGElement {
  const narrow = width < 500, axis = axis_of(figure), top = 18, pens = figure.pens ?? PENS
  const rows = rows_of(figure, narrow, top)
  const height = rows.reduce((sum, row) => sum + row.height, top) + 32
  const longest = Math.max(48, ...figure.rungs.map((rung) => text_width(spare_words(rung), undefined, 700)))
  const spare = narrow ? 8 : 14 + longest
  const down: Axis = { name: '', from: height - 32, to: top } // y in units of the picture
  const s = stage([width, height], [top, spare, 32, (narrow ? LABELS.narrow : LABELS.wide) + 8], axis, down)
  const ticks = own_ticks(axis, s.x, narrow ? 5 : 9)
  return Plot.plot({ ...base(s, axis, down), marks: [Plot.gridX(ticks, grid), frame,
    () => draw_wall(s, { on: 'x', at: 1, side: -1, label: '' }), ticks_x(ticks), () => marks(s, axis, rows),
    () => letters(s, axis, rows, narrow), () => pen_words(s, axis, rows, pens), hover(said_by(axis, rows, pens))],
  }) as SVGSVGElement
}
