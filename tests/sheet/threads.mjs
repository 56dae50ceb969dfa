// Invented threads of every form: their views, profiles and ramps.
export const MM = { own: 'mm', other: 'in', factor: 1 / 25.4 }, IN = { own: 'in', other: 'mm', factor: 25.4 }
const tangent = (degrees) => Math.tan((degrees * Math.PI) / 180)

/// One pitch of a thread with straight flanks; angles from the normal to the axis, the loaded flank on the left.
export function profile({ d, pitch, depth, clearance = 0.05 * pitch, load, other, crest, angle, length = MM, mm = 1 }) {
  const top = d / 2, root = top - depth - clearance, inner = top - depth, outer = top + clearance, half = crest / 2
  const at = (radius, side) => (side < 0 ? -half - (top - radius) * tangent(load) : half + (top - radius) * tangent(other))
  const tooth = (low, high) => [[-pitch / 2, low], [at(low, -1), low], [at(high, -1), high], [at(high, 1), high],
    [at(low, 1), low], [pitch / 2, low]]
  const levels = [['D', '4', 2 * outer], ['d', '', d], ['d', '2', d - depth], ['D', '1', 2 * inner], ['d', '3', 2 * root]]
  return { kind: 'profile', length, mm, pitch, screw: tooth(root, top), nut: tooth(inner, outer), depth, angle,
    load_flank: [[at(inner, -1), inner], [at(top, -1), top]], angles: [load, other],
    levels: levels.map(([name, sub, diameter]) => ({ name, sub, diameter })) }
}

export const profiles = () => ({
  trapezoidal: profile({ d: 40, pitch: 7, depth: 3.5, clearance: 0.5, load: 15, other: 15, crest: 2.56, angle: '30°' }),
  acme: profile({ d: 1.5, pitch: 0.25, depth: 0.125, clearance: 0.01, load: 14.5, other: 14.5, crest: 0.0927, angle: '29°',
    length: IN, mm: 25.4 }),
  stub: profile({ d: 1, pitch: 0.2, depth: 0.06, clearance: 0.01, load: 14.5, other: 14.5, crest: 0.084, angle: '29°',
    length: IN, mm: 25.4 }),
  square: profile({ d: 30, pitch: 6, depth: 3, clearance: 0.25, load: 0, other: 0, crest: 3, angle: '' }),
  buttress_30: profile({ d: 60, pitch: 9, depth: 6.75, clearance: 1.06, load: 3, other: 30, crest: 2.37, angle: '33°' }),
  buttress_45: profile({ d: 2, pitch: 0.25, depth: 0.15, clearance: 0.0157, load: 7, other: 45, crest: 0.0408, angle: '52°',
    length: IN, mm: 25.4 }),
  vee: profile({ d: 12, pitch: 1.75, depth: 0.947, clearance: 0.12, load: 30, other: 30, crest: 0.219, angle: '60°' }),
})

export const views = () => ({
  press: { kind: 'view', length: MM, mm: 1, designation: 'Tr 40x7', lead: 7, starts: 1, d: 40, root: 32, nut_length: 60,
    nut_outside: 80, free_length: 520, travel: 400, compression: true, end: 'free', far_end: 'fixed',
    face: { kind: 'pad', outer: 62, radius: 20 }, lift: false, force: '22 kN [4 950 lbf]',
    bows: 'bows so at 96.3 kN [21 600 lbf]' },
  jack: { kind: 'view', length: IN, mm: 25.4, designation: '1 1/2-4 Acme, two starts', lead: 0.5, starts: 2, d: 1.5,
    root: 1.23, nut_length: 3, nut_outside: 2.5, free_length: 18, travel: 12, compression: true, end: 'rounded',
    far_end: 'rounded', face: { kind: 'rolling', outer: 3, radius: 1.1 }, lift: true, force: '5 000 lbf [22.2 kN]',
    bows: 'bows so at 38 200 lbf [170 kN]' },
  hook: { kind: 'view', length: MM, mm: 1, designation: 'Tr 20x4', lead: 4, starts: 1, d: 20, root: 15.5, nut_length: 40,
    nut_outside: 40, free_length: null, travel: null, compression: false, end: 'free', far_end: 'fixed',
    face: { kind: 'pad', outer: null, radius: 12 }, lift: true, force: '', bows: '' },
  clamp: { kind: 'view', length: MM, mm: 1, designation: 'M12', lead: 1.75, starts: 1, d: 12, root: 9.85, nut_length: 24,
    nut_outside: 25, free_length: 60, travel: 50, compression: true, end: 'rounded', far_end: 'fixed',
    face: { kind: 'point', outer: null, radius: 0 }, lift: false, force: '3.5 kN', bows: 'bows so at 58.2 kN' },
  column: { kind: 'view', length: MM, mm: 1, designation: 'Tr 120x14', lead: 14, starts: 1, d: 120, root: 104,
    nut_length: 240, nut_outside: 200, free_length: 3500, travel: 3000, compression: true, end: 'fixed', far_end: 'fixed',
    face: { kind: 'pad', outer: 210, radius: 80 }, lift: true, force: '400 kN [89 900 lbf]', bows: 'bows so at 1 420 kN' },
  pull: { kind: 'view', length: IN, mm: 25.4, designation: '3/4-6 stub Acme', lead: 1 / 6, starts: 1, d: 0.75, root: 0.62,
    nut_length: 1.5, nut_outside: 1.5, free_length: 9, travel: 6, compression: false, end: 'free', far_end: 'fixed',
    face: { kind: 'pad', outer: 2, radius: 0.6 }, lift: true, force: '2 400 lbf [10.7 kN]', bows: '' },
})

const ramp = (turn, lead, starts, holds, length = MM, mm = 1) => {
  const lead_angle = (Math.atan(lead / turn) * 180) / Math.PI
  return { kind: 'ramp', length, mm, turn, lead, lead_angle, starts, overhauls: lead_angle > holds[1],
    holds: { q05: holds[0], nominal: holds[1], q95: holds[2] } }
}
export const ramps = () => ({
  flat: ramp(114.7, 7, 1, [5.04, 6.44, 7.95]),
  near: ramp(4.32, 0.25, 1, [3.1, 4.2, 5.6], IN, 25.4),
  steep: ramp(83.2, 30, 5, [4.1, 6.4, 8.8]),
  dry: ramp(34.4, 1.75, 1, [9.2, 14.9, 20.4]),
})
