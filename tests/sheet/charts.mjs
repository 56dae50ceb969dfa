// Invented ladders, bars, maps and trade-offs, ordinary and odd.
import { MM, NM, range } from './plots.mjs'

const state = (pen, nominal, wide, judged = null) => ({
  pen,
  nominal,
  q05: nominal * (1 - wide),
  q95: nominal * (1 + wide),
  judged,
})
export const ladder = () => ({
  kind: 'ladder',
  rungs: [
    {
      label: 'Force at the pad',
      sub: '22 kN [4 950 lbf], 95 of 100',
      holds: true,
      spare: '2.63 %',
      states: [state('working', 1.22, 0.16, 1.026)],
    },
    {
      label: 'Self-locking',
      sub: 'margin 1, 98 of 100',
      holds: true,
      spare: '3.14 %',
      states: [state('working', 1.38, 0.22, 1.031)],
    },
    {
      label: 'Buckling',
      sub: 'margin 3, at 22 kN',
      holds: true,
      spare: '45.9 %',
      states: [state('working', 1.46, 0.05, 1.459), state('overload', 1.34, 0.2, 1.043)],
    },
    {
      label: 'Bearing pressure',
      sub: '12 MPa [1 740 psi] at most, 95 of 100',
      holds: true,
      spare: '23.3 %',
      states: [state('working', 1.5, 0.18, 1.233)],
    },
    {
      label: 'Yield',
      sub: 'margin 1.5, 99.9 of 100',
      holds: true,
      spare: '271 %',
      states: [state('working', 5, 0.12, 3.71)],
    },
    {
      label: 'Stripping',
      sub: 'margin 2, nominal',
      holds: true,
      spare: '612 %',
      states: [state('working', 7.1, 0, 7.12)],
    },
  ],
})
export const ladder_missed = () => ({
  kind: 'ladder',
  rungs: [
    {
      label: 'Force',
      sub: '22 kN, 95 of 100',
      holds: false,
      spare: '−3.80 %',
      states: [state('working', 1.1, 0.17, 0.962)],
    },
    {
      label: 'Least cycles before the thread of the nut is worn to its limit',
      sub: '1 000 000 strokes at the least, 99.9 of 100 screws built',
      holds: false,
      spare: '−97.2 %',
      states: [state('working', 0.03, 0.5, 0.028), state('overload', 0.02, 0.5, null)],
    },
    {
      label: 'Yield',
      sub: 'margin 1',
      holds: true,
      spare: '31 400 %',
      states: [state('working', 320, 0.1, 315), state('overload', 190, 0.1, 180)],
    },
  ],
})
export const ladder_one = () => ({
  kind: 'ladder',
  rungs: [{ label: 'Force', sub: '', holds: true, spare: '', states: [state('working', 1.4, 0, null)] }],
})

const bar = (label, lifts, thread, face, drag = 0) => ({ label, lifts, thread, face, drag })
export const torque = () => ({
  kind: 'torque',
  axis: { name: 'torque for 22 kN', unit: NM, from: 0, to: 130 },
  available: 96,
  available_says: 'the pull gives 96 N·m',
  bars: [
    bar('The pick, oil, domed pad', 24.5, 45.8, 8.7),
    bar('Rolling thrust face, oil', 24.5, 45.8, 0.9),
    bar('Flat pad, oil, mean radius 16 mm', 24.5, 45.8, 34.7),
    bar('Dry thread, domed pad', 24.5, 80, 8.7),
  ],
})
export const torque_odd = () => ({
  kind: 'torque',
  axis: { name: 'torque', from: 0, to: 10 },
  available: null,
  available_says: '',
  bars: [bar('A single bar with a very long label that does not fit in one line of the plot', 0.2, 6.5, 0.1, 2.9)],
})
export const torque_tight = () => ({
  kind: 'torque',
  axis: { name: 'torque for 5 000 lbf', unit: { own: 'lbf·in', other: 'N·m', factor: 0.113 }, from: 0, to: 1700 },
  available: 1500,
  available_says: 'the bar gives 1 500 lbf·in',
  bars: [
    bar('The pick', 400, 900, 190),
    bar('Greased', 400, 700, 150),
    bar('Three', 400, 800, 290, 100),
    bar('Four', 400, 830, 150, 100),
    bar('Five', 400, 830, 150, 100),
  ],
})

