/// The drawing office: elements, pens and line types. One unit is 1/96 inch on paper, 1 px = 0.26 mm.

export const INK = '#1a1a1a', SOFT = '#595959', RULE = '#8c8c8c', GRID = '#dcdcdc'
export const HAS = '#12457e' // blue pencil: what the screw has
export const ASK = '#bf3f10' // checker's red: what is asked, and every miss
export const WIDE = 1.9, NARROW = 0.95 // ISO 128 line group 0.5
export const SIZE = 10.5, SMALL = 9.5, SUBSCRIPT = 8 // lettering
/// ISO 128 dashes: 02 dashed, 04 long-dashed dotted, 05 long-dashed double-dotted, and the wall of a limit.
export const DASH = {
  dashed: '5 2.5', centre: '14 2.5 1.5 2.5', phantom: '12 2.5 1.5 2.5 1.5 2.5', limit: '11 2.8 2 2.8', dotted: '2 2',
}

export type Attributes = Record<string, string | number | undefined>
export type Point = readonly [number, number]

const SVG_SPACE = 'http://www.w3.org/2000/svg'

export function element(name: string, attributes: Attributes = {}, ...kids: (SVGElement | string)[]): SVGElement {
  const made = document.createElementNS(SVG_SPACE, name) as SVGElement
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== undefined) made.setAttribute(key, typeof value === 'number' ? neat(value) : value)
  }
  for (const kid of kids) made.append(kid)
  return made
}

/// A coordinate to a hundredth of a unit.
export function neat(value: number): string {
  return String(Math.round(value * 100) / 100)
}

export function picture(width: number, height: number): SVGSVGElement {
  return element('svg', { viewBox: `0 0 ${width} ${height}`, width, height, class: 'fig' }) as SVGSVGElement
}

export const thick = { fill: 'none', stroke: INK, 'stroke-width': WIDE, 'stroke-linejoin': 'round' }
export const thin = { fill: 'none', stroke: INK, 'stroke-width': NARROW }
export const dimension_pen = { fill: 'none', stroke: SOFT, 'stroke-width': 0.8 }
export const centre_line = { ...thin, 'stroke-width': 0.8, 'stroke-dasharray': DASH.centre }
export const phantom = { fill: 'none', stroke: SOFT, 'stroke-width': 0.8, 'stroke-dasharray': DASH.phantom }

export function line(from: Point, to: Point, pen: Attributes = thin): SVGElement {
  return element('line', { x1: from[0], y1: from[1], x2: to[0], y2: to[1], ...pen })
}

/// Path data of a line through points.
export function outline(points: readonly Point[], closed = false): string {
  return 'M' + points.map(([x, y]) => `${neat(x)} ${neat(y)}`).join('L') + (closed ? 'Z' : '')
}

export function path(d: string, pen: Attributes = thin): SVGElement {
  return element('path', { d, ...pen })
}

export function rectangle(x: number, y: number, width: number, height: number, pen: Attributes = thin): SVGElement {
  return element('rect', { x, y, width, height, ...pen })
}

export function circle(at: Point, r: number, pen: Attributes = thin): SVGElement {
  return element('circle', { cx: at[0], cy: at[1], r, ...pen })
}

export function text(x: number, y: number, words: string, attributes: Attributes = {}): SVGElement {
  return element('text', { x, y, 'font-size': SIZE, 'text-anchor': 'start', fill: INK, ...attributes }, words)
}

export const halo = { 'paint-order': 'stroke', stroke: '#fff', 'stroke-width': 4, 'stroke-linejoin': 'round' }

/// Text on a white halo, so that a line may pass behind it.
export function label(x: number, y: number, words: string, attributes: Attributes = {}): SVGElement {
  return text(x, y, words, { ...halo, ...attributes })
}

/// A value in the reader's unit with the other system behind it in soft brackets.
export function dual(x: number, y: number, own: string, other: string, attributes: Attributes = {}): SVGElement {
  const made = label(x, y, '', attributes)
  made.append(element('tspan', {}, own))
  if (other) made.append(element('tspan', { fill: SOFT }, ` [${other}]`))
  return made
}

/// Filled arrowhead, ISO 129-1: its tip at `tip`, pointing along `angle` in degrees, clockwise from the right.
export function arrow(tip: Point, angle: number, fill = SOFT, size = 7.5): SVGElement {
  const half = size * 0.18
  const turned = `translate(${neat(tip[0])} ${neat(tip[1])}) rotate(${neat(angle)})`
  return path(`M0 0L${neat(-size)} ${neat(-half)}V${neat(half)}Z`, { transform: turned, fill })
}

export function group(...kids: SVGElement[]): SVGElement {
  return element('g', {}, ...kids)
}
