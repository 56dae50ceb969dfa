/// Limits: a thick chain line, hatched like a wall in section on the side where nothing may stand.
import type { Wall } from './data'
import { hatched } from './hatch'
import type { Paper, Spot, Words } from './place'
import type { Stage } from './stage'
import type { Point } from './svg'
import { ASK, DASH, WIDE, group, line, rectangle } from './svg'

export const wall_pen = { stroke: ASK, 'stroke-width': WIDE, 'stroke-dasharray': DASH.limit, fill: 'none' }
const STRIP = 15

function ends(s: Stage, wall: Wall): [Point, Point] {
  const at = wall.on === 'x' ? s.x(wall.at) : s.y(wall.at)
  return wall.on === 'x' ? [[at, s.top], [at, s.height - s.bottom]] : [[s.left, at], [s.width - s.right, at]]
}

/// Whether the wall stands in the frame.
export function in_view(s: Stage, wall: Wall): boolean {
  const [[x, y]] = ends(s, wall)
  return x >= s.left - 0.5 && x <= s.width - s.right + 0.5 && y >= s.top - 0.5 && y <= s.height - s.bottom + 0.5
}

export function draw_wall(s: Stage, wall: Wall): SVGElement {
  const [from, to] = ends(s, wall)
  // On paper y runs down: the side of greater y lies above.
  const toward = wall.on === 'x' ? wall.side : -wall.side
  const near = wall.on === 'x' ? from[0] : from[1]
  const edge = wall.on === 'x' ? (toward > 0 ? s.width - s.right : s.left) : (toward > 0 ? s.height - s.bottom : s.top)
  const depth = Math.min(STRIP, Math.abs(edge - near))
  const start = toward > 0 ? near : near - depth
  const strip = wall.on === 'x' ? rectangle(start, s.top, depth, to[1] - s.top, hatched('no'))
    : rectangle(s.left, start, to[0] - s.left, depth, hatched('no'))
  return group(strip, line(from, to, wall_pen))
}

/// Where the words of a wall may stand: along it, over its hatching or on its free side.
export function wall_spots(s: Stage, wall: Wall): Spot[] {
  const [from, to] = ends(s, wall)
  const shares = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8]
  if (wall.on === 'x') {
    return [wall.side, -wall.side].flatMap((side, turn) => shares.map((share, i) => ({
      x: from[0] + side * 8.5, y: from[1] + share * (to[1] - from[1]), anchor: 'middle' as const, upright: true,
      worse: i + 14 * turn })))
  }
  return [1, -1].flatMap((side, turn) => [0, 0.15, 0.3, 0.45, 0.6].flatMap((share, i) => ([
    { x: to[0] - 5 - share * (to[0] - from[0]), y: from[1] + side * wall.side * 8.5, anchor: 'end' as const,
      worse: i + 8 * turn },
    { x: from[0] + 5 + share * (to[0] - from[0]), y: from[1] + side * wall.side * 8.5, anchor: 'start' as const,
      worse: 2 + i + 8 * turn }])))
}

export function wall_words(words: string): Words {
  return { lines: [words], weight: 700, pen: { fill: ASK, 'stroke-width': 5 } }
}

/// The wall as an obstacle for other words.
export function note_wall(paper: Paper, s: Stage, wall: Wall) {
  const [from, to] = ends(s, wall), toward = wall.on === 'x' ? wall.side : -wall.side
  const beside = ([x, y]: Point): Point => wall.on === 'x' ? [x + toward * 8, y] : [x, y + toward * 8]
  paper.keep_off([from, to])
  paper.keep_off([beside(from), beside(to)], 0.3) // its hatching
}
