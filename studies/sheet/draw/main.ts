/// Draws every figure of the page from the data in it.
import type { Sheet } from './data'
import { draw, widths } from './draw'

function draw_into(place: HTMLElement, sheet: Sheet, name: string, alt: string) {
  const figure = sheet.figures[name]
  if (!figure) throw new Error(`the page holds no data of "${name}"`)
  for (const width of widths(figure)) place.append(draw(figure, width, name, alt))
}

/// In place of a figure that could not be drawn.
function excuse(problem: unknown): HTMLElement {
  const words = document.createElement('p')
  words.className = 'nodraw'
  const why = problem instanceof Error ? problem.message : String(problem)
  words.textContent = `This figure could not be drawn (${why}); its numbers are in the table below.`
  return words
}

const sheet: Sheet = JSON.parse(document.getElementById('sheet-data')!.textContent!)
for (const figure of document.querySelectorAll<HTMLElement>('figure[data-draw]')) {
  const place = figure.querySelector<HTMLElement>('.plot') ?? figure
  try {
    draw_into(place, sheet, figure.dataset.draw!, figure.dataset.alt ?? '')
  } catch (problem) {
    place.replaceChildren(excuse(problem))
    console.error(problem)
  }
}
document.documentElement.classList.add('drawn')
