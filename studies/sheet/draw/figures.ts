/// Run by node, without a browser: a Sheet as JSON on stdin, {id: svg text} as JSON on stdout.
import { readFileSync, writeFileSync } from 'node:fs'
import { parseHTML } from 'linkedom'
import type { Sheet } from './data'
import { draw, widths } from './draw'
import { element } from './svg'

const FACE = 'Helvetica, Arial, "Liberation Sans", "Nimbus Sans", sans-serif'

globalThis.document = parseHTML('<!doctype html><html><body></body></html>').document

/// The widest drawing of a figure as a file of its own: name space, letters, white paper, title and description.
function file_of(sheet: Sheet, name: string): string {
  const figure = sheet.figures[name]
  const says = sheet.says?.[name] ?? { title: name, alt: name }
  const drawn = draw(figure, widths(figure)[0], name, says.alt)
  drawn.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  drawn.setAttribute('font-family', FACE)
  drawn.removeAttribute('class')
  drawn.querySelector('style')?.remove() // rules for a page
  const paper = element('rect', { width: '100%', height: '100%', fill: '#fff' })
  drawn.prepend(element('title', {}, says.title), element('desc', {}, says.alt), paper)
  return drawn.toString()
}

try {
  const sheet: Sheet = JSON.parse(readFileSync(0, 'utf8'))
  const files = Object.keys(sheet.figures).map((name) => [name, file_of(sheet, name)])
  writeFileSync(1, JSON.stringify(Object.fromEntries(files)))
} catch (problem) {
  console.error(`the figures could not be drawn: ${problem instanceof Error ? problem.message : problem}`)
  process.exitCode = 1
}
