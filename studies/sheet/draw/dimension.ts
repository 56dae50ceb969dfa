/// Dimensions after ISO 129-1: text above an unbroken line and read from the right, filled arrows, from outside where
/// there is no room between them.
import { text_width } from './letters'
import type { Point } from './svg'
import { arrow, dimension_pen, dual, group, line } from './svg'

const TIGHT = 26

/// From x1 to x2 on a line at y; extension lines start at the outline, from1 and from2. Words that are longer than the
/// stretch stand behind it.
export function across([x1, x2]: Point, y: number, [from1, from2]: Point, own: string, other = ''): SVGElement {
  const side = (from: number) => Math.sign(y - from) || 1
  const made = group(line([x1, from1 + 2 * side(from1)], [x1, y + 4 * side(from1)], dimension_pen),
    line([x2, from2 + 2 * side(from2)], [x2, y + 4 * side(from2)], dimension_pen))
  const outside = Math.abs(x2 - x1) < TIGHT, out = outside ? 16 : 0
  const long = text_width(other ? `${own} [${other}]` : own), beside = long > Math.abs(x2 - x1) - 2
  const end = Math.max(x1, x2), start = end + out + 3
  made.append(line([x1 - out, y], [beside ? start + long : x2 + out, y], dimension_pen),
    arrow([x1, y], outside ? 0 : 180), arrow([x2, y], outside ? 180 : 0))
  const look = { 'text-anchor': beside ? 'start' : 'middle', 'stroke-width': 3 }
  made.append(dual(beside ? start : (x1 + x2) / 2, y - 5, own, other, look))
  return made
}

/// From y1 to y2 on a line at x, text turned on its left.
export function upright([y1, y2]: Point, x: number, from: number, own: string, other = ''): SVGElement {
  const side = Math.sign(x - from) || 1
  const made = group(line([from + 2 * side, y1], [x + 4 * side, y1], dimension_pen),
    line([from + 2 * side, y2], [x + 4 * side, y2], dimension_pen))
  const outside = Math.abs(y2 - y1) < 18, out = outside ? 14 : 0
  made.append(line([x, y1 - out], [x, y2 + out], dimension_pen), arrow([x, y1], outside ? 90 : -90),
    arrow([x, y2], outside ? -90 : 90))
  const middle = (y1 + y2) / 2
  made.append(dual(x - 5, middle, own, other, { 'text-anchor': 'middle', 'stroke-width': 3,
    transform: `rotate(-90 ${x - 5} ${middle})` }))
  return made
}
