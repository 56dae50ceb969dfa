// node samples.mjs BUNDLE OUT: pages with invented data, one a case, so that the drawing is tested without the program.
// BUNDLE is the folder with sheet.js and sheet.css that the build made.
import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { cases } from './cases.mjs'

const [bundle, out] = process.argv.slice(2)
const script = readFileSync(join(bundle, 'sheet.js'), 'utf8'),
  style = readFileSync(join(bundle, 'sheet.css'), 'utf8')
const NAMES = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }
const safe = (text) => String(text).replace(/[&<>"']/g, (letter) => NAMES[letter])

function figure_element([id, figure], index) {
  const two = ['view', 'ladder', 'trade'].includes(figure.kind) || figure.wide
  const says = `Invented: ${figure.says ?? `a figure of the kind ${figure.kind}`}.`
  const table = '<table><thead><tr><th scope=col>Invented<th scope=col>Value</thead><tbody><tr><td>one<td>1</table>'
  return `<figure class="${two ? 'two ' : ''}${figure.kind === 'view' ? 'view' : ''}" data-draw="${id}" id="fig-${id}"
    data-alt="${safe(says)}"><figcaption><span class=n>Fig ${index + 1}</span><span class=says>${safe(says)}</span>
    </figcaption><div class=plot></div><details><summary>The numbers in Fig ${index + 1}</summary>${table}</details>
    </figure>`
}

function page(name, figures) {
  const data = JSON.stringify({ figures })
    .replace(/</g, '\\u003c')
    .replace(/\u2028/g, '\\u2028')
    .replace(/\u2029/g, '\\u2029')
  const digest = createHash('sha256').update(script).digest('base64')
  const own = `style-src 'unsafe-inline'; script-src 'sha256-${digest}'`
  const policy = `default-src 'none'; ${own}; base-uri 'none'; form-action 'none'`
  const framed = Object.entries(figures).filter(([, figure]) => figure.kind === 'view')
  const loose = Object.entries(figures).filter(([, figure]) => figure.kind !== 'view')
  return `<!doctype html><html lang="en"><head><meta charset="utf-8">
    <meta name="viewport" content="width=device-width,initial-scale=1">
    <meta http-equiv="Content-Security-Policy" content="${policy}"><title>${safe(name)}, invented</title>
    <style>${style}</style></head><body><a class=skip href="#figures">Skip to the figures</a><main>
    <p class="specimen screen">Specimen: every number on this page is invented.</p>
    <section class=sheet1><div class=grid><header class=verdict-block><p class=stamp>Invented</p>
    <h1><b>${safe(name)}</b>a case to try the drawing on</h1></header>
    ${framed.map(figure_element).join('')}</div></section>
    <h2 id=figures>The case in figures</h2><div class=grid id=figs>
    ${loose.map((one, i) => figure_element(one, i + framed.length)).join('')}</div></main>
    <script type="application/json" id="sheet-data">${data}</script><script>${script}</script></body></html>`
}

mkdirSync(out, { recursive: true })
for (const [name, figures] of Object.entries(cases())) {
  writeFileSync(join(out, `${name}.html`), page(name, figures))
  const says = Object.fromEntries(Object.keys(figures).map((id) => [id, { title: id, alt: `invented ${id}` }]))
  writeFileSync(join(out, `${name}.json`), JSON.stringify({ figures, says }))
}
