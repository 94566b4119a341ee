import { brentRoot } from '../math/index.js';
import { flapHinge } from './chordwise.js';
import type { ElasticHalf } from './elasticHalf.js';
import { type ElasticTrim, elasticTrim, trimWeights } from './elasticTrim.js';
import type { LimitCondition, SlopEffect } from './limitTypes.js';

/**
 * Hinge moment of the pitch controls in a trimmed flight, both sides together, trailing edge down positive [N m].
 * From the incidence that each strip's lift stands for and the deflection, by thin-airfoil theory; real hinges have two thirds to all of it.
 */
export function trimHingeMoment(elastic: ElasticHalf, trim: ElasticTrim, pitchControls: readonly string[]): number {
  const { steady } = elastic;
  const { lattice, surfaces, causes, panels } = steady;
  const { strips, firstPanel } = lattice;
  const count = causes.length;
  const weights = trimWeights(elastic.steady, trim, pitchControls);
  let sum = 0;
  for (let s = 0; s < strips.count && firstPanel[s] < panels; s++) {
    const surface = surfaces[strips.surface[s]];
    const control = surface.controls.find(({ name }) => pitchControls.includes(name));
    if (control === undefined) continue;
    const y = Math.abs(strips.y[s]);
    if (y < control.fromY || y > control.toY) continue;
    let circulation = 0;
    for (let p = firstPanel[s]; p < firstPanel[s + 1]; p++)
      for (let c = 0; c < count; c++) circulation += weights[c] * trim.loaded.circulation[p * count + c];
    const lift = (2 * circulation) / strips.chord[s];
    const hinge = flapHinge(control.chordFraction);
    // Lift = 2 pi (alpha + effectiveness x deflection): what is left of it is incidence.
    const incidence = lift / (2 * Math.PI) - 0.5 * control.effectiveness * trim.counted;
    const square = (control.chordFraction * strips.chord[s]) ** 2;
    sum += 2 * strips.width[s] * square * (hinge.byIncidence * incidence + hinge.byDeflection * trim.control);
  }
  return trim.pressure * sum;
}

/**
 * Dynamic pressure from which the pitch controls overpower what holds them; undefined where torque is not known or suffices.
 *
 * trims - over the pressures searched, rising: they say between which two it lies
 */
export function hingeLimit(
  elastic: ElasticHalf,
  trims: readonly ElasticTrim[],
  condition: Pick<LimitCondition, 'trim' | 'holdingTorque'>,
): { readonly pressure: number; readonly words: string } | undefined {
  const { holdingTorque, trim: of } = condition;
  if (holdingTorque === undefined) return undefined;
  const spare = (trim: ElasticTrim) => holdingTorque - Math.abs(trimHingeMoment(elastic, trim, of.pitchControls));
  const i = trims.findIndex((trim) => spare(trim) < 0);
  if (i < 0) return undefined;
  const spareAt = (pressure: number) => {
    const trim = elasticTrim(elastic, pressure, of);
    return trim === undefined ? -holdingTorque : spare(trim);
  };
  const over = trims[i].pressure;
  return {
    pressure: i === 0 ? over : (brentRoot(spareAt, trims[i - 1].pressure, over, { tolerance: 1e-4 * over }) ?? over),
    words: `the air pushes the pitch controls back with more than the ${holdingTorque.toFixed(2)} N m that hold them`,
  };
}

/** Change of airspeed over which the slope of the trim curve is taken. */
const step = 0.03;

/**
 * How far the trimmed airspeed wanders while pitch controls move freely within the slop of their linkages.
 * Undefined where no slop is known, or where the control hardly sets the airspeed: then slop is no measure of anything.
 */
export function slopEffect(
  elastic: ElasticHalf,
  { linkageSlop, density, airspeed, trim: of }: Pick<LimitCondition, 'linkageSlop' | 'density' | 'airspeed' | 'trim'>,
): SlopEffect | undefined {
  if (linkageSlop === undefined) return undefined;
  const at = (factor: number) => elasticTrim(elastic, (density / 2) * (factor * airspeed) ** 2, of);
  const [slow, fast] = [at(1 - step), at(1 + step)];
  if (slow === undefined || fast === undefined) return undefined;
  const slope = Math.abs(fast.control - slow.control) / (2 * step * airspeed);
  const wander = linkageSlop / slope;
  return wander < airspeed ? { angle: linkageSlop, airspeed: wander } : undefined;
}
