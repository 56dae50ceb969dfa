/// The words on a plot of lines, each beside what it names.
import type { Line, Lines } from './data'
import type { Weight } from './letters'
import { text_width, wrap } from './letters'
import type { Spot, Words } from './place'
import { HOPELESS, Paper, around, spread } from './place'
import type { Stage } from './stage'
import type { Point } from './svg'
import { DASH, HAS, INK, NARROW, SIZE, SMALL, SOFT, arrow, dimension_pen, group, line, outline, path } from './svg'
import { ticks_width } from './stage'
import { in_view, note_wall, wall_spots, wall_words } from './walls'

type LayOut = (figure: Lines, width: number, beside: number) => Stage

/// With a point every few units, so that a stretch that only passes through the frame is seen there.
function dense(points: Point[]): Point[] {
  return points.flatMap(([x, y], i) => {
    const [to_x, to_y] = points[i + 1] ?? [x, y]
    const count = Math.min(200, Math.max(1, Math.ceil(Math.hypot(to_x - x, to_y - y) / 4)))
    return Array.from({ length: count }, (_, k): Point =>
      [x + ((to_x - x) * k) / count, y + ((to_y - y) * k) / count])
  })
}

/// The part of a line within the frame, in units of the picture.
function visible(s: Stage, one: Line): Point[] {
  const drawn = one.points.map(([x, y]): Point => [s.x(x), s.y(y)])
  const points = dense(drawn.filter(([x, y]) => isFinite(x) && isFinite(y)))
  const within = ([x, y]: Point) => x >= s.left - 1 && x <= s.width - s.right + 1 && y >= s.top - 1
    && y <= s.height - s.bottom + 1
  return points.filter(within)
}

/// Points along a line at equal distances.
function resample(points: readonly Point[], count: number): Point[] {
  if (points.length < 2) return [...points]
  const far = [0]
  for (let i = 1; i < points.length; i++) {
    far.push(far[i - 1] + Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]))
  }
  const whole = far[far.length - 1], found: Point[] = []
  for (let k = 0, i = 1; k < count; k++) {
    const want = (whole * (k + 0.5)) / count
    while (i < far.length - 1 && far[i] < want) i++
    const t = (want - far[i - 1]) / (far[i] - far[i - 1] || 1)
    found.push([points[i - 1][0] + t * (points[i][0] - points[i - 1][0]),
      points[i - 1][1] + t * (points[i][1] - points[i - 1][1])])
  }
  return found
}

/// How much nearer than its own line another one lies: a word must not seem to name a neighbour.
function doubt(at: Point, others: readonly (readonly Point[])[]): number {
  const far = others.flatMap((points) => points.map(([x, y]) => Math.hypot(x - at[0], y - at[1])))
  const near = Math.min(Infinity, ...far)
  return near < 24 ? 24 - near : 0
}

/// Where lines run along the frame, several of them do: a word there names none.
function beside_frame(s: Stage, y: number): number {
  return Math.min(y - s.top, s.height - s.bottom - y) < 14 ? 14 : 0
}

function spots_along(s: Stage, own: readonly Point[], others: readonly (readonly Point[])[]): Spot[] {
  const marks = resample(own, 28)
  return marks.flatMap(([x, y], i): Spot[] => {
    const edge = Math.abs(i - marks.length * 0.45) * 0.35
    const worse = edge + 1.6 * doubt([x, y], others) + beside_frame(s, y)
    return around([x, y], 8).map((spot) => ({ ...spot, worse: worse + 0.5 * (spot.worse ?? 0) }))
  })
}

function colour_of(one: Line): string {
  return one.pen === 'working' || one.bold ? HAS : one.pen === 'soft' ? SOFT : INK
}

function words_of(one: Line, width: number, size = SIZE, weight: Weight = 700, most = 3): Words {
  return { lines: wrap(one.label, width, size, weight, most), size, weight, pen: { fill: colour_of(one) } }
}

/// Whether the words of lines stand in a column at the right, tied to the ends of their lines.
function in_column(figure: Lines): boolean {
  return Boolean(figure.names) || figure.lines.length > 4
}

const TIE = 16

function column_words(figure: Lines, width: number): Words[] {
  const most = width > 500 ? 130 : 84
  const rows = figure.lines.length > 7 ? 1 : 2
  return figure.lines.map((one) => words_of(one, most, SMALL, one.bold ? 700 : 400, rows))
}

/// Lines that leave through the top, or the foot, before the right edge come in the order in which they leave.
function rank(s: Stage, [x, y]: Point): number {
  const early = (s.width - s.right - x) / s.width
  return y - s.top < 4 ? y - early : s.height - s.bottom - y < 4 ? y + early : y
}

function column(paper: Paper, s: Stage, figure: Lines): SVGElement {
  const made = group(), foot = s.height - s.bottom, edge = s.width - s.right, start = edge + ticks_width(s, figure.y)
  const seen = figure.lines.map((one) => visible(s, one)), words = column_words(figure, s.width)
  const tall = Math.max(...words.map((one) => one.lines.length))
  const ends = seen.map((points) => points[points.length - 1] ?? [edge, foot] as Point)
  // Above the frame stands the unit of the other system.
  const top = figure.x.unit?.other && !figure.names ? s.top + 5.5 * tall : s.top - 8
  const gap = Math.min(SMALL * 1.12 * tall + 2, (foot + 10 - top) / Math.max(1, words.length - 1))
  const rows = spread(ends.map((end) => rank(s, end)), gap, top, foot + 10)
  words.forEach((one, i) => {
    if (!seen[i].length) return
    const [x, y] = ends[i]
    made.append(path(outline([[x + 4, y], [start + 5, y], [start + TIE - 3, rows[i]]]), dimension_pen))
    made.append(paper.take(one, { x: start + TIE, y: rows[i], anchor: 'start' }))
  })
  return made
}

