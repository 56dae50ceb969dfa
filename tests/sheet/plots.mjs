// Invented plots of lines, ordinary and odd.
export const KN = { own: 'kN', other: 'lbf', factor: 224.809 },
  NM = { own: 'N·m', other: 'lbf·ft', factor: 0.737562 }
export const MM = { own: 'mm', other: 'in', factor: 1 / 25.4 },
  LBF = { own: 'lbf', other: 'kN', factor: 0.00444822 }
const logistic = (x) => 1 / (1 + Math.exp(-x))
export const range = (from, to, count) =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
const falling = (middle, spread, from, to) =>
  range(from, to, 80).map((x) => [x, 100 * logistic((middle - x) / spread)])
const rising = (middle, spread, from, to) => falling(middle, spread, from, to).map(([x, y]) => [x, 100 - y])
const heap = (middle, spread, pen) =>
  range(-3, 3, 25)
    .slice(0, 24)
    .map((k) => ({ from: middle + k * spread, to: middle + (k + 0.25) * spread, share: Math.exp((-k * k) / 2), pen }))
const IN_100 = { name: 'in 100', from: 0, to: 105 }

export const chance = (unit = KN, scale = 1, overload = true) => ({
  kind: 'lines',
  wide: true,
  height: 242,
  x: { name: 'at least this force', unit, from: 16 * scale, to: 108 * scale },
  y: IN_100,
  lines: [
    { label: 'working pull', pen: 'working', points: falling(26.9 * scale, 1.6 * scale, 16 * scale, 108 * scale) },
    ...(overload
      ? [
          {
            label: 'overload pull',
            pen: 'overload',
            points: falling(71.6 * scale, 4.2 * scale, 16 * scale, 108 * scale),
          },
        ]
      : []),
  ],
  walls: [
    { on: 'x', at: 22 * scale, side: -1, label: `${22 * scale} needed` },
    { on: 'x', at: 96.3 * scale, side: 1, label: `bows at ${96.3 * scale}` },
  ],
  bars: [
    ...heap(26.9 * scale, 2.8 * scale, 'working'),
    ...(overload ? heap(71.6 * scale, 7.7 * scale, 'overload') : []),
  ],
  marks: [
    [22.6, 95],
    [26.9, 50],
    [31.7, 5],
  ]
    .map(([x, y]) => ({ x: x * scale, y, label: String(x * scale), pen: 'working' }))
    .concat(
      overload
        ? [
            [59.4, 95],
            [71.6, 50],
            [85.4, 5],
          ].map(([x, y]) => ({ x: x * scale, y, label: String(x * scale), pen: 'overload' }))
        : [],
    ),
})

export const first = (unit = NM) => ({
  kind: 'lines',
  wide: false,
  height: 234,
  x: { name: 'torque on the bar', unit, from: 0, to: 800 },
  y: IN_100,
  lines: [
    ['flanks past 12 MPa', 147, 12, 'other'],
    ['screw bows', 346, 20, 'working'],
    ['core yields', 706, 25, 'other'],
  ].map(([label, at, spread, pen]) => ({ label, pen, points: rising(at, spread, 0, 800) })),
  walls: [],
  here: [
    { on: 'x', at: 96, label: 'working 96' },
    { on: 'x', at: 256, label: 'overload 256' },
  ],
})

/// So many lines that their words stand in a column, below the unit of the upper scale.
export const first_many = () => ({
  ...first(),
  lines: [60, 65, 70, 200, 790].map((at, k) => ({
    label: `part ${k + 1} of the screw gives way`,
    pen: k ? 'other' : 'working',
    points: rising(at, 6, 0, 800),
  })),
})

export const reach = () => ({
  kind: 'lines',
  wide: false,
  height: 234,
  x: { name: 'free length', unit: MM, from: 300, to: 900 },
  y: { name: 'load', unit: KN, from: 0, to: 80 },
  lines: [
    ['Tr 36x6', 516, 'soft'],
    ['Tr 40x7', 628, 'working'],
    ['Tr 44x7', 800, 'soft'],
  ].map(([label, to, pen]) => ({
    label,
    pen,
    points: range(300, 900, 60).map((x) => [x, 22 * (to / x) ** 2]),
  })),
  walls: [{ on: 'y', at: 22, side: 1, label: '22 asked' }],
  here: [{ on: 'x', at: 520, label: 'this press, 520 mm' }],
  spare: { x: 520, from: 22, to: 22 * (628 / 520) ** 2, label: '45.9 %' },
})

