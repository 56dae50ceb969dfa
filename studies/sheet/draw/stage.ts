/// The frame of a plot: margins, scales and round ticks, known before anything is drawn, so that labels can be placed.
import * as Plot from '@observablehq/plot'
import { scaleLinear, scaleLog, ticks } from 'd3'
import type { Axis } from './data'
import { fig3, plain } from './numbers'
import { text_width } from './letters'
import { GRID, INK, NARROW, RULE, SIZE, SOFT, text } from './svg'

export interface Stage {
  width: number
  height: number
  left: number     // margins
  right: number
  top: number
  bottom: number
  x: (value: number) => number
  y: (value: number) => number
}

/// A mark that draws by itself, in units of the picture.
export type Freehand = () => SVGElement

export function stage(size: [number, number], margins: [number, number, number, number], x: Axis, y: Axis): Stage {
  const [width, height] = size.map(Math.round)
  const [top, right, bottom, left] = margins
  return { width, height, left, right, top, bottom,
    x: scale(x, [left, width - right]), y: scale(y, [height - bottom, top]) }
}

function scale(axis: Axis, range: [number, number]): (value: number) => number {
  return (axis.log ? scaleLog() : scaleLinear()).domain([axis.from, axis.to]).range(range)
}

const LADDERS = [[1, 2, 5], [1, 3], [1]]

function decade_steps(from: number, to: number, steps: number[]): number[] {
  const found: number[] = []
  for (let decade = Math.floor(Math.log10(from)); decade <= Math.ceil(Math.log10(to)); decade++) {
    found.push(...steps.map((step) => Number(`${step}e${decade}`)))
  }
  return found.filter((value) => value >= from * 0.9999 && value <= to * 1.0001)
}

/// Ticks printed without idle zeros, but with as many figures as tell them apart.
export function tick_words(value: number): string {
  return Math.abs(value) >= 1000 && Number(value.toPrecision(3)) !== value
    ? String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, '\u202f') : plain(value)
}

/// Of ticks in order those whose words do not meet: every second one, every third one … as far as needed.
export function thin_out(values: number[], at: (value: number) => number, words = tick_words, gap = 8): number[] {
  for (let pace = 1; pace < values.length; pace++) {
    const kept = values.filter((_, i) => i % pace === 0)
    const meet = kept.some((value, i) => i > 0 && Math.abs(at(value) - at(kept[i - 1]))
      < (text_width(words(value)) + text_width(words(kept[i - 1]))) / 2 + gap)
    if (!meet) return kept
  }
  return values.slice(0, 1)
}

/// The finest round values of a log axis whose words do not meet.
function log_ticks(from: number, to: number, at: (value: number) => number): number[] {
  for (const steps of LADDERS) {
    const found = decade_steps(from, to, steps)
    if (found.length > 1 && thin_out(found, at).length === found.length) return found
  }
  return thin_out(decade_steps(from, to, [1]), at)
}

export function own_ticks(axis: Axis, at: (value: number) => number, count: number): number[] {
  if (axis.log && axis.to / axis.from >= 4) return log_ticks(axis.from, axis.to, at)
  return thin_out(ticks(axis.from, axis.to, count), at)
}

/// Round values of the other system, in own units.
export function other_ticks(axis: Axis, at: (value: number) => number, count: number): number[] {
  const factor = axis.unit!.factor
  const other = { ...axis, from: axis.from * factor, to: axis.to * factor }
  return own_ticks(other, (value) => at(value / factor), count).map((value) => value / factor)
}

/// Room that ticks of the other system take right of the frame.
export function ticks_width(s: Stage, y: Axis): number {
  if (!y.unit?.other) return 0
  const { factor } = y.unit
  return 9 + Math.max(0, ...other_ticks(y, s.y, 5).map((value) => text_width(tick_words(rounded(value * factor)))))
}

/// Without the dust of two conversions.
function rounded(value: number): number {
  return Number(value.toPrecision(6))
}

export function name_of(axis: Axis): string {
  return axis.unit?.own ? `${axis.name}, ${axis.unit.own}` : axis.name
}

/// What all plots share. The letters come from the page, or from the file a figure is saved in.
export function base(s: Stage, x: Axis, y: Axis) {
  const kind = (axis: Axis) => ({ type: axis.log ? 'log' as const : 'linear' as const, axis: null,
    domain: [axis.from, axis.to] })
  return {
    document, className: 'fig', width: s.width, height: s.height, x: kind(x), y: kind(y),
    r: { type: 'identity' as const },
    marginLeft: s.left, marginRight: s.right, marginTop: s.top, marginBottom: s.bottom,
    style: { fontSize: `${SIZE}px`, background: 'none', overflow: 'visible', color: INK },
  }
}

const tick = { tickSize: 4, stroke: RULE, label: null, labelArrow: 'none' as const, fontVariant: 'inherit' }
// d3 leaves out labels of a log axis even where a tick was asked for; a large count shows them all.
const all = { ticks: 1000 } as object

export function ticks_x(values: number[], words = tick_words): Plot.Markish {
  return Plot.axisX(values, { ...tick, ...all, tickFormat: words, fill: INK })
}

export function ticks_y(values: number[], words = tick_words): Plot.Markish {
  return Plot.axisY(values, { ...tick, ...all, tickFormat: words, fill: INK })
}

export function other_x(values: number[], factor: number): Plot.Markish {
  return Plot.axisX(values, { ...tick, ...all, anchor: 'top', fill: SOFT,
    tickFormat: (value: number) => tick_words(rounded(value * factor)) })
}

export function other_y(values: number[], factor: number): Plot.Markish {
  return Plot.axisY(values, { ...tick, ...all, anchor: 'right', fill: SOFT,
    tickFormat: (value: number) => tick_words(rounded(value * factor)) })
}

export const frame = Plot.frame({ stroke: RULE, strokeWidth: NARROW })
export const grid = { stroke: GRID, strokeOpacity: 1, strokeWidth: NARROW }

export const tip = { stroke: RULE, strokeWidth: NARROW, fontSize: 11.5, textPadding: 7, pathFilter: 'none' }

/// What the pointer says: one tip a figure.
export function hover(points: { x: number; y: number; title: string }[]): Plot.Markish {
  return Plot.tip(points, Plot.pointer({ ...tip, x: 'x', y: 'y', title: 'title' } as object))
}

/// "22 kN [4 950 lbf]", for the pointer.
export function with_unit(value: number, axis: Axis): string {
  const unit = axis.unit
  if (!unit?.own) return fig3(value)
  return `${fig3(value)} ${unit.own}` + (unit.other ? ` [${fig3(value * unit.factor)} ${unit.other}]` : '')
}

/// The unit of the other system after the last of its ticks, above the frame; ticks that leave it no room are dropped.
export function other_unit(s: Stage, axis: Axis, values: number[]): { kept: number[]; word: SVGElement | null } {
  const { other, factor } = axis.unit!
  const kept = [...values]
  while (kept.length) {
    const last = kept[kept.length - 1]
    const x = s.x(last) + text_width(tick_words(rounded(last * factor))) / 2 + 4
    if (x + text_width(other) <= s.width - 1) return { kept, word: text(x, s.top - 8.5, other, { fill: SOFT }) }
    kept.pop()
  }
  return { kept, word: null }
}
