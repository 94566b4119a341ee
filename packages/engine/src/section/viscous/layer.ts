import type { Influence } from './influence.js';
import type { SectionMesh } from './mesh.js';
import { LAMINAR, type LayerKind, TURBULENT, WAKE } from './station.js';
import type { TransitionRule } from './transition.js';
import type { WakeLine } from './wake.js';

/** One section at one incidence and Reynolds number. Speeds per free stream, lengths per chord. */
export interface ViscousCase {
  readonly mesh: SectionMesh;
  readonly wake: WakeLine;
  readonly influence: Influence;
  /** Inviscid speed along the way at all nodes. */
  readonly inviscid: Float64Array;
  readonly reynolds: number;
  readonly critical: number;
  /** Surface length of a trip on each side (upper, lower), NaN where there is none. */
  readonly trips: readonly [number, number];
  /** How far each trip stands up / chord. */
  readonly tripHeights: readonly [number, number];
  readonly tripDrags: readonly [number, number];
  /** Steps in the surface: side 0 upper, 1 lower. */
  readonly steps: readonly SurfaceStep[];
}

export interface SurfaceStep {
  readonly side: 0 | 1;
  /** Surface length at which it stands. */
  readonly s: number;
  /** Rise of the logarithm of amplitude. */
  readonly growth: number;
  /** Length over which it comes about. */
  readonly length: number;
}

/** Boundary layer and wake at all nodes, surface then wake. */
export interface LayerState {
  readonly theta: Float64Array;
  readonly displacement: Float64Array;
  /** Edge speed, positive away from the stagnation point. */
  readonly speed: Float64Array;
  /** Logarithm of amplitude where laminar, root of the shear-stress coefficient elsewhere. */
  readonly third: Float64Array;
  readonly kind: Uint8Array;
  /** The stagnation point lies between this node and the next. */
  stagnation: number;
  /** First turbulent node on each side; the trailing-edge neighbour in the wake counts where a side is laminar to its end: -1. */
  readonly turbulentFrom: [number, number];
}

export function emptyLayer(size: number): LayerState {
  return {
    theta: new Float64Array(size),
    displacement: new Float64Array(size),
    speed: new Float64Array(size),
    third: new Float64Array(size),
    kind: new Uint8Array(size),
    stagnation: 0,
    turbulentFrom: [-1, -1],
  };
}

export function copyLayer(from: LayerState, to: LayerState): void {
  to.theta.set(from.theta);
  to.displacement.set(from.displacement);
  to.speed.set(from.speed);
  to.third.set(from.third);
  to.kind.set(from.kind);
  to.stagnation = from.stagnation;
  to.turbulentFrom[0] = from.turbulentFrom[0];
  to.turbulentFrom[1] = from.turbulentFrom[1];
}

/** +1 where the flow runs along the way (lower surface, wake), -1 on the upper surface. */
export const flowSign = (state: LayerState, i: number): number => (i <= state.stagnation ? -1 : 1);

/** Surface length of the stagnation point. */
export function stagnationLength(c: ViscousCase, state: LayerState): number {
  const k = state.stagnation;
  const a = state.speed[k];
  const b = state.speed[k + 1];
  return c.mesh.s[k] + ((c.mesh.s[k + 1] - c.mesh.s[k]) * a) / (a + b);
}

/** Distance of a node from the stagnation point along the surface; the wake runs on from the upper trailing edge. at - stagnation length */
export function distanceOf(c: ViscousCase, state: LayerState, at: number, i: number): number {
  if (i >= c.mesh.count) return at + c.wake.s[i - c.mesh.count];
  return i <= state.stagnation ? at - c.mesh.s[i] : c.mesh.s[i] - at;
}

/** Dead fluid behind an open trailing edge, part of the displacement there: fades over 2.5 gaps. */
export function wakeGap(c: ViscousCase, i: number): number {
  const gap = c.mesh.tailGap;
  if (gap === 0 || i < c.mesh.count) return 0;
  const t = Math.max(0, 1 - c.wake.s[i - c.mesh.count] / (2.5 * gap));
  return gap * t * t * (3 - 2 * t);
}

/** First and last node of a side, and the step from one to the next downstream. */
export function sideNodes(c: ViscousCase, state: LayerState, side: 0 | 1): readonly [number, number, number] {
  return side === 0 ? [state.stagnation, 0, -1] : [state.stagnation + 1, c.mesh.count - 1, 1];
}

/** Rule of transition on one side, with distances from the present stagnation point. */
export function ruleOf(c: ViscousCase, at: number, side: 0 | 1): TransitionRule {
  const sign = side === 0 ? -1 : 1;
  const trip = c.trips[side];
  return {
    critical: c.critical,
    trip: Number.isNaN(trip) ? Infinity : Math.max(0, sign * (trip - at)),
    tripHeight: c.tripHeights[side],
    tripDrag: c.tripDrags[side],
    steps: c.steps
      .filter((step) => step.side === side)
      .map((step) => ({ distance: sign * (step.s - at), growth: step.growth, length: step.length })),
  };
}

/** Kind of layer at a node from where its side becomes turbulent. */
export function kindAt(c: ViscousCase, state: LayerState, i: number): LayerKind {
  if (i >= c.mesh.count) return WAKE;
  const side = i <= state.stagnation ? 0 : 1;
  const from = state.turbulentFrom[side];
  if (from < 0) return LAMINAR;
  return (side === 0 ? i <= from : i >= from) ? TURBULENT : LAMINAR;
}
