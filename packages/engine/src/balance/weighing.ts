import { type Outcome, problem, success, type Warning } from '../result.js';
import { type MassSum, scaledInertia } from './mass.js';

/** One support on a scale. Frame: x aft from the datum, y to the right [m]. */
export interface ScaleReading {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  /** Net of tare [kg]. */
  readonly mass: number;
  /** Standard uncertainty of the reading [kg]. */
  readonly massUncertainty: number;
  /** Standard uncertainty of the support's x and y [m]. */
  readonly positionUncertainty: number;
}

/** A weighing may be out of level; the height of the balance point over the supports then shifts it. */
export interface WeighingAttitude {
  /** Standard uncertainty of the levelling in pitch [rad]. */
  readonly tiltUncertainty: number;
  /** Height of the balance point above the supports [m]. */
  readonly heightAboveSupports: number;
}

/** Mass and balance point from scales, with standard uncertainties. */
export interface Weighing {
  readonly mass: number;
  readonly massUncertainty: number;
  readonly x: number;
  readonly xUncertainty: number;
  readonly y: number;
  readonly yUncertainty: number;
}

/**
 * Mass and balance point from the readings of two or three (or more) supports: x = sum(m_i x_i) / sum(m_i).
 *
 * @param readings - two or more supports at different x, level aircraft
 * @param attitude - adds the error of levelling; none by default
 * Source: moment equilibrium; uncertainty JCGM 100:2008 eq. 10 with c_i = (x_i - x)/M for readings, m_i/M for positions.
 */
export function weigh(readings: readonly ScaleReading[], attitude?: WeighingAttitude): Outcome<Weighing> {
  const where = 'weighing';
  const xs = readings.map((r) => r.x);
  if (readings.length < 2 || !(Math.max(...xs) - Math.min(...xs) > 0)) {
    return problem({
      code: 'weighing-supports',
      reason: 'the balance point needs at least two supports at different distances from the datum',
      where,
      remedy: 'weigh on two supports, one ahead of and one behind the balance point',
    });
  }
  const negative = readings.find((r) => r.mass < 0);
  if (negative !== undefined) {
    return problem({
      code: 'weighing-negative',
      reason: `support '${negative.name}' reads less than zero: the balance point lies outside the supports`,
      where: negative.name,
      remedy: 'move the supports apart until each carries weight, and check the tare',
    });
  }
  const mass = readings.reduce((sum, r) => sum + r.mass, 0);
  if (!(mass > 0)) {
    return problem({
      code: 'weighing-empty',
      reason: 'the readings sum to nothing',
      where,
      remedy: 'check the readings',
    });
  }
  const x = readings.reduce((sum, r) => sum + r.mass * r.x, 0) / mass;
  const y = readings.reduce((sum, r) => sum + r.mass * r.y, 0) / mass;
  let massVariance = 0;
  let xVariance = ((attitude?.tiltUncertainty ?? 0) * (attitude?.heightAboveSupports ?? 0)) ** 2;
  let yVariance = 0;
  for (const r of readings) {
    const position = ((r.mass / mass) * r.positionUncertainty) ** 2;
    massVariance += r.massUncertainty ** 2;
    xVariance += (((r.x - x) / mass) * r.massUncertainty) ** 2 + position;
    yVariance += (((r.y - y) / mass) * r.massUncertainty) ** 2 + position;
  }
  const value = {
    mass,
    massUncertainty: Math.sqrt(massVariance),
    x,
    xUncertainty: Math.sqrt(xVariance),
    y,
    yUncertainty: Math.sqrt(yVariance),
  };
  return success(value, lightSupportWarnings(readings, mass));
}

/** A nearly unloaded support tells little and may have lifted. */
function lightSupportWarnings(readings: readonly ScaleReading[], mass: number): Warning[] {
  return readings
    .filter((r) => r.mass < 0.02 * mass)
    .map((r) => ({
      code: 'weighing-light-support',
      message: `support '${r.name}' carries under 2 % of the weight; see that it really touches`,
      where: r.name,
    }));
}

/** What a weighing found; parts that were not measured are left out. */
export interface MeasuredBalance {
  /** [kg] */
  readonly mass?: number | undefined;
  readonly massUncertainty?: number | undefined;
  /** Balance point [m aft of the datum]. */
  readonly x?: number | undefined;
  readonly xUncertainty?: number | undefined;
}

/**
 * A mass sum overridden by a weighing: mass and x, with their uncertainties, from the scales where measured; inertia
 * scaled with the mass. y and z stay computed, since supports on the centre line do not measure them.
 */
export function applyWeighing(sum: MassSum, measured: MeasuredBalance): MassSum {
  const mass = measured.mass ?? sum.mass;
  if (!(mass > 0)) throw new RangeError('a weighed mass must be positive');
  const ratio = mass / sum.mass;
  const { uncertainty } = sum;
  return {
    ...sum,
    mass,
    x: measured.x ?? sum.x,
    inertia: scaledInertia(sum.inertia, ratio),
    uncertainty: {
      ...uncertainty,
      mass: measured.mass === undefined ? uncertainty.mass : (measured.massUncertainty ?? 0),
      x: measured.x === undefined ? uncertainty.x : (measured.xUncertainty ?? 0),
      xx: uncertainty.xx * ratio,
      yy: uncertainty.yy * ratio,
      zz: uncertainty.zz * ratio,
    },
    assumedMass: measured.mass === undefined ? sum.assumedMass : 0,
  };
}
