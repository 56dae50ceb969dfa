// node power.mjs PAGE.html: shows that the check has power. Each fault below is planted in a sound page, and the check
// must complain of it; one that is overlooked fails. The page must hold every kind of figure.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { check } from './check.mjs'

const styled = (rule) => (page) => page.replace('</style>', `${rule}</style>`)
const FAULTS = {
  'words meet': [styled('svg.fig text{font-size:17px!important}'), / meets "/],
  'words leave': [styled('svg.fig text{transform:translateX(-60px)}'), /leaves its figure/],
  'faint words': [styled('.says{color:#bbb!important}'), /contrast of/],
  'faint lettering': [styled('svg.fig text{fill:#bbb!important}'), /contrast of/],
  'too wide': [styled('main{width:2000px!important;max-width:none!important}'), /too wide/],
  'both widths show': [styled('svg.fig{display:block!important}'), /2 pictures show/],
  'unknown kind': [(page) => page.replace('"kind":"torque"', '"kind":"tongue"'), /has no marks/],
  'an error': [(page) => page.replace('"kind":"torque"', '"kind":"tongue"'), /console: /],
  'a foreign picture': [
    (page) => page.replace('<main>', '<main><img src="https://example.invalid/a.png" alt="">'),
    /console: |asks for/,
  ],
  'a third script': [(page) => page.replace('<main>', '<main><script type="text/plain"></script>'), /other scripts/],
  'a lax policy': [(page) => page.replace("script-src '", "script-src 'unsafe-inline' '"), /allows foreign script/],
  'no policy': [(page) => page.replace('http-equiv="Content-Security-Policy"', 'name="none"'), /has no policy/],
  'no name': [(page) => page.replace(/data-alt="[^"]*"/, 'data-alt=""'), /has no name/],
  'no table': [(page) => page.replace(/<details>.*?<\/details>/, ''), /no table/],
  'out of reach': [(page) => page.replace('<summary>', '<summary tabindex="-1">'), /tab key/],
}

const sound = readFileSync(process.argv[2], 'utf8'),
  folder = mkdtempSync(join(tmpdir(), 'sheet-'))
const files = Object.entries(FAULTS).map(([name, [plant]]) => {
  const planted = plant(sound),
    file = join(folder, `${name}.html`)
  if (planted === sound) throw new Error(`the fault "${name}" could not be planted`)
  writeFileSync(file, planted)
  return file
})
const report = Object.values(await check(files))
const missed = Object.keys(FAULTS).filter((name, i) => !report[i].some((one) => FAULTS[name][1].test(one)))
rmSync(folder, { recursive: true })
console.log(missed.length ? `overlooked: ${missed.join(', ')}` : `all ${files.length} faults seen`)
process.exitCode = missed.length ? 1 : 0
