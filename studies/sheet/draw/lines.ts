/// Lines over an axis: chances, first to go, reach, what the handle gives, the window of sizes, settling.
import * as Plot from '@observablehq/plot'
import type { Line, Lines } from './data'
import { line_letters } from './line_letters'
import { named_ticks, names_height } from './names'
import type { Stage } from './stage'
import {
  base, frame, grid, hover, name_of, other_ticks, other_unit, other_x, other_y, own_ticks, stage, tick_words, ticks_width,
  ticks_x, ticks_y, with_unit,
} from './stage'
import { text_width } from './letters'
import { DASH, HAS, INK, NARROW, SOFT, WIDE, group, rectangle, text } from './svg'
import { draw_wall, in_view } from './walls'

const OTHER_DASHES = ['', DASH.dashed, DASH.centre, DASH.dotted, DASH.phantom, '8 3']
const SYMBOLS = ['circle', 'square', 'diamond', 'triangle', 'times', 'plus'] as const
const NAMES_BELOW = 48 // what names in two lines take
const FOOT = 0.21 // share of the plot's height that its histogram takes

function pen_of(line: Line, index: number) {
  if (line.pen === 'working' || line.bold) return { stroke: HAS, strokeWidth: WIDE }
  if (line.pen === 'overload') return { stroke: INK, strokeWidth: 1.3, strokeDasharray: DASH.dashed }
  const soft = line.pen === 'soft'
  const dash = soft ? DASH.dashed : OTHER_DASHES[index % OTHER_DASHES.length]
  return { stroke: soft ? SOFT : INK, strokeWidth: NARROW, strokeDasharray: dash || undefined }
}

function draw_line(line: Line, index: number): Plot.Markish[] {
  const pen = pen_of(line, index)
  const marks: Plot.Markish[] = [Plot.line(line.points, { x: '0', y: '1', ...pen, clip: true })]
  if (line.symbols) {
    const strong = line.bold || line.pen === 'working'
    marks.push(Plot.dot(line.points, { x: '0', y: '1', symbol: SYMBOLS[index % SYMBOLS.length], r: strong ? 3.6 : 3,
      fill: strong ? pen.stroke : '#fff', stroke: pen.stroke, strokeWidth: 1.2, clip: true }))
  }
  return marks
}

function draw_band(line: Line): Plot.Markish {
  const fill = line.pen === 'working' || line.bold ? HAS : INK
  return Plot.areaY(line.band!, { x: '0', y1: '1', y2: '2', fill, fillOpacity: 0.16, clip: true })
}

function histogram(s: Stage, figure: Lines): SVGElement {
  const foot = s.height - s.bottom, high = FOOT * (foot - s.top)
  const bars = (figure.bars ?? []).map(({ from, to, share, pen }) => {
    const left = Math.max(s.left, s.x(from)), right = Math.min(s.width - s.right, s.x(to))
    const look = pen === 'working' ? { fill: HAS, opacity: 0.2 } : { fill: INK, opacity: 0.12 }
    return rectangle(left, foot - share * high, Math.max(0, right - left), share * high, look)
  })
  return group(...bars)
}

/// Columns behind the named sizes where every limit holds.
function fitting(s: Stage, figure: Lines): SVGElement {
  const half = (s.x(1) - s.x(0)) / 2, high = s.height - s.top - s.bottom
  const held = (figure.names ?? []).flatMap((name, i) => name.holds ? [s.x(i)] : [])
  return group(...held.map((x) => rectangle(x - half, s.top, 2 * half, high, { fill: HAS, opacity: 0.1 })))
}

function dots(figure: Lines): Plot.Markish[] {
  const marks = figure.marks ?? []
  const full = { r: 3.4, fill: HAS, stroke: '#fff', strokeWidth: 0.6 }
  const open = { r: 3.6, symbol: 'diamond' as const, fill: '#fff', stroke: INK, strokeWidth: 1.2 }
  return [Plot.dot(marks.filter((mark) => mark.pen === 'working'), { x: 'x', y: 'y', ...full }),
    Plot.dot(marks.filter((mark) => mark.pen !== 'working'), { x: 'x', y: 'y', ...open })]
}

