import {
  estimateDrag,
  estimateDragSpread,
  estimateLiftSlope,
  estimateMaximumLift,
  estimateMaximumLiftSpread,
  estimateMinimumLift,
} from './estimate.js';
import { tableByRow, tableDrag, tableDragSpread, tableLift, tableMoment } from './tableLookup.js';
import type { Interval, SectionModel } from './types.js';

/** Half-width of a 90 % interval in standard deviations. */
const NINETY_PERCENT = 1.645;

/** Part of a flap's lift that raises maximum lift and shifts the low-drag range; the rest is used up by earlier stall. Common practice, no source. */
const FLAP_SHARE = 0.6;

/** Lift added at constant incidence by a change of the zero-lift angle, as far as it moves the whole polar. */
const polarShift = (model: SectionModel, zeroLiftShift: number): number =>
  -FLAP_SHARE * model.liftSlope * 0.87 * zeroLiftShift;

/**
 * Lift-curve slope of the attached flow [1/rad].
 * model - section; reynolds - on the chord [-]
 */
export const sectionLiftSlope = (model: SectionModel, reynolds: number): number =>
  model.kind === 'table' ? tableByRow(model, model.liftSlopes, reynolds) : estimateLiftSlope(model, reynolds);

/**
 * Angle of attack of zero lift [rad], nose up positive.
 * model - section; reynolds - on the chord [-]; zeroLiftShift - by a deflection, from `flapEffect` times deflection [rad]
 */
export const sectionZeroLiftAngle = (model: SectionModel, reynolds: number, zeroLiftShift = 0): number =>
  (model.kind === 'table' ? tableByRow(model, model.zeroLiftAngles, reynolds) : model.zeroLiftAngle) + zeroLiftShift;

/** Greatest lift coefficient, without its interval and without allocating. Arguments as `sectionMaximumLift`. */
export const sectionMaximumLiftCoefficient = (model: SectionModel, reynolds: number, zeroLiftShift = 0): number =>
  (model.kind === 'table' ? tableByRow(model, model.maximumLift, reynolds) : estimateMaximumLift(model, reynolds)) +
  polarShift(model, zeroLiftShift);

/** Most negative lift coefficient. Arguments as `sectionMaximumLift`. */
export const sectionMinimumLiftCoefficient = (model: SectionModel, reynolds: number, zeroLiftShift = 0): number =>
  (model.kind === 'table' ? tableByRow(model, model.minimumLift, reynolds) : estimateMinimumLift(model, reynolds)) +
  polarShift(model, zeroLiftShift);

/** Relative standard deviation of the greatest lift coefficient. */
export const sectionMaximumLiftSpread = (model: SectionModel, reynolds: number): number =>
  model.kind === 'table'
    ? tableByRow(model, model.maximumLiftSpread, reynolds)
    : estimateMaximumLiftSpread(model, reynolds);

/**
 * Greatest lift coefficient with its 90 % interval.
 * model - section; reynolds - on the chord [-]; zeroLiftShift - by a deflection [rad], negative for a flap down
 */
export function sectionMaximumLift(model: SectionModel, reynolds: number, zeroLiftShift = 0): Interval {
  const value = sectionMaximumLiftCoefficient(model, reynolds, zeroLiftShift);
  const half = NINETY_PERCENT * sectionMaximumLiftSpread(model, reynolds) * Math.abs(value);
  return { value, low: value - half, high: value + half };
}

const softPlus = (x: number): number => (x > 30 ? x : Math.log(1 + Math.exp(x)));

/** Lift of the attached flow with a rounded approach to both stall limits. */
function attachedLift(linear: number, most: number, least: number): number {
  const upper = 0.1 * Math.abs(most);
  const lower = 0.1 * Math.abs(least);
  return linear - upper * softPlus((linear - most) / upper) + lower * softPlus((least - linear) / lower);
}

/** Separated plate: normal-force coefficient, of the sign of the angle. Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965 (flat plate, 1.98 when square to the flow; law of the leading-edge angle from memory). */
function plateNormalForce(angle: number): number {
  const sine = Math.sin(angle);
  return (1.98 * sine) / (0.56 + 0.44 * Math.abs(sine));
}

/** Share of separated flow: 0 when attached, 1 from about 17 degrees beyond the stall limit on; smooth. */
function separation(angle: number, zeroLift: number, slope: number, most: number, least: number): number {
  const over = Math.max(angle - zeroLift - most / slope, zeroLift + least / slope - angle) - 0.044;
  const x = Math.min(1, Math.max(0, over / 0.253));
  return x * x * (3 - 2 * x);
}

/** Angle of attack brought to -pi to pi. */
const wrap = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** Share of separated flow of the undeflected section. */
const separatedShare = (model: SectionModel, angle: number, reynolds: number): number =>
  separation(
    angle,
    sectionZeroLiftAngle(model, reynolds),
    sectionLiftSlope(model, reynolds),
    sectionMaximumLiftCoefficient(model, reynolds),
    sectionMinimumLiftCoefficient(model, reynolds),
  );

/** Angle at which the undeflected polar is read: a deflection shifts the polar along its lift curve by `added`. */
const polarAngle = (model: SectionModel, alpha: number, reynolds: number, zeroLiftShift: number): number =>
  zeroLiftShift === 0
    ? wrap(alpha)
    : wrap(wrap(alpha) - zeroLiftShift - polarShift(model, zeroLiftShift) / sectionLiftSlope(model, reynolds));

