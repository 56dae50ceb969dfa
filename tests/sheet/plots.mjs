// Invented plots of every kind, ordinary and odd.
export const KN = { own: 'kN', other: 'lbf', factor: 224.809 }, NM = { own: 'N·m', other: 'lbf·ft', factor: 0.737562 }
const MM = { own: 'mm', other: 'in', factor: 1 / 25.4 }, LBF = { own: 'lbf', other: 'kN', factor: 0.00444822 }
const logistic = (x) => 1 / (1 + Math.exp(-x))
const range = (from, to, count) => Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
const falling = (middle, spread, from, to) => range(from, to, 80).map((x) => [x, 100 * logistic((middle - x) / spread)])
const rising = (middle, spread, from, to) => falling(middle, spread, from, to).map(([x, y]) => [x, 100 - y])
const heap = (middle, spread, pen) => range(-3, 3, 25).slice(0, 24).map((k) => ({ from: middle + k * spread,
  to: middle + (k + 0.25) * spread, share: Math.exp(-k * k / 2), pen }))
const IN_100 = { name: 'in 100', from: 0, to: 105 }

export const chance = (unit = KN, scale = 1, overload = true) => ({
  kind: 'lines', wide: true, height: 242, x: { name: 'at least this force', unit, from: 16 * scale, to: 108 * scale },
  y: IN_100,
  lines: [{ label: 'working pull', pen: 'working', points: falling(26.9 * scale, 1.6 * scale, 16 * scale, 108 * scale) },
    ...(overload ? [{ label: 'overload pull', pen: 'overload', points: falling(71.6 * scale, 4.2 * scale, 16 * scale,
      108 * scale) }] : [])],
  walls: [{ on: 'x', at: 22 * scale, side: -1, label: `${22 * scale} needed` },
    { on: 'x', at: 96.3 * scale, side: 1, label: `bows at ${96.3 * scale}` }],
  bars: [...heap(26.9 * scale, 2.8 * scale, 'working'), ...(overload ? heap(71.6 * scale, 7.7 * scale, 'overload') : [])],
  marks: [[22.6, 95], [26.9, 50], [31.7, 5]].map(([x, y]) => ({ x: x * scale, y, label: String(x * scale), pen: 'working' }))
    .concat(overload ? [[59.4, 95], [71.6, 50], [85.4, 5]].map(([x, y]) => ({ x: x * scale, y, label: String(x * scale),
      pen: 'overload' })) : []),
})

export const first = (unit = NM) => ({
  kind: 'lines', wide: false, height: 234, x: { name: 'torque on the bar', unit, from: 0, to: 800 }, y: IN_100,
  lines: [['flanks past 12 MPa', 147, 12, 'other'], ['screw bows', 346, 20, 'working'], ['core yields', 706, 25, 'other']]
    .map(([label, at, spread, pen]) => ({ label, pen, points: rising(at, spread, 0, 800) })),
  walls: [], here: [{ on: 'x', at: 96, label: 'working 96' }, { on: 'x', at: 256, label: 'overload 256' }],
})

export const reach = () => ({
  kind: 'lines', wide: false, height: 234, x: { name: 'free length', unit: MM, from: 300, to: 900 },
  y: { name: 'load', unit: KN, from: 0, to: 80 },
  lines: [['Tr 36x6', 516, 'soft'], ['Tr 40x7', 628, 'working'], ['Tr 44x7', 800, 'soft']].map(([label, to, pen]) => ({
    label, pen, points: range(300, 900, 60).map((x) => [x, 22 * (to / x) ** 2]) })),
  walls: [{ on: 'y', at: 22, side: 1, label: '22 asked' }], here: [{ on: 'x', at: 520, label: 'this press, 520 mm' }],
  spare: { x: 520, from: 22, to: 22 * (628 / 520) ** 2, label: '45.9 %' },
})

const LIMITS = ['buckling', 'force reached', 'overload pull', 'flank pressure', 'self-locking', 'yield', 'stripping',
  'turns of the handle', 'wear of the nut', 'fatigue', 'efficiency', 'deflection under the load']
export const sizes = (count, limits, holds = (i) => i === 4, label = (i) => `Tr ${24 + 4 * i}x${5 + Math.floor(i / 3)}`) => ({
  kind: 'lines', wide: true, height: 264, x: { name: '', from: 0, to: count - 1 },
  names: range(0, count - 1, count).map((i) => ({ label: label(i), second: `${(2 + 1.4 * i).toFixed(2)} kg`, holds: holds(i) })),
  y: { name: 'has ÷ asked', log: true, from: 0.3, to: 30 },
  lines: LIMITS.slice(0, limits).map((name, k) => ({ label: name, pen: 'other', symbols: true, bold: k < 2,
    points: range(0, count - 1, count).map((i) => [i, k === 1 ? 2 * 0.84 ** (i * 9 / count)
      : Math.max(0.31, (0.4 + 0.25 * k) * (1.25 + 0.02 * k) ** (i * 9 / count))]) })),
  walls: [{ on: 'y', at: 1, side: -1, label: '' }],
})