function said_by(figure: Lines): { x: number; y: number; title: string }[] {
  const along = (x: number) => figure.names?.[x]?.label ?? `${figure.x.name} ${with_unit(x, figure.x)}`
  const shown = ([, y]: [number, number]) => y >= figure.y.from && y <= figure.y.to
  return figure.lines.flatMap((line) => line.points.filter(shown).map(([x, y]) => ({
    x, y, title: `${line.label}\n${along(x)}\n${figure.y.name} ${with_unit(y, figure.y)}` })))
}

/// Room left of the frame for the ticks of y, right of it for those of the other system and for words of lines.
function lay_out(figure: Lines, width: number, beside: number): Stage {
  const { x, y } = figure
  const rough = stage([width, figure.height], [18, 10, 32, 30], x, y)
  const widest = (words: string[]) => Math.max(0, ...words.map((word) => text_width(word)))
  const left = 9 + widest(own_ticks(y, rough.y, 5).map((value) => tick_words(value)))
  const end_word = figure.names ? 0 : text_width(tick_words(x.to)) / 2 + 1
  const right = Math.max(10, ticks_width(rough, y) + beside, end_word)
  const top = x.unit?.other && !figure.names ? 36 : figure.names ? 30 : 19
  const bottom = figure.names ? names_height(figure, width - left - right) : 33
  const standing = Math.max(0, bottom - NAMES_BELOW) // names that stand upright take nothing from the plot
  return stage([width, figure.height + standing], [top, right, bottom, left], x, y)
}

/// Names of both axes, and units of the other system.
function axis_names(s: Stage, figure: Lines): SVGElement {
  const made = group(text(0, 10, figure.y.unit?.own ? name_of(figure.y) : figure.y.name))
  if (!figure.names || figure.x.name) {
    made.append(text(s.width - s.right, s.height - 3, name_of(figure.x), { 'text-anchor': 'end' }))
  }
  if (figure.y.unit?.other) {
    made.append(text(s.width, 10, figure.y.unit.other, { 'text-anchor': 'end', fill: SOFT }))
  }
  return made
}

function scales(s: Stage, figure: Lines): { marks: Plot.Markish[]; letters: SVGElement } {
  const { x, y } = figure
  const letters = axis_names(s, figure)
  const up = own_ticks(y, s.y, 5)
  const marks: Plot.Markish[] = [Plot.gridY(up, grid), ticks_y(up)]
  if (y.unit?.other) marks.push(other_y(other_ticks(y, s.y, 5), y.unit.factor))
  if (figure.names) {
    letters.append(named_ticks(s, figure))
    return { marks, letters }
  }
  marks.push(ticks_x(own_ticks(x, s.x, s.width > 500 ? 9 : 6)))
  if (x.unit?.other) {
    const { kept, word } = other_unit(s, x, other_ticks(x, s.x, s.width > 500 ? 9 : 5))
    marks.push(other_x(kept, x.unit.factor))
    if (word) letters.append(word)
  }
  return { marks, letters }
}

export function lines(given: Lines, width: number): SVGSVGElement {
  const counted = { ...given.x, log: false, from: -0.5, to: (given.names?.length ?? 0) - 0.5 }
  const figure = given.names ? { ...given, x: counted } : given
  const { placed, s } = line_letters(figure, width, lay_out)
  const { marks, letters } = scales(s, figure)
  const walls = figure.walls.filter((wall) => in_view(s, wall)).map((wall) => draw_wall(s, wall))
  const banded = figure.lines.filter((line) => line.band)
  return Plot.plot({ ...base(s, figure.x, figure.y),
    marks: [() => fitting(s, figure), ...marks, () => histogram(s, figure), ...banded.map(draw_band), frame,
      () => group(...walls), ...figure.lines.flatMap(draw_line), ...dots(figure), () => letters, () => placed,
      hover(said_by(figure))],
  }) as SVGSVGElement
}
