/// How wide a text stands in Helvetica and its metric twins (Arial, Liberation Sans, Nimbus Sans), so that a label can
/// be placed before anything is shown: a picture that is hidden, or drawn without a browser, has no boxes to ask for.

export type Weight = 400 | 700

// Advance widths in thousandths of the size, for the characters from space to tilde.
const REGULAR = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
  556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
  260, 334, 584,
]
const BOLD = [
  278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611,
  556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389,
  280, 389, 584,
]
const OTHERS: Record<string, number> = {
  '°': 400, '²': 333, '³': 333, 'µ': 576, '·': 278, '×': 584, '÷': 549, 'Ø': 778, '–': 556, '—': 1000, '…': 1000,
  '−': 584, '±': 549, '≥': 549, '≤': 549, '\u202f': 200, '\u00a0': 278, '✕': 838, 'λ': 556,
}
const UNKNOWN = 700 // wider than most letters: room to spare rather than a collision

/// Width of one line in units of the drawing.
export function text_width(text: string, size = 10.5, weight: Weight = 400): number {
  const table = weight === 700 ? BOLD : REGULAR
  let thousandths = 0
  for (const letter of text) thousandths += table[letter.codePointAt(0)! - 32] ?? OTHERS[letter] ?? UNKNOWN
  return (thousandths * size) / 1000
}

/// The text cut so that it fits, with an ellipsis where something was cut.
export function shorten(text: string, width: number, size = 10.5, weight: Weight = 400): string {
  if (text_width(text, size, weight) <= width) return text
  const letters = [...text]
  while (letters.length > 1 && text_width(letters.join('').trimEnd() + '…', size, weight) > width) letters.pop()
  return letters.join('').trimEnd() + '…'
}

/// The text in lines that fit, broken at spaces; at most `most` lines, the last one cut.
export function wrap(text: string, width: number, size = 10.5, weight: Weight = 400, most = 3): string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.length - 1, longer = `${lines[last]} ${word}`
    const joins = lines.length > 0 && (lines.length === most || text_width(longer, size, weight) <= width)
    if (joins) lines[last] = longer
    else lines.push(word)
  }
  return lines.map((line) => shorten(line, width, size, weight))
}