/// Room that the column needs at the right.
function column_width(figure: Lines, width: number): number {
  if (!in_column(figure)) return 0
  const words = column_words(figure, width)
  const long = words.flatMap((one) => one.lines.map((row) => text_width(row, SMALL, one.weight)))
  return TIE + Math.max(0, ...long) + 2
}

/// Words on the lines themselves, the one with least room first.
function beside_lines(paper: Paper, s: Stage, figure: Lines): SVGElement {
  const made = group()
  const seen = figure.lines.map((one) => visible(s, one))
  figure.lines.forEach((one, i) => {
    const others = seen.filter((_, k) => k !== i).map((points) => resample(points, 60))
    const room = s.width > 500 ? 150 : 96
    const choices = [[room, SIZE, 700], [64, SIZE, 700], [room, SMALL, 400], [56, SMALL, 400]] as const
    const tried = choices.map(([width, size, weight], turn) => {
      const words = words_of(one, width, size, weight)
      const { spot, cost } = paper.best(words, spots_along(s, seen[i], others))
      return { words, spot, cost: cost + 4 * turn }
    })
    const best = tried.reduce((least, next) => (next.cost < least.cost ? next : least))
    if (best.spot && best.cost < HOPELESS) made.append(paper.take(best.words, best.spot))
  })
  return made
}

function here_letters(paper: Paper, s: Stage, figure: Lines): SVGElement {
  const made = group()
  const pen = { stroke: INK, 'stroke-width': NARROW, 'stroke-dasharray': DASH.centre }, foot = s.height - s.bottom
  for (const { at } of figure.here ?? []) {
    made.append(line([s.x(at), s.top], [s.x(at), foot], pen))
    paper.keep_off([[s.x(at), s.top], [s.x(at), foot]])
  }
  for (const { at, label } of figure.here ?? []) {
    const x = s.x(at)
    const shares = [0, 0.15, 0.3, 0.45, 0.6]
    const upright = [-1, 1].flatMap((side, turn) => shares.map((share, i): Spot => ({ x: x + side * 7.5,
      y: foot - 5 - share * (foot - s.top), anchor: 'start', upright: true, worse: 3 + i + turn })))
    const flat = [foot - 8, s.top + 9].flatMap((y, turn) => [-1, 1].map((side): Spot => ({ x: x + side * 5, y,
      anchor: side < 0 ? 'end' : 'start', worse: turn })))
    const words = paper.put({ lines: [label] }, [...flat, ...upright])
    if (words) made.append(words)
  }
  return made
}

/// What is left over, as a dimension between two heights.
function spare_dimension(paper: Paper, s: Stage, figure: Lines): SVGElement {
  const made = group()
  if (!figure.spare) return made
  const x = s.x(figure.spare.x), from = s.y(figure.spare.from), to = s.y(figure.spare.to)
  const down = to > from ? 90 : -90
  made.append(line([x, from], [x, to], { stroke: INK }), arrow([x, from], -down, INK), arrow([x, to], down, INK))
  paper.keep_off([[x, from], [x, to]])
  const middle = (from + to) / 2
  const spots = [0, -14, 14, -28, 28].flatMap((off) => around([x, middle + off]))
  const words = paper.put({ lines: [figure.spare.label], weight: 700 }, spots)
  if (words) made.append(words)
  return made
}

function mark_letters(paper: Paper, s: Stage, figure: Lines): SVGElement {
  const made = group()
  for (const mark of figure.marks ?? []) {
    const at: Point = [s.x(mark.x), s.y(mark.y)]
    const fill = mark.pen === 'working' ? HAS : INK
    const words = mark.label && paper.put({ lines: [mark.label], pen: { fill } }, around(at))
    if (words) made.append(words)
  }
  return made
}

function wall_letters(paper: Paper, s: Stage, figure: Lines): SVGElement {
  const made = group()
  for (const wall of figure.walls.filter((one) => in_view(s, one))) {
    const words = wall.label && paper.put(wall_words(wall.label), wall_spots(s, wall))
    if (words) made.append(words)
  }
  return made
}

/// A sheet of paper with the lines of the plot on it, and its marks as spots to keep off.
function paper_of(s: Stage, figure: Lines): Paper {
  const paper = new Paper({ left: s.left + 1, top: s.top + 1, right: s.width - s.right - 1, bottom: s.height - s.bottom - 1 })
  for (const one of figure.lines) paper.keep_off(visible(s, one))
  for (const wall of figure.walls) if (in_view(s, wall)) note_wall(paper, s, wall)
  for (const { x, y } of figure.marks ?? []) {
    const at: Point = [s.x(x), s.y(y)]
    paper.boxes.push({ left: at[0] - 3, right: at[0] + 3, top: at[1] - 3, bottom: at[1] + 3 })
  }
  return paper
}

/// All words in place, and the frame they were placed in.
export function line_letters(figure: Lines, width: number, lay_out: LayOut): { placed: SVGElement; s: Stage } {
  const s = lay_out(figure, width, column_width(figure, width))
  const paper = paper_of(s, figure)
  const placed = group(wall_letters(paper, s, figure), here_letters(paper, s, figure), mark_letters(paper, s, figure),
    spare_dimension(paper, s, figure), in_column(figure) ? column(paper, s, figure) : beside_lines(paper, s, figure))
  return { placed, s }
}
