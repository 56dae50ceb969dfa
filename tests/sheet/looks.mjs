// What is looked at inside the page, in the browser: runs there as one function and gives a list of complaints.
export function complaints() {
  const found = []
  const shown = (one) => one.getClientRects().length > 0
  const say = (where, what) => found.push(`${where.closest?.('figure')?.id ?? where.tagName ?? where}: ${what}`)

  function words_of(picture) {
    return [...picture.querySelectorAll('text')]
      .filter((one) => one.textContent.trim() && shown(one))
      .map((one) => ({ text: one.textContent.trim().slice(0, 40), box: one.getBoundingClientRect() }))
  }

  function look_at_words(picture) {
    const edge = picture.getBoundingClientRect(),
      words = words_of(picture)
    words.forEach(({ text, box }, i) => {
      const out = Math.max(edge.left - box.left, box.right - edge.right, edge.top - box.top, box.bottom - edge.bottom)
      if (out > 1) say(picture, `"${text}" leaves its figure by ${out.toFixed(1)}`)
      for (const other of words.slice(i + 1)) {
        const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left)
        const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top)
        if (across > 1.5 && down > 2.5) say(picture, `"${text}" meets "${other.text}"`)
      }
    })
  }

  function look_at_figure(figure) {
    const pictures = [...figure.querySelectorAll('svg')],
      seen = pictures.filter(shown)
    if (seen.length !== 1) say(figure, `${seen.length} pictures show`)
    if (!seen.some((one) => one.querySelectorAll('path, rect, circle, line').length > 5)) say(figure, 'has no marks')
    if (!figure.querySelector('details table')) say(figure, 'has no table of its numbers')
    for (const one of pictures) {
      if (one.getAttribute('role') !== 'img' || !one.getAttribute('aria-label')) say(figure, 'a picture has no name')
    }
    seen.forEach(look_at_words)
  }

  /// Relative luminance of a computed colour; null where nothing is painted.
  function luminance(colour) {
    const parts = colour.match(/[\d.]+/g)?.map(Number)
    if (!parts || (parts.length > 3 && parts[3] === 0)) return null
    const [red, green, blue] = parts.map((part) => {
      const share = part / 255
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
    })
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
  }

  /// What a text stands on: the paint of the nearest element behind it; in a picture the shapes drawn before it.
  function behind(one) {
    if (one.namespaceURI.includes('svg')) {
      const at = one.getBoundingClientRect(),
        x = at.left + at.width / 2,
        y = at.top + at.height / 2
      if (luminance(getComputedStyle(one).fill) < 0.5) return 1
      const under = [...one.ownerSVGElement.querySelectorAll('rect, path, circle')]
        .filter((shape) => {
          const box = shape.getBoundingClientRect(),
            paint = getComputedStyle(shape).fill
          return (
            paint !== 'none' &&
            box.left <= x &&
            box.right >= x &&
            box.top <= y &&
            box.bottom >= y &&
            shape.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING
          )
        })
        .pop()
      return under ? (luminance(getComputedStyle(under).fill) ?? 1) : 1
    }
    for (let at = one; at; at = at.parentElement) {
      const paint = luminance(getComputedStyle(at).backgroundColor)
      if (paint !== null) return paint
    }
    return 1
  }

  function look_at_contrast() {
    for (const one of document.querySelectorAll('body *')) {
      const own = [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim())
      if (!own || !shown(one) || /^(script|style|noscript)$/i.test(one.tagName)) continue
      const style = getComputedStyle(one),
        ink = luminance(one.namespaceURI.includes('svg') ? style.fill : style.color)
      if (ink === null) continue
      const paper = behind(one),
        ratio = (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05)
      if (ratio < 4.5) say(one, `"${one.textContent.trim().slice(0, 30)}" has a contrast of ${ratio.toFixed(2)}`)
    }
  }

  function look_at_page() {
    const root = document.documentElement
    if (root.scrollWidth > root.clientWidth) say('page', `is ${root.scrollWidth - root.clientWidth} px too wide`)
    for (const one of document.querySelectorAll('body *')) {
      if (!shown(one) || one.closest('svg, thead, details') || one.classList.contains('skip')) continue
      if (one.getBoundingClientRect().right > innerWidth + 1) say(one, 'hangs over the edge of the page')
    }
    const own = document.querySelector('figure[data-draw]') ? 2 : 0 // its data and what draws them; a summary has none
    if (document.querySelectorAll('script').length !== own) say('page', `holds other scripts than its own ${own}`)
    const policy = document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.content ?? ''
    if (!policy.includes("default-src 'none'")) say('page', 'has no policy that keeps everything out')
    const scripts = policy.split(';').find((part) => part.trim().startsWith('script-src')) ?? ''
    if ((own && !scripts) || /unsafe-(eval|inline)/.test(scripts)) say('page', 'its policy allows foreign script')
  }

  document.querySelectorAll('figure[data-draw]').forEach(look_at_figure)
  look_at_contrast()
  look_at_page()
  return found
}