export const map = () => {
  const cells = [],
    step = [0.004, 0.004]
  for (let x = 0.062; x < 0.2; x += step[0])
    for (let y = 0.062; y < 0.2; y += step[1]) {
      const t = (x - 0.109) / 0.016,
        f = (y - 0.113) / 0.018,
        count = Math.round(3000 * Math.exp(-(t * t - 1.4 * t * f + f * f)))
      const outcome = 1.2 * x + 0.2 * y > 0.19 ? 1 : x < 0.07 ? 3 : 1.2 * x + 0.5 * y < 0.135 ? 2 : 0
      if (count) cells.push([x, y, ...[0, 1, 2, 3].map((k) => (k === outcome ? count : Math.floor(count / 50)))])
    }
  return {
    kind: 'map',
    x: { name: 'thread friction', from: 0.06, to: 0.2 },
    y: { name: 'face friction', from: 0.06, to: 0.2 },
    step,
    cells,
    shares: [
      ['holds', 'holds 95.4'],
      ['short', 'short 3.01'],
      ['damaged', 'damaged by overload 0.317'],
      ['winds back', 'winds back 1.15'],
    ].map(([outcome, label]) => ({ outcome, label })),
    curves: [
      {
        label: 'force',
        points: [
          [0.15, 0.06],
          [0.125, 0.2],
        ],
        side: 1,
      },
      {
        label: 'overload',
        points: [
          [0.088, 0.06],
          [0.06, 0.125],
        ],
        side: -1,
      },
    ],
  }
}
/// Friction against a pull, both systems of units on both axes, no limit in sight but one.
export const map_pull = () => ({
  ...map(),
  x: { name: 'pull', unit: { own: 'N', other: 'lbf', factor: 0.224809 }, from: 60, to: 200 },
  y: { name: 'torque lost', unit: NM, from: 60, to: 200 },
  step: [4, 4],
  cells: map().cells.map(([x, y, ...passes]) => [1000 * x, 1000 * y, ...passes]),
  curves: map().curves.map((one) => ({ ...one, points: one.points.map(([x, y]) => [1000 * x, 1000 * y]) })),
})
export const map_few = () => ({
  kind: 'map',
  x: { name: 'thread friction', from: 0.1, to: 0.12 },
  y: { name: 'face friction', from: 0.1, to: 0.12 },
  step: [0.005, 0.005],
  cells: [[0.11, 0.11, 400, 0, 0, 0]],
  shares: [{ outcome: 'holds', label: 'holds 100' }],
  curves: [],
})

const matter = (label, value, low, high, text, right, missed = false) => ({
  label,
  value,
  low,
  high,
  text,
  right,
  missed,
})
export const bars = () => ({
  kind: 'bars',
  axis: { name: 'share of the scatter in force, %', from: 0, to: 75 },
  right_head: 'short in 100 if halved',
  rows: [
    matter('The oil, shared by thread and face', 61, 58, 64, '61.4', '3.01 to 0.513'),
    matter('Pull on the bar', 19, 17, 22, '19.3', '3.01 to 2.06'),
    matter("Thread friction, this screw's own", 18.5, 16, 21, '18.5', '3.01 to 2.05'),
    matter("Face friction, this pad's own", 0.85, 0, 2, '0.85', '3.01 to 2.91'),
  ],
})
/// Bars to both sides of zero, long words at the right, as of what a change is worth.
export const bars_both = () => ({
  kind: 'bars',
  axis: { name: 'change of the share of the scatter in the margin of the force, %', from: -30, to: 20 },
  right_head: '',
  rows: [
    matter('A coarser thread instead of the one picked', 19.8, null, null, '+19.8 %', 'misses bearing pressure …', true),
    matter('A rolling bearing of the same radius', 0.4, null, null, '+0.4 %', 'passes'),
    matter('Dry instead of oiled', -9.64, null, null, '−9.64 %', 'misses force', true),
    matter('Two starts', -29.8, null, null, '−29.8 %', 'from 0.008 to at most 0.00141'),
  ],
})
export const bars_left = () => ({
  kind: 'bars',
  axis: { name: 'change, %', from: -40, to: 0 },
  right_head: 'short in 100',
  rows: [matter('Dry instead of oiled', -26.1, null, null, '−26.1 %', 'misses force', true)],
})
export const bars_odd = () => ({
  kind: 'bars',
  axis: { name: 'has ÷ asked', from: 0, to: 3 },
  right_head: '',
  rows: [
    matter('Short', 0.4, null, null, '0.4', '', true),
    matter(
      'A long label of a row that goes on and on until it takes a second line of its own',
      2.6,
      null,
      null,
      '2.6',
      '',
    ),
  ],
})

export const trade = () => ({
  kind: 'trade',
  x: { name: 'mass', unit: { own: 'kg', other: 'lb', factor: 2.20462 }, from: 5, to: 14 },
  y: { name: 'nut length', unit: MM, from: 0, to: 80 },
  points: range(0, 8, 9).map((i) => ({
    x: 5.9 + 0.9 * i,
    y: 72 / (1 + 0.35 * i),
    label: `Tr ${40 + 4 * i}x7`,
    pick: i === 0,
  })),
})
export const trade_one = () => ({
  kind: 'trade',
  x: { name: 'mass, kg', from: 1, to: 2 },
  y: { name: 'torque', unit: NM, from: 0, to: 10 },
  points: [{ x: 1.5, y: 5, label: 'Tr 20x4', pick: true }],
})
