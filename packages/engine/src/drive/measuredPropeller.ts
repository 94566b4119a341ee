import { type Outcome, problem, success } from '../result.js';
import type { PropellerLoads } from './bladeElement.js';

/** One measured point of a propeller. */
export interface PropellerMeasurement {
  /** Rotation rate of the run [rad/s]. */
  readonly rotationRate: number;
  /** J = V / (n D) */
  readonly advanceRatio: number;
  /** CT = T / (rho n^2 D^4) */
  readonly thrustCoefficient: number;
  /** CP = P / (rho n^3 D^5) */
  readonly powerCoefficient: number;
}

/** Points of one rotation rate, by increasing advance ratio. */
export interface MeasuredCurve {
  readonly rotationRate: number;
  readonly advanceRatios: Float64Array;
  readonly thrustCoefficients: Float64Array;
  readonly powerCoefficients: Float64Array;
}

/** A propeller known from measurements; linear between points, never used beyond them. */
export interface MeasuredPropeller {
  readonly kind: 'measured';
  readonly diameter: number;
  readonly bladeCount: number;
  /** Chord at 0.75 R, 0 where unknown [m]. */
  readonly chord: number;
  /** Plan area of all blades, 0 where unknown [m2], and pitch angle at 0.7 R [rad]. */
  readonly bladeArea: number;
  readonly pitchAngle: number;
  readonly name: string;
  /** By increasing rotation rate. */
  readonly curves: readonly MeasuredCurve[];
}

/** Rotation rates further than this from the measured ones (relative) carry a warning, and beyond the second are refused. Judgement. */
export const rateWarning = 0.05;
export const rateRefusal = 0.3;

/**
 * Arranges measured points into curves. Points whose rotation rates differ by less than 2 per cent form one curve.
 *
 * @param data.diameter - [m]
 * @param data.points - at least two advance ratios per rotation rate
 * @param data.blades - optional blade count (2), chord at 0.75 R [m], plan area [m2] and pitch angle at 0.7 R [rad]
 */
export function measuredPropeller(data: {
  readonly name: string;
  readonly diameter: number;
  readonly points: readonly PropellerMeasurement[];
  readonly bladeCount?: number;
  readonly chord?: number;
  readonly bladeArea?: number;
  readonly pitchAngle?: number;
}): Outcome<MeasuredPropeller> {
  const { name, diameter, points, bladeCount = 2, chord = 0, bladeArea = 0, pitchAngle = 0 } = data;
  const refuse = (reason: string) =>
    problem({
      code: 'propeller-table',
      reason,
      where: name,
      remedy:
        'Give rows of rotation rate, advance ratio, CT and CP: at least two advance ratios for each rotation rate.',
    });
  if (!(diameter > 0)) return refuse('The diameter is not positive.');
  if (points.length < 2) return refuse('There are fewer than two measured points.');
  for (const point of points) {
    if (!Object.values(point).every(Number.isFinite)) return refuse('A measured value is not a number.');
    if (!(point.rotationRate > 0 && point.advanceRatio >= 0))
      return refuse('A rotation rate is not positive or an advance ratio is negative.');
  }
  const curves: MeasuredCurve[] = [];
  for (const group of groupedByRate(points)) {
    const curve = curveOf(group);
    if (curve === undefined) return refuse('A rotation rate has one advance ratio only, or one twice.');
    curves.push(curve);
  }
  return success({ kind: 'measured', name, diameter, bladeCount, chord, bladeArea, pitchAngle, curves });
}

function groupedByRate(points: readonly PropellerMeasurement[]): PropellerMeasurement[][] {
  const sorted = [...points].sort((a, b) => a.rotationRate - b.rotationRate);
  const groups: PropellerMeasurement[][] = [];
  for (const point of sorted) {
    const group = groups.at(-1);
    if (group !== undefined && point.rotationRate < 1.02 * group[0].rotationRate) group.push(point);
    else groups.push([point]);
  }
  return groups;
}

function curveOf(group: readonly PropellerMeasurement[]): MeasuredCurve | undefined {
  const points = [...group].sort((a, b) => a.advanceRatio - b.advanceRatio);
  if (points.length < 2) return undefined;
  for (let i = 1; i < points.length; i++) if (!(points[i].advanceRatio > points[i - 1].advanceRatio)) return undefined;
  return {
    rotationRate: points.reduce((sum, p) => sum + p.rotationRate, 0) / points.length,
    advanceRatios: Float64Array.from(points, (p) => p.advanceRatio),
    thrustCoefficients: Float64Array.from(points, (p) => p.thrustCoefficient),
    powerCoefficients: Float64Array.from(points, (p) => p.powerCoefficient),
  };
}

/** Advance ratios that every curve near a rotation rate covers: [lowest, highest]. */
export function advanceRange(propeller: MeasuredPropeller, rotationRate: number): readonly [number, number] {
  const { lower, upper } = neighbours(propeller, rotationRate);
  return [
    Math.max(lower.advanceRatios[0], upper.advanceRatios[0]),
    Math.min(lower.advanceRatios[lower.advanceRatios.length - 1], upper.advanceRatios[upper.advanceRatios.length - 1]),
  ];
}

function neighbours(
  propeller: MeasuredPropeller,
  rotationRate: number,
): { readonly lower: MeasuredCurve; readonly upper: MeasuredCurve; readonly weight: number } {
  const { curves } = propeller;
  let k = 0;
  while (k < curves.length - 1 && curves[k + 1].rotationRate <= rotationRate) k++;
  const lower = curves[k];
  const upper = curves[Math.min(k + 1, curves.length - 1)];
  const span = upper.rotationRate - lower.rotationRate;
  const weight = span > 0 ? Math.min(Math.max((rotationRate - lower.rotationRate) / span, 0), 1) : 0;
  // Below the slowest or above the fastest curve that curve alone counts.
  if (weight === 0) return { lower, upper: lower, weight };
  return { lower, upper, weight };
}

/** Linear in J between points and, beyond the ends, along the last two points: for the root search only; callers check the range. */
function along(curve: MeasuredCurve, values: Float64Array, advanceRatio: number): number {
  const xs = curve.advanceRatios;
  let k = 0;
  while (k < xs.length - 2 && xs[k + 1] <= advanceRatio) k++;
  return values[k] + ((values[k + 1] - values[k]) * (advanceRatio - xs[k])) / (xs[k + 1] - xs[k]);
}

/**
 * Loads from measured curves, linear in advance ratio and rotation rate. Beyond the measured advance ratios the last segment is
 * continued so that a root search has something to walk on; `measuredRangeFault` tells whether a result may be used.
 */
export function measuredLoads(
  propeller: MeasuredPropeller,
  airspeed: number,
  rotationRate: number,
  density: number,
  into: PropellerLoads,
): void {
  const n = rotationRate / (2 * Math.PI);
  if (!(n > 0)) {
    into.thrust = 0;
    into.torque = 0;
    return;
  }
  const { diameter } = propeller;
  const advanceRatio = airspeed / (n * diameter);
  const { lower, upper, weight } = neighbours(propeller, rotationRate);
  let thrust = along(lower, lower.thrustCoefficients, advanceRatio);
  let power = along(lower, lower.powerCoefficients, advanceRatio);
  if (weight > 0) {
    thrust += weight * (along(upper, upper.thrustCoefficients, advanceRatio) - thrust);
    power += weight * (along(upper, upper.powerCoefficients, advanceRatio) - power);
  }
  into.thrust = thrust * density * n ** 2 * diameter ** 4;
  into.torque = (power * density * n ** 2 * diameter ** 5) / (2 * Math.PI);
}
