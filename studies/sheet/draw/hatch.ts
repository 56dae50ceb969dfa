/// Hatches as real lines. A shape asks for one with fill="url(#h-NAME)"; `ink` then draws it, clipped to the shape. A
/// pattern fill would print as a coarse picture of half a megabyte; lines stay lines, and a saved figure stands alone.
import { ASK, HAS, INK, element, neat } from './svg'

interface Hatch { slant: 1 | -1 | 0; step: number; pen: Record<string, string | number> }

const metal = { stroke: INK, 'stroke-width': 0.55, fill: 'none' }
const HATCHES: Record<string, Hatch> = {
  screw: { slant: 1, step: 4.6, pen: metal },
  nut: { slant: -1, step: 4.6, pen: metal },
  no: { slant: 1, step: 5.6, pen: { stroke: ASK, 'stroke-width': 0.75, fill: 'none' } },
  thread: { slant: 1, step: 4, pen: { stroke: HAS, 'stroke-width': 1, fill: 'none' } },
  drag: { slant: -1, step: 4, pen: { stroke: HAS, 'stroke-width': 0.6, fill: 'none' } },
  face: { slant: 0, step: 4.6, pen: { fill: HAS } },
}
export type HatchName = keyof typeof HATCHES

export function hatched(name: string): { fill: string } {
  return { fill: `url(#h-${name})` }
}

interface Box { left: number; top: number; right: number; bottom: number }

/// Slanted lines slant·x + y = c, from edge to edge of the box.
function slanted(box: Box, { slant, step }: Hatch): string {
  const pace = step * Math.SQRT2
  const ends = [slant * box.left, slant * box.right]
  let lines = ''
  for (let c = Math.ceil((Math.min(...ends) + box.top) / pace) * pace; c < Math.max(...ends) + box.bottom; c += pace) {
    const reach = [slant * (c - box.bottom), slant * (c - box.top)].sort((one, two) => one - two)
    const from = Math.max(box.left, reach[0]), to = Math.min(box.right, reach[1])
    lines += `M${neat(from)} ${neat(c - slant * from)}L${neat(to)} ${neat(c - slant * to)}`
  }
  return lines
}

/// Dots in staggered rows.
function dotted(box: Box, { step }: Hatch): string {
  let dots = ''
  for (let row = Math.ceil(box.top / step); row * step < box.bottom; row++) {
    const shift = row % 2 ? 0.5 : 0
    for (let x = (Math.ceil(box.left / step) + shift) * step; x < box.right; x += step) {
      dots += `M${neat(x - 1)} ${neat(row * step)}a1 1 0 1 0 2 0a1 1 0 1 0-2 0`
    }
  }
  return dots
}

function box_of(shape: Element, size: [number, number]): Box {
  const number = (key: string) => Number(shape.getAttribute(key) ?? 0)
  if (shape.tagName === 'rect') {
    const left = number('x'), top = number('y')
    return { left, top, right: left + number('width'), bottom: top + number('height') }
  }
  if (shape.tagName === 'circle') {
    const r = number('r')
    return { left: number('cx') - r, top: number('cy') - r, right: number('cx') + r, bottom: number('cy') + r }
  }
  return { left: 0, top: 0, right: size[0], bottom: size[1] }
}

function hatch_shape(shape: Element, hatch: Hatch, size: [number, number], id: string) {
  const bare = shape.cloneNode() as Element
  for (const key of ['fill', 'stroke', 'class']) bare.removeAttribute(key)
  const box = box_of(shape, size)
  const lines = element('path', { d: hatch.slant ? slanted(box, hatch) : dotted(box, hatch), ...hatch.pen })
  const clip = element('clipPath', { id }, bare as SVGElement)
  shape.parentNode!.insertBefore(element('g', { 'clip-path': `url(#${id})` }, clip, lines), shape.nextSibling)
}

/// Draws every hatch asked for in the picture. `name` must differ from picture to picture of a page: ids come from it.
export function ink(picture: SVGSVGElement, name: string) {
  const size: [number, number] = [Number(picture.getAttribute('width')), Number(picture.getAttribute('height'))]
  let count = 0
  for (const asked of [...picture.querySelectorAll('[fill^="url(#h-"]')]) {
    const hatch = HATCHES[asked.getAttribute('fill')!.slice(7, -1)]
    asked.setAttribute('fill', 'none')
    const shapes = asked.tagName === 'g' ? [...asked.children] : [asked]
    for (const shape of shapes) hatch_shape(shape, hatch, size, `${name}-hatch-${++count}`)
  }
}
