import { pressureForces } from './inviscid.js';
import type { LocalSystem } from './jacobian.js';
import { kindAt, type LayerState, ruleOf, sideNodes, stagnationLength, type ViscousCase } from './layer.js';
import { loadInterval } from './march.js';
import { FRICTION, fillStation, RECORD } from './station.js';
import { transitionFraction } from './transition.js';

/** Boundary layer along one side, from the stagnation point to the trailing edge. Lengths / chord, speeds / free stream. */
export interface LayerSide {
  readonly station: Float64Array;
  readonly theta: Float64Array;
  readonly displacement: Float64Array;
  readonly speed: Float64Array;
  /** Friction / free-stream dynamic pressure, negative where the flow at the wall runs back. */
  readonly friction: Float64Array;
  /** Chord station where the layer becomes turbulent; 1 where it stays laminar to the trailing edge. */
  readonly transition: number;
  /** First separation and the reattachment behind it, chord stations; absent where there is none. */
  readonly separation?: number;
  readonly reattachment?: number;
  /** Whether the flow is separated at the trailing edge. */
  readonly openAtTail: boolean;
}

/** Flow about a section at one incidence and Reynolds number. */
export interface SectionFlow {
  readonly alpha: number;
  readonly reynolds: number;
  readonly lift: number;
  readonly drag: number;
  /** Part of the drag that is friction; the rest is pressure. */
  readonly frictionDrag: number;
  /** About the quarter chord, nose up positive. */
  readonly moment: number;
  readonly upper: LayerSide;
  readonly lower: LayerSide;
  /** Chord stations and pressure coefficients around the outline, from the upper trailing edge over the nose. */
  readonly station: Float64Array;
  readonly pressure: Float64Array;
  readonly iterations: number;
}

/** Friction coefficient of every node on its edge speed, times speed squared. */
function frictionOf(c: ViscousCase, state: LayerState, i: number, record: Float64Array): number {
  const u = state.speed[i];
  fillStation(kindAt(c, state, i), state.theta[i], state.displacement[i], u, 0, 0, c.reynolds, record, 0);
  return 2 * record[FRICTION] * state.theta[i] * u * u;
}

/** Stations where a quantity passes zero, downwards first and then upwards. */
function signChanges(
  x: Float64Array,
  values: Float64Array,
): { readonly down?: number; readonly up?: number; readonly open: boolean } {
  let down: number | undefined;
  let up: number | undefined;
  for (let i = 1; i < x.length; i++) {
    if (values[i] < 0 === values[i - 1] < 0) continue;
    const at = x[i - 1] + ((x[i] - x[i - 1]) * values[i - 1]) / (values[i - 1] - values[i]);
    if (values[i] < 0 && down === undefined) down = at;
    else if (values[i] >= 0 && down !== undefined && up === undefined) up = at;
  }
  return {
    ...(down === undefined ? {} : { down }),
    ...(up === undefined ? {} : { up }),
    open: values[x.length - 1] < 0,
  };
}

/** Chord station of transition on a side. */
function transitionStation(c: ViscousCase, state: LayerState, local: LocalSystem, side: 0 | 1): number {
  const from = state.turbulentFrom[side];
  if (from < 0) return 1;
  const at = stagnationLength(c, state);
  const p = side === 0 ? from + 1 : from - 1;
  const f = transitionFraction(
    loadInterval(c, state, local, at, p, from),
    c.reynolds,
    ruleOf(c, at, side),
    local.scratch,
  );
  return c.mesh.x[p] + Math.min(1, f) * (c.mesh.x[from] - c.mesh.x[p]);
}

function layerSide(c: ViscousCase, state: LayerState, local: LocalSystem, side: 0 | 1): LayerSide {
  const [first, last, step] = sideNodes(c, state, side);
  const count = Math.abs(last - first) + 1;
  const pick = (values: Float64Array) => Float64Array.from({ length: count }, (_, k) => values[first + k * step]);
  const record = new Float64Array(RECORD);
  const station = pick(c.mesh.x);
  const friction = Float64Array.from({ length: count }, (_, k) => frictionOf(c, state, first + k * step, record));
  const changes = signChanges(station, friction);
  return {
    station,
    theta: pick(state.theta),
    displacement: pick(state.displacement),
    speed: pick(state.speed),
    friction,
    transition: transitionStation(c, state, local, side),
    ...(changes.down === undefined ? {} : { separation: changes.down }),
    ...(changes.up === undefined ? {} : { reattachment: changes.up }),
    openAtTail: changes.open,
  };
}

/** Friction along the free stream. */
function frictionDrag(c: ViscousCase, state: LayerState, alpha: number): number {
  const record = new Float64Array(RECORD);
  const { x, y, count } = c.mesh;
  let sum = 0;
  let before = frictionOf(c, state, 0, record);
  for (let i = 1; i < count; i++) {
    const here = frictionOf(c, state, i, record);
    const along = (x[i] - x[i - 1]) * Math.cos(alpha) + (y[i] - y[i - 1]) * Math.sin(alpha);
    sum += 0.5 * (before + here) * (i <= state.stagnation ? -along : along);
    before = here;
  }
  return sum;
}

/**
 * Coefficients and layers of a solved case.
 * Drag is that of the wake far downstream: 2 theta u^((H + 5) / 2) at its last node.
 * Source: H. Squire, A. Young, The calculation of the profile drag of aerofoils, ARC R&M 1838, 1937.
 */
export function sectionFlow(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  alpha: number,
  iterations: number,
): SectionFlow {
  const end = c.influence.size - 1;
  const surface = state.speed.subarray(0, c.mesh.count);
  const forces = pressureForces(c.mesh, surface, alpha);
  const friction = frictionDrag(c, state, alpha);
  const shape = state.displacement[end] / state.theta[end];
  return {
    alpha,
    reynolds: c.reynolds,
    lift: forces.lift,
    drag: 2 * state.theta[end] * state.speed[end] ** (0.5 * (shape + 5)),
    frictionDrag: friction,
    moment: forces.moment,
    upper: layerSide(c, state, local, 0),
    lower: layerSide(c, state, local, 1),
    station: Float64Array.from(c.mesh.x),
    pressure: surface.map((q) => 1 - q * q),
    iterations,
  };
}

/**
 * Moment coefficient about a hinge of all pressure behind it, on chord squared, trailing edge down (nose up) positive: lift behind the hinge is negative.
 * flow - solved; y - ordinates of its nodes; hingeX, hingeY - hinge / chord
 */
export function hingeMoment(flow: SectionFlow, y: ArrayLike<number>, hingeX: number, hingeY: number): number {
  let sum = 0;
  for (let i = 0; i + 1 < flow.station.length; i++) {
    const mx = 0.5 * (flow.station[i] + flow.station[i + 1]);
    if (mx < hingeX) continue;
    const p = 0.5 * (flow.pressure[i] + flow.pressure[i + 1]);
    const dx = flow.station[i + 1] - flow.station[i];
    const dy = y[i + 1] - y[i];
    sum -= p * ((mx - hingeX) * dx + (0.5 * (y[i] + y[i + 1]) - hingeY) * dy);
  }
  return sum;
}
