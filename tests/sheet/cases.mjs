// The cases by name: {name: {id: figure}}.
import { profiles, ramps, views } from './threads.mjs'
import * as chart from './charts.mjs'
import * as plot from './plots.mjs'

const LONG = (i) => `${1 + (i % 4)} ${i + 1}/16-4 Acme, ${1 + (i % 3)} starts`

export function cases() {
  const { press, jack, hook, clamp, column, pull } = views()
  const { trapezoidal, acme, ...other_profiles } = profiles()
  const { flat, near, steep, dry } = ramps()
  return {
    press: {
      view: press,
      profile: trapezoidal,
      ramp: flat,
      torque: chart.torque(),
      ladder: chart.ladder(),
      chance: plot.chance(),
      first: plot.first(),
      reach: plot.reach(),
      window: plot.sizes(9, 6),
      map: chart.map(),
      matters: chart.bars(),
      settling: plot.settling(),
      trade: chart.trade(),
    },
    jack: {
      view: jack,
      profile: acme,
      ramp: near,
      torque: chart.torque_tight(),
      ladder: chart.ladder_missed(),
      chance: plot.chance({ own: 'lbf', other: 'kN', factor: 0.00444822 }, 225, false),
      handle: plot.handle(),
      window: plot.sizes(24, 12, (i) => i > 6 && i < 12, LONG),
      nut: plot.many(),
    },
    odd: {
      view: hook,
      steep,
      dry,
      ladder: chart.ladder_one(),
      torque: chart.torque_odd(),
      matters: chart.bars_odd(),
      worth: chart.bars_both(),
      left: chart.bars_left(),
      pull: chart.map_pull(),
      first: plot.first_many(),
      map: chart.map_few(),
      trade: chart.trade_one(),
      point: plot.one_point(),
      window: plot.sizes(2, 1, () => false),
      sizes: plot.sizes(24, 3, () => false),
    },
    threads: { clamp, column, pull, ...other_profiles },
  }
}