export const settling = () => ({
  kind: 'lines', wide: false, height: 172, x: { name: 'passes', log: true, from: 256, to: 1048576 },
  y: { name: 'short, in 100', from: 0, to: 6 },
  lines: [{ label: '3.01', pen: 'working', symbols: false,
    points: range(8, 20, 13).map((k) => [2 ** k, 3.01 + 12 * Math.sin(k) / 2 ** (k / 2)]),
    band: range(8, 20, 13).map((k) => [2 ** k, 3.01 - 34 / 2 ** (k / 2), 3.01 + 40 / 2 ** (k / 2)]) }],
  walls: [{ on: 'y', at: 5, side: 1, label: '5 allowed' }],
})

export const handle = () => ({
  kind: 'lines', wide: false, height: 234, x: { name: 'turning force on the bar', unit: { own: 'lbf', other: 'N', factor: 4.448 },
    from: 0, to: 80 }, y: { name: 'force', unit: LBF, from: 0, to: 16000 },
  lines: [{ label: 'nominal', pen: 'working', points: range(0, 80, 30).map((x) => [x, 180 * x]),
    band: range(0, 80, 30).map((x) => [x, 150 * x, 215 * x]) }],
  walls: [{ on: 'y', at: 4950, side: -1, label: '4 950 asked' }], here: [{ on: 'x', at: 27, label: 'two hands 27' }],
})

export const many = () => ({
  kind: 'lines', wide: true, height: 280, x: { name: 'nut length', unit: MM, from: 20, to: 100 },
  y: { name: 'has ÷ asked', log: true, from: 0.02, to: 600 },
  lines: LIMITS.map((label, k) => ({ label: k === 3 ? `${label} with a long name that has to be broken` : label, pen: 'other',
    points: range(20, 100, 30).map((x) => [x, 0.03 * 2.2 ** k * (x / 20) ** (k % 2 ? 1.1 : 0.02)]) })),
  walls: [{ on: 'y', at: 1, side: -1, label: 'limit' }],
})

export const one_point = () => ({
  kind: 'lines', wide: false, height: 200, x: { name: 'passes', log: true, from: 1, to: 3 }, y: { name: 'in 100', from: 0, to: 1e-3 },
  lines: [{ label: 'a single line', pen: 'working', symbols: true, points: [[2, 5e-4]] }], walls: [],
})

const state = (pen, nominal, wide, judged = null) => ({ pen, nominal, q05: nominal * (1 - wide), q95: nominal * (1 + wide), judged })
export const ladder = () => ({ kind: 'ladder', rungs: [
  { label: 'Force at the pad', sub: '22 kN [4 950 lbf], 95 of 100', holds: true, spare: '2.63 %', states: [state('working', 1.22, 0.16, 1.026)] },
  { label: 'Self-locking', sub: 'margin 1, 98 of 100', holds: true, spare: '3.14 %', states: [state('working', 1.38, 0.22, 1.031)] },
  { label: 'Buckling', sub: 'margin 3, at 22 kN', holds: true, spare: '45.9 %', states: [state('working', 1.46, 0.05, 1.459),
    state('overload', 1.34, 0.2, 1.043)] },
  { label: 'Bearing pressure', sub: '12 MPa [1 740 psi] at most, 95 of 100', holds: true, spare: '23.3 %', states: [state('working', 1.5, 0.18, 1.233)] },
  { label: 'Yield', sub: 'margin 1.5, 99.9 of 100', holds: true, spare: '271 %', states: [state('working', 5, 0.12, 3.71)] },
  { label: 'Stripping', sub: 'margin 2, nominal', holds: true, spare: '612 %', states: [state('working', 7.1, 0, 7.12)] }] })
export const ladder_missed = () => ({ kind: 'ladder', rungs: [
  { label: 'Force', sub: '22 kN, 95 of 100', holds: false, spare: '−3.80 %', states: [state('working', 1.1, 0.17, 0.962)] },
  { label: 'Least cycles before the thread of the nut is worn to its limit', sub: '1 000 000 strokes at the least, 99.9 of 100 screws built', holds: false,
    spare: '−97.2 %', states: [state('working', 0.03, 0.5, 0.028), state('overload', 0.02, 0.5, null)] },
  { label: 'Yield', sub: 'margin 1', holds: true, spare: '31 400 %', states: [state('working', 320, 0.1, 315), state('overload', 190, 0.1, 180)] }] })
export const ladder_one = () => ({ kind: 'ladder', rungs: [
  { label: 'Force', sub: '', holds: true, spare: '', states: [state('working', 1.4, 0, null)] }] })

