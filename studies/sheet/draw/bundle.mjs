// node bundle.mjs SOURCES NODE_MODULES OUT: makes sheet.js (for the page), figures.cjs (for node) and sheet.css. The
// licence notices of every package that went into a script stand at its top, read from the packages themselves.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, resolve } from 'node:path'

const [sources, modules, out] = process.argv.slice(2).map((path) => resolve(path))
const esbuild = createRequire(join(modules, 'x'))('esbuild')

/// Bundles one entry and gives its text and the packages that went into it.
function bundle(entry, platform) {
  const made = esbuild.buildSync({
    entryPoints: [join(sources, entry)], nodePaths: [modules], absWorkingDir: sources, outfile: join(out, 'made.js'),
    bundle: true, minify: true, platform, format: platform === 'node' ? 'cjs' : 'iife', target: 'es2020',
    charset: 'utf8', legalComments: 'none', write: false, metafile: true, logLevel: 'warning',
  })
  const inputs = Object.values(made.metafile.outputs)[0].inputs
  const used = Object.keys(inputs).filter((path) => inputs[path].bytesInOutput > 0)
  const packages = used.map((path) => path.match(/.*node_modules\/((?:@[^/]+\/)?[^/]+)/)?.[1]).filter(Boolean)
  return { text: made.outputFiles[0].text, packages: [...new Set(packages)].sort() }
}

/// The text that a package ships, or what it declares where it ships none; one without either must not go in.
function licence_of(name) {
  const folder = join(modules, name)
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry))
  if (file) return readFileSync(join(folder, file), 'utf8').replace(/\r/g, '').trim()
  const { license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
  if (!license) throw new Error(`${name} has no licence`)
  return `Copyright ${author?.name ?? author ?? 'its authors'}\n\nLicence ${license}, declared without its text.`
}

/// Copyright lines and the terms below them, apart, so that packages under the same terms share one copy.
function notices(packages) {
  const by_terms = new Map()
  for (const name of packages) {
    const paragraphs = licence_of(name).split(/\n\s*\n/)
    const rights = paragraphs.filter((paragraph) => /^\W*copyright/i.test(paragraph)).join(' ').replace(/\s+/g, ' ')
    const terms = paragraphs.filter((paragraph) => !/^\W*copyright/i.test(paragraph)).map(one_line).join('\n')
    by_terms.set(terms, [...(by_terms.get(terms) ?? []), `${name}: ${rights}`])
  }
  return [...by_terms].map(([terms, owners]) => `${owners.join('\n')}\n${terms}`).join('\n\n')
}

function one_line(paragraph) {
  return paragraph.replace(/\s+/g, ' ').trim()
}

/// Text that can stand in a script element: nothing in it closes or opens one.
function for_a_script_element(text) {
  return text.replace(/<\/script/gi, '<\\/script').replace(/<!--/g, '<\\!--')
}

function write_script(entry, platform, name) {
  const { text, packages } = bundle(entry, platform)
  const banner = `/*! Parts of this script are from the packages below.\n\n${notices(packages)}\n*/\n`
  writeFileSync(join(out, name), for_a_script_element(banner.replace(/\*\/(?=.)/g, '* /') + text))
}

write_script('main.ts', 'browser', 'sheet.js')
write_script('figures.ts', 'node', 'figures.cjs')
const style = readFileSync(join(sources, 'sheet.css'), 'utf8')
const short = esbuild.transformSync(style, { loader: 'css', minify: true, charset: 'utf8' }).code
writeFileSync(join(out, 'sheet.css'), short)
