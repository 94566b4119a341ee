import { type Outcome, problem, success } from '../result.js';
import { type Motor, motor } from './motor.js';

/** What is known of a motor whose resistance or no-load current is not. */
export interface PartlyKnownMotor {
  /** [rad/s per V] */
  readonly speedConstant: number;
  /** [kg]; where unknown the mass is guessed from the power. */
  readonly mass?: number;
  /** Highest continuous shaft or input power on the label [W]. */
  readonly maximumPower?: number;
  readonly resistance?: number;
  readonly noLoadCurrent?: number;
  readonly maximumCurrent?: number;
}

/**
 * Size class of motors: Kt^2/R = 3.4e-3 (m / 0.15 kg)^1.45 (N m)^2/W for outrunners from 10 to 500 g, scatter about 35 per cent.
 * Geometry alone would give an exponent of 5/3. Common practice, fitted from memory of about seven catalogue motors; no source.
 */
export const resistanceFromMass = (speedConstant: number, mass: number): number =>
  1 / (speedConstant * speedConstant * 3.4e-3 * (mass / 0.15) ** 1.45);
export const estimatedResistanceUncertainty = 0.35;

/**
 * No-load torque 0.06 N m per kilogram of motor, scatter about 40 per cent; current = torque x speed constant.
 * Common practice, fitted from memory of the same motors; no source.
 */
export const noLoadCurrentFromMass = (speedConstant: number, mass: number): number => 0.06 * mass * speedConstant;
export const estimatedNoLoadUncertainty = 0.4;

/** Continuous power over mass by which a mass is guessed [W/kg]. Common practice: 2000 to 4000 on labels of outrunners. */
const powerPerMass = 3000;

/**
 * A motor whose missing resistance and no-load current are estimated from its mass or power.
 *
 * @param known - speed constant and whatever else is known
 * @returns the motor with wide uncertainties on what was estimated, and warnings that name it
 */
export function estimatedMotor(known: PartlyKnownMotor): Outcome<Motor> {
  const { speedConstant, maximumPower, maximumCurrent } = known;
  const mass = known.mass ?? (maximumPower === undefined ? undefined : maximumPower / powerPerMass);
  const complete = known.resistance !== undefined && known.noLoadCurrent !== undefined;
  if (!(speedConstant > 0) || (!complete && !(mass !== undefined && mass > 0)))
    return problem({
      code: 'motor-unknown',
      reason: 'Without mass or power nothing is known about the size of the motor.',
      where: 'motor',
      remedy: 'Give the speed constant and the mass of the motor, or its resistance and no-load current.',
    });
  const guessed = known.mass === undefined ? 1.5 : 1;
  const resistance = known.resistance ?? resistanceFromMass(speedConstant, mass!);
  const noLoadCurrent = known.noLoadCurrent ?? noLoadCurrentFromMass(speedConstant, mass!);
  const limits = {
    ...(maximumPower === undefined ? {} : { maximumPower }),
    ...(maximumCurrent === undefined ? {} : { maximumCurrent }),
  };
  const made = motor({
    ...{ speedConstant, resistance, noLoadCurrent, ...limits },
    resistanceUncertainty: known.resistance === undefined ? estimatedResistanceUncertainty * guessed : 0.1,
    noLoadCurrentUncertainty: known.noLoadCurrent === undefined ? estimatedNoLoadUncertainty * guessed : 0.15,
  });
  const missing = [
    known.resistance === undefined ? 'resistance' : '',
    known.noLoadCurrent === undefined ? 'no-load current' : '',
  ].filter((name) => name !== '');
  if (missing.length === 0) return success(made);
  const basis = known.mass === undefined ? 'the power' : 'the mass';
  return success(made, [
    {
      code: 'motor-estimated',
      message: `Estimated from ${basis} of the motor: ${missing.join(', ')}.`,
      where: 'motor',
    },
  ]);
}
