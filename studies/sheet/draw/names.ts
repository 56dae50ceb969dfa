/// Named sizes along x: their ticks, and the window of those that hold, drawn as a dimension.
import type { Lines } from './data'
import { text_width } from './letters'
import type { Stage } from './stage'
import { HAS, INK, NARROW, RULE, SMALL, SOFT, arrow, group, line, text } from './svg'

type Name = NonNullable<Lines['names']>[number]

/// How many names stand for one that is written, so that they do not meet.
function pace(names: Name[], step: number, size: number): number {
  const widest = Math.max(...names.map((name) => Math.max(text_width(name.label, size), text_width(name.second, size))))
  return Math.max(1, Math.ceil((widest + 5) / step))
}

/// Above this pace names stand upright, so that more of them can be read.
const MOST = 2

function upright(figure: Lines, room: number): boolean {
  return pace(figure.names!, room / figure.names!.length, SMALL) > MOST
}

/// The room that names, their second lines and the axis' name need below the frame.
export function names_height(figure: Lines, room: number): number {
  const below = figure.x.name ? 14 : 2
  if (!upright(figure, room)) return 8 + 26 + below
  return 12 + Math.max(...figure.names!.map((name) => text_width(name.label, SMALL))) + below
}

function name_at(x: number, y: number, name: Name, standing: boolean): SVGElement {
  const look = { 'font-size': SMALL, 'font-weight': name.holds ? 700 : undefined, fill: name.holds ? HAS : INK }
  if (standing) {
    return text(x + 3.2, y, name.label, { ...look, 'text-anchor': 'end', transform: `rotate(-90 ${x + 3.2} ${y})` })
  }
  const second = { 'font-size': SMALL, 'text-anchor': 'middle', fill: SOFT }
  return group(text(x, y + 8, name.label, { ...look, 'text-anchor': 'middle' }), text(x, y + 20, name.second, second))
}

export function named_ticks(s: Stage, figure: Lines): SVGElement {
  const names = figure.names!, step = s.x(1) - s.x(0), foot = s.height - s.bottom
  const standing = upright(figure, s.width - s.left - s.right)
  const every = standing ? Math.ceil((SMALL + 2) / step) : pace(names, step, SMALL)
  const fitting = names.findIndex((name) => name.holds)
  const first = fitting < 0 ? 0 : fitting % every
  const made = window_dimension(s, names)
  names.forEach((name, i) => {
    made.append(line([s.x(i), foot], [s.x(i), foot + 4], { stroke: RULE }))
    if (i % every === first) made.append(name_at(s.x(i), foot + (standing ? 7 : 8), name, standing))
  })
  return made
}

/// Extension lines and arrows from outside around the sizes that hold.
function window_dimension(s: Stage, names: Name[]): SVGElement {
  const held = names.flatMap((name, i) => name.holds ? [i] : [])
  if (!held.length) return group()
  const half = (s.x(1) - s.x(0)) / 2, y = s.top - 10, pen = { stroke: HAS, 'stroke-width': NARROW }
  const from = s.x(held[0]) - half, to = s.x(held[held.length - 1]) + half, room = to - from
  const inside = room > text_width('fits', undefined, 700) + 4
  const words = text(inside ? (from + to) / 2 : to + 28, y + 3.5, 'fits',
    { 'text-anchor': inside ? 'middle' : 'start', fill: HAS, 'font-weight': 700 })
  return group(line([from, s.top], [from, y - 5], pen), line([to, s.top], [to, y - 5], pen),
    line([Math.max(s.left - 8, from - 24), y], [from, y], pen), line([to, y], [to + 24, y], pen),
    arrow([from, y], 0, HAS), arrow([to, y], 180, HAS), words)
}
