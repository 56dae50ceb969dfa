/// The friction map: one mark a bin of passes, its shape what became of most of them, its size how many.
import * as Plot from '@observablehq/plot'
import type { FrictionMap } from './data'
import { hatched } from './hatch'
import { text_width } from './letters'
import { fig3 } from './numbers'
import type { Stage } from './stage'
import {
  base, frame, hover, name_of, other_ticks, other_y, own_ticks, stage, tick_words, ticks_x, ticks_y,
} from './stage'
import type { Point } from './svg'
import { ASK, HAS, INK, SOFT, circle, element, group, outline, path, rectangle, text } from './svg'
import { wall_pen } from './walls'

type Outcome = FrictionMap['shares'][number]['outcome']

const OUTCOMES: Outcome[] = ['holds', 'short', 'damaged', 'winds back']
const STRIP = 15, FEWEST = 10

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

function letters(s: Stage, figure: FrictionMap, keys: Key[]): SVGElement {
  const made = group(text(s.width - s.right, s.height - 3, figure.x.name, { 'text-anchor': 'end' }),
    text(0, s.top - 9, name_of(figure.y)))
  if (figure.y.unit?.other) {
    made.append(text(s.width, s.top - 9, figure.y.unit.other, { 'text-anchor': 'end', fill: SOFT }))
  }
  for (const { x, y, outcome, words } of keys) {
    made.append(mark_at([x + 5, y], outcome, 4), text(x + 12, y + 3.7, words, { 'font-weight': 700,
      fill: colour_of(outcome) }))
  }
  return made
}

export function friction_map(figure: FrictionMap, width: number, name: string): SVGSVGElement {
  const keys = key_rows(figure, width), top = (keys.length ? keys[keys.length - 1].y + 8 : 0) + 23
  const rough = stage([width, 300], [top, 12, 33, 32], figure.x, figure.y)
  const left = 9 + Math.max(...own_ticks(figure.y, rough.y, 7).map((value) => text_width(tick_words(value))))
  const { unit } = figure.y
  const others = unit?.other ? other_ticks(figure.y, rough.y, 7) : []
  const right = Math.max(12, ...others.map((value) => 9 + text_width(tick_words(value * unit!.factor))))
  const s = stage([width, 252 + top], [top, right, 33, left], figure.x, figure.y)
  const cells = bins(figure), clip = `${name}-frame`
  const drawn = Plot.plot({ ...base(s, figure.x, figure.y),
    marks: [frame, () => group(...figure.curves.map((one) => curve(s, one, clip))), () => all_marks(s, figure, cells),
      ticks_x(own_ticks(figure.x, s.x, 7)), ticks_y(own_ticks(figure.y, s.y, 7)),
      ...(others.length ? [other_y(others, unit!.factor)] : []), () => letters(s, figure, keys),
      hover(cells)] }) as SVGSVGElement
  const inside = rectangle(s.left, s.top, s.width - s.left - s.right, s.height - s.top - s.bottom, {})
  drawn.prepend(element('clipPath', { id: clip }, inside))
  return drawn
}
