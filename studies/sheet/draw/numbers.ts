/// How numbers of a figure are printed: as the program prints its own (three figures, no exponent).

/// Three significant figures, groups of three parted by a narrow no-break space, a true minus.
export function fig3(value: number): string {
  if (!Number.isFinite(value)) return '–'
  if (value === 0) return '0'
  const rounded = Number(value.toPrecision(3))
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(rounded))))
  const [whole, part] = Math.abs(rounded).toFixed(Math.min(decimals, 12)).split('.')
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, '\u202f')
  return (value < 0 ? '−' : '') + grouped + (part ? '.' + part : '')
}

/// For lengths of a standard and ticks: without idle zeros (40, not 40.0).
export function plain(value: number): string {
  const text = fig3(value)
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}
