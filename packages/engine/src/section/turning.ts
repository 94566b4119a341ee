import type { ControlTurning } from '../shape/index.js';
import { FLAP_EFFICIENCY, FLAP_EFFICIENCY_SPREAD, flapEfficiency, flapGapLoss, flapReynoldsLoss } from './flap.js';

/** Deflection beyond which the flow leaves a flap, and the further deflection that halves what is left [rad]. */
const FLOW_LEAVES = Math.PI / 12;
const FLOW_HALVED = Math.PI / 6;

/**
 * Deflection that turns the flow as much as the real one does: beyond 15 degrees the flow leaves the flap.
 * deflection - trailing edge down positive [rad]; returns [rad], 0.8 of it at 30 degrees, half at 45.
 * Source: common practice (trend of DATCOM section 6.1.1), as in flapEffect.
 */
export function turningDeflection(deflection: number): number {
  const excess = Math.max(0, Math.abs(deflection) - FLOW_LEAVES);
  return deflection / (1 + (excess / FLOW_HALVED) ** 2);
}

/** Place of a value in a rising list: the lower neighbour and the share of the upper one; held at both ends. */
function placeIn(list: readonly number[], value: number, scale: (x: number) => number): readonly [number, number] {
  const last = list.length - 1;
  if (last === 0 || value <= list[0]) return [0, 0];
  if (value >= list[last]) return [last - 1, 1];
  let i = 0;
  while (list[i + 1] < value) i++;
  return [i, (scale(value) - scale(list[i])) / (scale(list[i + 1]) - scale(list[i]))];
}

const asItIs = (x: number): number => x;

/** A number kept by Reynolds number and deflection: straight in the deflection and in the logarithm of the Reynolds number, held at the ends. */
function readTurning(
  { reynolds, deflections }: ControlTurning,
  values: readonly number[],
  at: number,
  turned: number,
): number {
  const [i, s] = placeIn(reynolds, at, Math.log);
  const [j, t] = placeIn(deflections, turned, asItIs);
  const row = (k: number): number => {
    const a = values[k * deflections.length + j];
    return t === 0 ? a : a + t * (values[k * deflections.length + j + 1] - a);
  };
  const low = row(i);
  return s === 0 ? low : low + s * (row(i + 1) - low);
}

/**
 * Real / ideal turning of a control by its boundary layers.
 * turning - as computed; reynolds - on the chord [-]; deflection - trailing edge down positive [rad]
 */
export const turningRatio = (turning: ControlTurning, reynolds: number, deflection: number): number =>
  readTurning(turning, turning.ratio, reynolds, deflection);

/** Standard deviation of `turningRatio` because nobody knows whether the layer ahead of the hinge is laminar. Same arguments. */
export const turningSpread = (turning: ControlTurning, reynolds: number, deflection: number): number =>
  readTurning(turning, turning.spread, reynolds, deflection);

/** What the boundary layers of a control do: as computed, or by the fit with the layer ahead of its hinge (`LAYER_AHEAD`). */
export interface ControlLayers {
  readonly layerAhead: number;
  readonly turning?: ControlTurning;
}

/**
 * Deflection that counts of a control: what the flow follows, less what a slow boundary layer takes of it [rad].
 * deflection - trailing edge down positive [rad]; reynolds - on the chord of the section [-]
 */
export function countedDeflection(
  { layerAhead, turning }: ControlLayers,
  deflection: number,
  reynolds: number,
): number {
  if (deflection === 0) return 0;
  const turned = turningDeflection(deflection);
  if (turning !== undefined) return turned * turningRatio(turning, reynolds, deflection);
  return layerAhead === 0 ? turned : turned * (1 - flapReynoldsLoss(reynolds, layerAhead));
}

/**
 * Deflection of which a given one counts: the reverse of `countedDeflection` [rad].
 * counted - [rad]; most - largest deflection looked at [rad]; returns that where no smaller one counts as much
 */
export function deflectionThatCounts(
  layers: ControlLayers,
  counted: number,
  reynolds: number,
  most = FLOW_LEAVES + FLOW_HALVED,
): number {
  if (counted === 0) return 0;
  const side = Math.sign(counted);
  const at = (size: number): number => side * countedDeflection(layers, side * size, reynolds);
  const wanted = side * counted;
  const steps = 48;
  let before = 0;
  for (let k = 1; k <= steps; k++) {
    const size = (k / steps) * most;
    const here = at(size);
    if (here >= wanted) return side * (size - ((here - wanted) / (here - before)) * (most / steps));
    before = here;
  }
  return side * most;
}

/** How much of the theoretical turning a hinged flap reaches, and what takes the rest. */
export interface ControlEfficiency {
  /** Real / ideal effectiveness and its standard deviation. */
  readonly value: number;
  readonly spread: number;
  /** Parts lost to the slow layer (below zero where it turns the flow by more than theory) and through the gap. */
  readonly lostToLayer: number;
  readonly lostToGap: number;
}

/**
 * Real / ideal effectiveness of a control at a deflection, by what was computed of it, or by the fit.
 * reynolds - on the chord [-]; deflection - [rad]; gap - open gap at the hinge / chord, 0 where sealed [-]
 */
export function controlEfficiency(
  { layerAhead, turning }: ControlLayers,
  { reynolds, deflection, gap }: { readonly reynolds: number; readonly deflection: number; readonly gap: number },
): ControlEfficiency {
  if (turning === undefined) return flapEfficiency({ reynolds, gap, layer: layerAhead });
  const { loss: lostToGap, spread: gapSpread } = flapGapLoss(gap);
  const ratio = turningRatio(turning, reynolds, deflection);
  const value = FLAP_EFFICIENCY * (1 - lostToGap) * ratio;
  const relative = Math.hypot(
    FLAP_EFFICIENCY_SPREAD / FLAP_EFFICIENCY,
    turningSpread(turning, reynolds, deflection) / ratio,
    gapSpread / (1 - lostToGap),
  );
  return { value, spread: value * relative, lostToLayer: 1 - ratio, lostToGap };
}
