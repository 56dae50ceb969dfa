/// What a page hands to the script that draws its figures. The program writes it (studies/sheet); the script does no
/// physics and no statistics. Numbers are in the reader's own unit; texts are ready to print.

/// A unit of the reader, and that of the other system: other = own × factor. `other` is empty where there is none.
export interface Unit { own: string; other: string; factor: number }

/// An axis. `name` stands at its end, `unit` where its numbers have one.
export interface Axis { name: string; unit?: Unit; log?: boolean; from: number; to: number }

/// working: solid, has-blue. overload: dashed, ink. soft: runner-up, narrow. other: narrow ink with a dash of its own.
export type Pen = 'working' | 'overload' | 'soft' | 'other'

export interface View {
  kind: 'view'
  length: Unit                 // of every length here
  mm: number                   // millimetres in one own unit of length
  designation: string
  lead: number
  d: number                    // major diameter
  root: number                 // root diameter
  nut_length: number
  nut_outside: number
  free_length: number | null   // mid-nut to the loaded end; null: not stated (the screw is then drawn a little longer
                               // than its nut)
  compression: boolean         // else tension: the force pulls
  end: 'free' | 'rounded' | 'fixed'   // how the loaded end is held, where a column is judged
  far_end: 'fixed' | 'rounded'        // and the end at the nut
  face: { kind: 'pad' | 'rolling' | 'point'; outer: number | null; radius: number }
  lift: boolean                // the load is lifted; else a clamp presses
  force: string                // "22 kN [4 950 lbf]": the force asked or the load; empty: none
  bows: string                 // "bows so at 96.3 kN [21 600 lbf]"; empty: no column, or none asked
}

/// One pitch of the engaged thread: corners from left to right over one pitch, [axial, radius], repeated by the script.
/// Axial 0 is the middle of a screw crest. Both outlines run over the same pitch.
export interface Profile {
  kind: 'profile'
  length: Unit
  mm: number
  pitch: number
  screw: [number, number][]
  nut: [number, number][]
  load_flank: [[number, number], [number, number]]   // the flank that carries, within one pitch
  levels: { name: string; sub: string; diameter: number }[]   // D4, d, d2, D1, d3 (name D, sub 4)
  depth: number                // of engagement
  angle: string                // "30°", "7°/45°", "" for square
}

export interface Ramp {
  kind: 'ramp'
  length: Unit
  turn: number                 // circumference at the pitch diameter
  lead: number
  lead_angle: number           // degrees
  starts: number
  holds: { q05: number; nominal: number; q95: number }   // slopes that friction holds, degrees
  overhauls: boolean           // at nominal the thread alone does not hold
}

/// Stacked bars: where the torque goes.
export interface Torque {
  kind: 'torque'
  axis: Axis
  available: number | null     // a wall; what there is to turn it with
  available_says: string       // "the pull gives 96 N·m"
  bars: { label: string; lifts: number; thread: number; face: number; drag: number }[]
}

/// One rung a limit; x is what the screw has over what is asked (or the other way round where less is better): 1 is the
/// wall, the right of it holds.
export interface Ladder {
  kind: 'ladder'
  rungs: {
    label: string              // "bearing pressure"
    sub: string                // "12 MPa at most, 95 of 100"
    holds: boolean
    spare: string              // "10.3 %", "−3.8 %"
    states: { pen: 'working' | 'overload'; nominal: number; q05: number; q95: number; judged: number | null }[]
  }[]
  pens?: { working: string; overload: string }   // what the pens stand for; else "working pull", "overload pull"
}

export interface Line {
  label: string                // beside the line
  pen: Pen
  points: [number, number][]
  band?: [number, number, number][]   // x, low, high: a tint
  symbols?: boolean            // a symbol at every point
  bold?: boolean               // one of those that bound what is possible
}

/// A limit: nothing may stand beyond it. side: where nothing may stand.
export interface Wall { on: 'x' | 'y'; at: number; side: 1 | -1; label: string }

/// Lines over an axis, which may be of numbers or of named sizes.
export interface Lines {
  kind: 'lines'
  wide: boolean                // drawn for two modules (680), and again for one
  height: number
  x: Axis
  names?: { label: string; second: string; holds: boolean }[]   // where x counts named things 0, 1, 2 …
  y: Axis
  lines: Line[]
  walls: Wall[]
  bars?: { from: number; to: number; share: number; pen: 'working' | 'overload' }[]   // histogram; share of its tallest
  marks?: { x: number; y: number; label: string; pen: Pen }[]
  here?: { on: 'x'; at: number; label: string }[]   // thin chain line: "this press, 520 mm"
  spare?: { x: number; from: number; to: number; label: string }   // drawn as a dimension
}

export interface FrictionMap {
  kind: 'map'
  x: Axis
  y: Axis
  step: [number, number]
  // x, y of its middle; passes that hold, fall short, are damaged, wind back
  cells: [number, number, number, number, number, number][]
  shares: { outcome: 'holds' | 'short' | 'damaged' | 'winds back'; label: string }[]   // "short 3.01"; those that occur
  curves: { label: string; points: [number, number][]; side: 1 | -1 }[]   // where a limit lies; side along x
}

/// Bars with intervals, one a row; `right` is a column of words.
export interface Bars {
  kind: 'bars'
  axis: Axis
  right_head: string
  rows: BarRow[]
}

export interface BarRow {
  label: string
  value: number
  low: number | null
  high: number | null
  text: string
  right: string
  missed: boolean
}

/// Real screws by two aims.
export interface Trade {
  kind: 'trade'
  x: Axis
  y: Axis
  points: { x: number; y: number; label: string; pick: boolean }[]
}

export type Figure = View | Profile | Ramp | Torque | Ladder | Lines | FrictionMap | Bars | Trade

/// By the id of the figure element (data-draw). `says` is for figures written as files, which have no page around them.
export interface Sheet {
  figures: Record<string, Figure>
  says?: Record<string, { title: string; alt: string }>
}
