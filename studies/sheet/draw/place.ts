/// Finding room for words: texts never meet, and keep off lines, walls and the frame where they can.
import type { Weight } from './letters'
import { text_width } from './letters'
import type { Attributes, Point } from './svg'
import { SIZE, element, halo, neat, text } from './svg'

export interface Box { left: number; top: number; right: number; bottom: number }
export type Anchor = 'start' | 'middle' | 'end'

/// Where words may stand: x at their anchor, y at the middle of their height. `worse` is what it costs by itself.
export interface Spot { x: number; y: number; anchor: Anchor; upright?: boolean; worse?: number }

export interface Words { lines: string[]; size?: number; weight?: Weight; pen?: Attributes }

export const HOPELESS = 1000 // a spot that costs as much meets other words or leaves the picture

const LEADING = 1.15

export function box_at(words: Words, spot: Spot): Box {
  const size = words.size ?? SIZE
  const long = Math.max(...words.lines.map((line) => text_width(line, size, words.weight)))
  const high = size * (LEADING * (words.lines.length - 1) + 0.95)
  const start = spot.anchor === 'start' ? 0 : spot.anchor === 'end' ? -long : -long / 2
  if (!spot.upright) {
    return { left: spot.x + start, right: spot.x + start + long, top: spot.y - high / 2, bottom: spot.y + high / 2 }
  }
  return { left: spot.x - high / 2, right: spot.x + high / 2, top: spot.y - start - long, bottom: spot.y - start }
}

export function letters_at(words: Words, spot: Spot): SVGElement {
  const size = words.size ?? SIZE
  const first = 0.35 * size - (size * LEADING * (words.lines.length - 1)) / 2
  const turned = spot.upright ? { transform: `rotate(-90 ${neat(spot.x)} ${neat(spot.y)})` } : {}
  const look = { 'font-size': size, 'font-weight': words.weight === 700 ? 700 : undefined, 'text-anchor': spot.anchor }
  const made = text(spot.x, spot.y + first, '', { ...halo, ...look, ...turned, ...words.pen })
  if (words.lines.length === 1) made.append(words.lines[0])
  else words.lines.forEach((line, i) => made.append(element('tspan', { x: spot.x, dy: i ? size * LEADING : 0 }, line)))
  return made
}

function overlap(one: Box, two: Box, gap: number): boolean {
  return one.left < two.right + gap && two.left < one.right + gap && one.top < two.bottom + gap
    && two.top < one.bottom + gap
}

/// How much of a stretch lies in the box, in units.
function length_inside(box: Box, [ax, ay]: Point, [bx, by]: Point): number {
  let from = 0, to = 1
  const cut = (delta: number, room: number): boolean => {
    if (delta === 0) return room >= 0
    const t = room / delta
    if (delta > 0) to = Math.min(to, t)
    else from = Math.max(from, t)
    return from <= to
  }
  const dx = bx - ax, dy = by - ay
  const meets = cut(-dx, ax - box.left) && cut(dx, box.right - ax) && cut(-dy, ay - box.top) && cut(dy, box.bottom - ay)
  return meets ? (to - from) * Math.hypot(dx, dy) : 0
}

function line_inside(box: Box, points: readonly Point[]): number {
  let inside = 0
  for (let i = 1; i < points.length; i++) inside += length_inside(box, points[i - 1], points[i])
  return inside
}

/// What already stands on the paper.
export class Paper {
  readonly boxes: Box[] = []
  readonly lines: { points: readonly Point[]; weight: number }[] = []
  constructor(readonly bounds: Box) {}

  /// A line to keep off; one of less weight may rather be crossed.
  keep_off(points: readonly Point[], weight = 1) {
    this.lines.push({ points, weight })
  }

  cost(words: Words, spot: Spot): number {
    const box = box_at(words, spot)
    const { left, top, right, bottom } = this.bounds
    if (box.left < left || box.top < top || box.right > right || box.bottom > bottom) return 10 * HOPELESS
    if (this.boxes.some((other) => overlap(box, other, 1.5))) return HOPELESS
    const roomy = { left: box.left - 2, right: box.right + 2, top: box.top - 1, bottom: box.bottom + 1 }
    const crossed = this.lines.reduce((sum, { points, weight }) =>
      sum + weight * Math.min(60, 2 * line_inside(roomy, points)), 0)
    return crossed + (spot.worse ?? 0)
  }

  /// The best of the spots and its cost; the words are not placed yet.
  best(words: Words, spots: Spot[]): { spot: Spot; cost: number } {
    let found = { spot: spots[0], cost: Infinity }
    for (const spot of spots) {
      const cost = this.cost(words, spot)
      if (cost < found.cost) found = { spot, cost }
    }
    return found
  }

  take(words: Words, spot: Spot): SVGElement {
    this.boxes.push(box_at(words, spot))
    return letters_at(words, spot)
  }

  /// Words at the best of the spots; null where they would meet others or leave the picture at every one.
  put(words: Words, spots: Spot[]): SVGElement | null {
    const { spot, cost } = this.best(words, spots)
    return cost < HOPELESS ? this.take(words, spot) : null
  }
}

/// Positions at least `gap` apart and within the bounds, as near to those wanted as that allows; order is kept.
export function spread(wanted: number[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a] - wanted[b])
  const at = order.map((i) => wanted[i])
  for (let pass = 0; pass < 300; pass++) {
    for (let i = 1; i < at.length; i++) {
      const lack = gap - (at[i] - at[i - 1])
      if (lack > 0) { at[i - 1] -= lack / 2; at[i] += lack / 2 }
    }
    if (at.length && at[0] < low) at[0] = low
    if (at.length && at[at.length - 1] > high) at[at.length - 1] = high
  }
  const placed: number[] = []
  order.forEach((index, i) => { placed[index] = at[i] })
  return placed
}

/// Spots around a point, the right of it first.
export function around([x, y]: Point, off = 7): Spot[] {
  return [
    { x: x + off, y, anchor: 'start' }, { x: x - off, y, anchor: 'end', worse: 3 },
    { x: x + off, y: y - 9, anchor: 'start', worse: 2 }, { x: x + off, y: y + 9, anchor: 'start', worse: 2 },
    { x: x - off, y: y - 9, anchor: 'end', worse: 4 }, { x: x - off, y: y + 9, anchor: 'end', worse: 4 },
    { x, y: y - 12, anchor: 'middle', worse: 4 }, { x, y: y + 12, anchor: 'middle', worse: 5 },
  ]
}
