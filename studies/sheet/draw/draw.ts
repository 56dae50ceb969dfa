/// One figure of the page as a picture.
import type { Figure } from './data'
import { bars } from './bars'
import { ink } from './hatch'
import { ladder } from './ladder'
import { lines } from './lines'
import { friction_map } from './map'
import { profile } from './profile'
import { ramp } from './ramp'
import { torque } from './torque'
import { trade } from './trade'
import { view } from './view'

export const TWO_MODULES = 680, ONE_MODULE = 330

function sketch(figure: Figure, width: number, name: string): SVGSVGElement {
  switch (figure.kind) {
    case 'view': return view(figure, width)
    case 'profile': return profile(figure, width, name)
    case 'ramp': return ramp(figure)
    case 'torque': return torque(figure, width)
    case 'ladder': return ladder(figure, width)
    case 'lines': return lines(figure, width)
    case 'map': return friction_map(figure, width, name)
    case 'bars': return bars(figure, width)
    case 'trade': return trade(figure, width)
    default: throw new Error(`no drawing is known for "${(figure as { kind: string }).kind}"`)
  }
}

/// The widths a figure is drawn at: one of two modules is drawn for one as well, and the page shows what fits.
export function widths(figure: Figure): number[] {
  const two = ['view', 'ladder', 'trade'].includes(figure.kind) || (figure.kind === 'lines' && figure.wide)
  return two ? [TWO_MODULES, ONE_MODULE] : [ONE_MODULE]
}

/// The picture, complete in itself. `name` is its own in the page.
export function draw(figure: Figure, width: number, name: string, alt: string): SVGSVGElement {
  const drawn = sketch(figure, width, `${name}-${width}`)
  ink(drawn, `${name}-${width}`)
  drawn.setAttribute('role', 'img')
  drawn.setAttribute('aria-label', alt)
  if (widths(figure).length > 1) drawn.classList.add(width === ONE_MODULE ? 'w1' : 'w2')
  return drawn
}