/** Lift of the undeflected section at any angle. */
function baseLift(model: SectionModel, angle: number, reynolds: number): number {
  if (model.kind === 'table') return tableLift(model, angle, reynolds);
  const slope = estimateLiftSlope(model, reynolds);
  const most = estimateMaximumLift(model, reynolds);
  const least = estimateMinimumLift(model, reynolds);
  const share = separation(angle, model.zeroLiftAngle, slope, most, least);
  const attached = share < 1 ? attachedLift(slope * (angle - model.zeroLiftAngle), most, least) : 0;
  return share === 0 ? attached : (1 - share) * attached + share * plateNormalForce(angle) * Math.cos(angle);
}

/**
 * Lift coefficient at any angle of attack: linear about zero lift, rounded stall, flat-plate law beyond and in reverse flow.
 *
 * model - section; alpha - angle of attack, any [rad]; reynolds - on the chord [-];
 * zeroLiftShift - change of the zero-lift angle by a deflection [rad], negative for a flap down
 */
export function sectionLift(model: SectionModel, alpha: number, reynolds: number, zeroLiftShift = 0): number {
  const angle = polarAngle(model, alpha, reynolds, zeroLiftShift);
  const base = baseLift(model, angle, reynolds);
  if (zeroLiftShift === 0) return base;
  const share = separatedShare(model, angle, reynolds);
  // A flap behind separated flow keeps the less effect, the more the section stands across the flow.
  const kept = 1 - share + share * Math.max(0, Math.cos(angle)) ** 3;
  return base + polarShift(model, zeroLiftShift) * kept;
}

/**
 * Profile drag coefficient at a lift coefficient, attached flow; no allocation.
 *
 * model - section; cl - lift coefficient [-]; reynolds - on the chord [-];
 * zeroLiftShift - by a deflection [rad]: moves the low-drag range by 0.6 of the lift that it adds, and costs a little for the kink
 */
export function sectionDragCoefficient(model: SectionModel, cl: number, reynolds: number, zeroLiftShift = 0): number {
  const base = zeroLiftShift === 0 ? cl : cl - polarShift(model, zeroLiftShift);
  const drag = model.kind === 'table' ? tableDrag(model, base, reynolds) : estimateDrag(model, base, reynolds);
  // Common practice, no source: 10 % for a deflection that moves zero lift by 5 degrees.
  return zeroLiftShift === 0 ? drag : drag * (1 + 13 * zeroLiftShift * zeroLiftShift);
}

/** Relative standard deviation of `sectionDragCoefficient`; same arguments. */
export const sectionDragSpread = (model: SectionModel, cl: number, reynolds: number, zeroLiftShift = 0): number => {
  const base = zeroLiftShift === 0 ? cl : cl - polarShift(model, zeroLiftShift);
  return model.kind === 'table' ? tableDragSpread(model, base, reynolds) : estimateDragSpread(model, base, reynolds);
};

/**
 * Profile drag coefficient with its 90 % interval (log-normal: low = value / f, high = value f).
 * Arguments as `sectionDragCoefficient`.
 */
export function sectionDragAtLift(model: SectionModel, cl: number, reynolds: number, zeroLiftShift = 0): Interval {
  const value = sectionDragCoefficient(model, cl, reynolds, zeroLiftShift);
  const factor = Math.exp(NINETY_PERCENT * sectionDragSpread(model, cl, reynolds, zeroLiftShift));
  return { value, low: value / factor, high: value * factor };
}

/**
 * Drag coefficient at any angle of attack: profile drag at the lift while attached, flat-plate law beyond stall.
 * Arguments as `sectionLift`.
 */
export function sectionDragAtAngle(model: SectionModel, alpha: number, reynolds: number, zeroLiftShift = 0): number {
  const angle = polarAngle(model, alpha, reynolds, zeroLiftShift);
  const share = separatedShare(model, angle, reynolds);
  const linear = sectionLiftSlope(model, reynolds) * (angle - sectionZeroLiftAngle(model, reynolds));
  const most = sectionMaximumLiftCoefficient(model, reynolds);
  const least = sectionMinimumLiftCoefficient(model, reynolds);
  const lift = attachedLift(linear, most, least) + polarShift(model, zeroLiftShift);
  const attached = sectionDragCoefficient(model, lift, reynolds, zeroLiftShift);
  if (share === 0) return attached;
  const plate = Math.abs(plateNormalForce(angle) * Math.sin(angle)) + sectionDragCoefficient(model, 0, reynolds);
  return (1 - share) * attached + share * plate;
}

/**
 * Moment coefficient about the quarter chord, nose up positive.
 * model, alpha, reynolds, zeroLiftShift - as `sectionLift`; momentShift - by a deflection, from `flapEffect` times deflection [-]
 * Beyond stall the centre of pressure moves towards mid-chord: x/c = 0.5 - 0.175 (1 - 2 alpha / pi).
 * Source of the plate law: flat-plate tests as used for vertical-axis rotors (from memory).
 */
export function sectionMoment(
  model: SectionModel,
  alpha: number,
  reynolds: number,
  zeroLiftShift = 0,
  momentShift = 0,
): number {
  const angle = polarAngle(model, alpha, reynolds, zeroLiftShift);
  if (model.kind === 'table') return tableMoment(model, angle, reynolds) + momentShift;
  const share = separatedShare(model, angle, reynolds);
  if (share === 0) return model.moment + momentShift;
  const centre = 0.5 - 0.175 * (1 - (2 * Math.abs(angle)) / Math.PI);
  const plate = -plateNormalForce(angle) * (centre - 0.25);
  return (1 - share) * (model.moment + momentShift) + share * plate;
}
