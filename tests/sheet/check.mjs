// node check.mjs [--shots DIR] FILE.html ...: opens each page at three screen widths and as print and complains of what
// is wrong with it. A line a page, then what was found; exit code 1 where anything was. CHROMIUM names the browser.
import { mkdirSync } from 'node:fs'
import { basename, join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import puppeteer from 'puppeteer-core'
import { complaints } from './looks.mjs'

const VIEWS = [
  ['screen', 1280],
  ['screen', 900],
  ['screen', 390],
  ['print', 680],
]
const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium'

async function open(browser, url, media, width) {
  const page = await browser.newPage(),
    found = []
  page.on('console', (message) => {
    if (message.type() !== 'log') found.push(`console: ${message.text()}`)
  })
  page.on('pageerror', (error) => found.push(`error: ${error.message}`))
  page.on('request', (request) => {
    if (request.url() !== url) found.push(`asks for ${request.url().slice(0, 80)}`)
  })
  await page.emulateMediaType(media)
  await page.setViewport({ width, height: 900 })
  await page.goto(url, { waitUntil: 'load' })
  return { page, found }
}

/// The summaries of all figures, in order, are what the tab key reaches.
async function tab_order(page) {
  const due = await page.$$eval('figure[data-draw] summary', (all) => all.map((one) => one.textContent))
  const reached = []
  for (let step = 0; step < due.length + 40 && reached.length < due.length; step++) {
    await page.keyboard.press('Tab')
    const text = await page.evaluate(() =>
      document.activeElement?.tagName === 'SUMMARY' ? document.activeElement.textContent : '',
    )
    if (text) reached.push(text)
  }
  return due.every((text, i) => reached[i] === text) ? [] : ['the tab key does not reach the tables in their order']
}

async function look(browser, url, [media, width], shots) {
  const { page, found } = await open(browser, url, media, width)
  found.push(...(await page.evaluate(complaints)))
  if (shots)
    await page.screenshot({ path: join(shots, `${basename(url, '.html')}-${media}-${width}.png`), fullPage: true })
  if (media === 'screen') found.push(...(await tab_order(page)))
  await page.close()
  return found.map((one) => `  ${media} ${width}: ${one}`)
}

export async function check(files, shots = '') {
  const browser = await puppeteer.launch({ executablePath, args: ['--no-sandbox'], headless: true })
  const report = {}
  for (const file of files) {
    const url = pathToFileURL(resolve(file)).href
    report[file] = []
    for (const view of VIEWS) report[file].push(...(await look(browser, url, view, shots)))
  }
  await browser.close()
  return report
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const given = process.argv.slice(2),
    at = given.indexOf('--shots')
  const shots = at < 0 ? '' : given.splice(at, 2)[1]
  if (shots) mkdirSync(shots, { recursive: true })
  const report = await check(given, shots)
  for (const [file, found] of Object.entries(report)) {
    console.log(
      [`${basename(file)}: ${found.length ? `${found.length} complaints` : 'nothing to complain of'}`, ...found].join(
        '\n',
      ),
    )
  }
  process.exitCode = Object.values(report).some((found) => found.length) ? 1 : 0
}