const bar = (label, lifts, thread, face, drag = 0) => ({ label, lifts, thread, face, drag })
export const torque = () => ({ kind: 'torque', axis: { name: 'torque for 22 kN', unit: NM, from: 0, to: 130 }, available: 96,
  available_says: 'the pull gives 96 N·m', bars: [bar('The pick, oil, domed pad', 24.5, 45.8, 8.7), bar('Rolling thrust face, oil',
    24.5, 45.8, 0.9), bar('Flat pad, oil, mean radius 16 mm', 24.5, 45.8, 34.7), bar('Dry thread, domed pad', 24.5, 80, 8.7)] })
export const torque_odd = () => ({ kind: 'torque', axis: { name: 'torque', from: 0, to: 10 }, available: null, available_says: '',
  bars: [bar('A single bar with a very long label that does not fit in one line of the plot', 0.2, 6.5, 0.1, 2.9)] })
export const torque_tight = () => ({ kind: 'torque', axis: { name: 'torque for 5 000 lbf', unit: { own: 'lbf·in', other: 'N·m', factor: 0.113 },
  from: 0, to: 1700 }, available: 1500, available_says: 'the bar gives 1 500 lbf·in', bars: [bar('The pick', 400, 900, 190),
  bar('Greased', 400, 700, 150), bar('Three', 400, 800, 290, 100), bar('Four', 400, 830, 150, 100), bar('Five', 400, 830, 150, 100)] })

export const map = () => {
  const cells = [], step = [0.004, 0.004]
  for (let x = 0.062; x < 0.2; x += step[0]) for (let y = 0.062; y < 0.2; y += step[1]) {
    const t = (x - 0.109) / 0.016, f = (y - 0.113) / 0.018, count = Math.round(3000 * Math.exp(-(t * t - 1.4 * t * f + f * f)))
    const outcome = 1.2 * x + 0.2 * y > 0.19 ? 1 : x < 0.07 ? 3 : 1.2 * x + 0.5 * y < 0.135 ? 2 : 0
    if (count) cells.push([x, y, ...[0, 1, 2, 3].map((k) => (k === outcome ? count : Math.floor(count / 50)))])
  }
  return { kind: 'map', x: { name: 'thread friction', from: 0.06, to: 0.2 }, y: { name: 'face friction', from: 0.06, to: 0.2 }, step, cells,
    shares: [['holds', 'holds 95.4'], ['short', 'short 3.01'], ['damaged', 'damaged by overload 0.317'], ['winds back', 'winds back 1.15']]
      .map(([outcome, label]) => ({ outcome, label })),
    curves: [{ label: 'force', points: [[0.15, 0.06], [0.125, 0.2]], side: 1 }, { label: 'overload', points: [[0.088, 0.06], [0.06, 0.125]], side: -1 }] }
}
export const map_few = () => ({ kind: 'map', x: { name: 'thread friction', from: 0.1, to: 0.12 }, y: { name: 'face friction', from: 0.1, to: 0.12 },
  step: [0.005, 0.005], cells: [[0.11, 0.11, 400, 0, 0, 0]], shares: [{ outcome: 'holds', label: 'holds 100' }], curves: [] })

const matter = (label, value, low, high, text, right, missed = false) => ({ label, value, low, high, text, right, missed })
export const bars = () => ({ kind: 'bars', axis: { name: 'share of the scatter in force, %', from: 0, to: 75 }, right_head: 'short in 100 if halved',
  rows: [matter('The oil, shared by thread and face', 61, 58, 64, '61.4', '3.01 to 0.513'), matter('Pull on the bar', 19, 17, 22, '19.3', '3.01 to 2.06'),
    matter("Thread friction, this screw's own", 18.5, 16, 21, '18.5', '3.01 to 2.05'), matter("Face friction, this pad's own", 0.85, 0, 2, '0.85', '3.01 to 2.91')] })
export const bars_odd = () => ({ kind: 'bars', axis: { name: 'has ÷ asked', from: 0, to: 3 }, right_head: '',
  rows: [matter('Short', 0.4, null, null, '0.4', '', true), matter('A long label of a row that goes on and on until it takes a second line of its own', 2.6, null, null, '2.6', '')] })

export const trade = () => ({ kind: 'trade', x: { name: 'mass', unit: { own: 'kg', other: 'lb', factor: 2.20462 }, from: 5, to: 14 },
  y: { name: 'nut length', unit: MM, from: 0, to: 80 }, points: range(0, 8, 9).map((i) => ({ x: 5.9 + 0.9 * i, y: 72 / (1 + 0.35 * i),
    label: `Tr ${40 + 4 * i}x7`, pick: i === 0 })) })
export const trade_one = () => ({ kind: 'trade', x: { name: 'mass, kg', from: 1, to: 2 }, y: { name: 'torque', unit: NM, from: 0, to: 10 },
  points: [{ x: 1.5, y: 5, label: 'Tr 20x4', pick: true }] })
