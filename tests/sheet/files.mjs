// node files.mjs DATA.json OUT.json: the figures that were saved as files stand alone: every one is there, has a name
// space, a size, letters, a title and a description, and asks for nothing outside itself.
import { readFileSync } from 'node:fs'

const [data, files] = process.argv.slice(2).map((path) => JSON.parse(readFileSync(path, 'utf8')))
const faults = Object.keys(data.figures).flatMap((name) => {
  const text = files[name] ?? ''
  const lacks = (what, pattern) => (pattern.test(text) ? [] : [`${name}: no ${what}`])
  const ids = new Set([...text.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]))
  const asked = [...text.matchAll(/url\(#([^)]+)\)/g)].map((match) => match[1]).filter((id) => !ids.has(id))
  return [
    ...lacks('name space', /^<svg[^>]* xmlns="http:\/\/www.w3.org\/2000\/svg"/),
    ...lacks('size', /^<svg[^>]* viewBox="0 0 \d+ \d+"/),
    ...lacks('letters of its own', /^<svg[^>]* font-family="Helvetica/),
    ...lacks('title and description', /<title>[^<]+<\/title><desc>[^<]+<\/desc>/),
    ...lacks('marks', /<(path|line|circle)[\s\S]*<(path|line|circle)/),
    ...(/NaN|undefined|Infinity/.test(text) ? [`${name}: a number that is none`] : []),
    ...(/(href|src)=/.test(text) ? [`${name}: asks for something outside itself`] : []),
    ...asked.map((id) => `${name}: "${id}" is not in the file`),
  ]
})
console.log(faults.length ? faults.join('\n') : `${Object.keys(data.figures).length} figures stand alone`)
process.exitCode = faults.length ? 1 : 0
