/// One figure of the page as a picture.
import type { Figure } from './data'
import { picture, text } from './svg'
import { ink } from './hatch'

export const TWO_MODULES = 680, ONE_MODULE = 330

function sketch(figure: Figure, width: number): SVGSVGElement {
  const drawn = picture(width, 40)
  drawn.append(text(0, 20, `a ${figure.kind}`))
  return drawn
}

/// The widths a figure is drawn at: those of two modules are drawn for one as well, and the page shows the one that fits.
export function widths(figure: Figure): number[] {
  const two = figure.kind === 'view' || figure.kind === 'ladder' || (figure.kind === 'lines' && figure.wide)
  return two ? [TWO_MODULES, ONE_MODULE] : [ONE_MODULE]
}

/// The picture, complete in itself. `name` is its own in the page.
export function draw(figure: Figure, width: number, name: string, alt: string): SVGSVGElement {
  const drawn = sketch(figure, width)
  ink(drawn, `${name}-${width}`)
  drawn.setAttribute('role', 'img')
  drawn.setAttribute('aria-label', alt)
  if (widths(figure).length > 1) drawn.classList.add(width === ONE_MODULE ? 'w1' : 'w2')
  return drawn
}