const LIMITS = [
  'buckling',
  'force reached',
  'overload pull',
  'flank pressure',
  'self-locking',
  'yield',
  'stripping',
  'turns of the handle',
  'wear of the nut',
  'fatigue',
  'efficiency',
  'deflection under the load',
]
export const sizes = (
  count,
  limits,
  holds = (i) => i === 4,
  label = (i) => `Tr ${24 + 4 * i}x${5 + Math.floor(i / 3)}`,
) => ({
  kind: 'lines',
  wide: true,
  height: 264,
  x: { name: '', from: 0, to: count - 1 },
  names: range(0, count - 1, count).map((i) => ({
    label: label(i),
    second: `${(2 + 1.4 * i).toFixed(2)} kg`,
    holds: holds(i),
  })),
  y: { name: 'has ÷ asked', log: true, from: 0.3, to: 30 },
  lines: LIMITS.slice(0, limits).map((name, k) => ({
    label: name,
    pen: 'other',
    symbols: true,
    bold: k < 2,
    points: range(0, count - 1, count).map((i) => [
      i,
      k === 1
        ? 2 * 0.84 ** ((i * 9) / count)
        : Math.max(0.31, (0.4 + 0.25 * k) * (1.25 + 0.02 * k) ** ((i * 9) / count)),
    ]),
  })),
  walls: [{ on: 'y', at: 1, side: -1, label: '' }],
})

export const settling = () => ({
  kind: 'lines',
  wide: false,
  height: 172,
  x: { name: 'passes', log: true, from: 256, to: 1048576 },
  y: { name: 'short, in 100', from: 0, to: 6 },
  lines: [
    {
      label: '3.01',
      pen: 'working',
      symbols: false,
      points: range(8, 20, 13).map((k) => [2 ** k, 3.01 + (12 * Math.sin(k)) / 2 ** (k / 2)]),
      band: range(8, 20, 13).map((k) => [2 ** k, 3.01 - 34 / 2 ** (k / 2), 3.01 + 40 / 2 ** (k / 2)]),
    },
  ],
  walls: [{ on: 'y', at: 5, side: 1, label: '5 allowed' }],
})

export const handle = () => ({
  kind: 'lines',
  wide: false,
  height: 234,
  x: { name: 'turning force on the bar', unit: { own: 'lbf', other: 'N', factor: 4.448 }, from: 0, to: 80 },
  y: { name: 'force', unit: LBF, from: 0, to: 16000 },
  lines: [
    {
      label: 'nominal',
      pen: 'working',
      points: range(0, 80, 30).map((x) => [x, 180 * x]),
      band: range(0, 80, 30).map((x) => [x, 150 * x, 215 * x]),
    },
  ],
  walls: [{ on: 'y', at: 4950, side: -1, label: '4 950 asked' }],
  here: [{ on: 'x', at: 27, label: 'two hands 27' }],
})

export const many = () => ({
  kind: 'lines',
  wide: true,
  height: 280,
  x: { name: 'nut length', unit: MM, from: 20, to: 100 },
  y: { name: 'has ÷ asked', log: true, from: 0.02, to: 600 },
  lines: LIMITS.map((label, k) => ({
    label: k === 3 ? `${label} with a long name that has to be broken` : label,
    pen: 'other',
    points: range(20, 100, 30).map((x) => [x, 0.03 * 2.2 ** k * (x / 20) ** (k % 2 ? 1.1 : 0.02)]),
  })),
  walls: [{ on: 'y', at: 1, side: -1, label: 'limit' }],
})

export const one_point = () => ({
  kind: 'lines',
  wide: false,
  height: 200,
  x: { name: 'passes', log: true, from: 1, to: 3 },
  y: { name: 'in 100', from: 0, to: 1e-3 },
  lines: [{ label: 'a single line', pen: 'working', symbols: true, points: [[2, 5e-4]] }],
  walls: [],
})
