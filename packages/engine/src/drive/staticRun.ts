import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import type { Drive, DriveState } from './drive.js';
import type { Motor } from './motor.js';
import type { DriveAir } from './propeller.js';
import { driveAtThrottle } from './throttle.js';

/** Conditions of a run on the bench, propeller in still air. */
export interface StaticRunConditions {
  readonly drive: Drive;
  /** At the input of the speed controllers under load [V]; open-circuit where `batteryResistance` is given. */
  readonly busVoltage: number;
  /** [ohm], default 0. */
  readonly batteryResistance?: number;
  /** Throttle duty, 0 to 1. */
  readonly duty: number;
  readonly air: DriveAir;
}

/**
 * What the instruments on a bench should show: volts and amps at the battery, propeller speed, thrust.
 *
 * @param conditions - drive, bus voltage under load [V], duty, air
 * @returns the state of the drive: `busVoltage`, `batteryCurrent`, `rotationRate`, `thrust` are those to compare
 */
export const staticRun = (conditions: StaticRunConditions): Outcome<DriveState> =>
  driveAtThrottle({ ...conditions, airspeed: 0 });

/** A measured run with its standard uncertainties. */
export interface MeasuredStaticRun extends StaticRunConditions {
  /** Of all motors together [A]. */
  readonly batteryCurrent: number;
  /** Thrust of all propellers where it was measured [N]. */
  readonly thrust?: number;
  /** Relative standard uncertainties; defaults 0.005, 0.015, 0.02 (0 at full throttle), 0.01, 0.02. */
  readonly uncertainty?: {
    readonly voltage?: number;
    readonly current?: number;
    readonly duty?: number;
    readonly density?: number;
    readonly thrust?: number;
  };
}

/** What a run may correct. */
export type StaticRunCorrection = 'propeller power' | 'motor resistance';

/** The factor that makes the model reproduce a run. */
export interface StaticRunCalibration {
  readonly correction: StaticRunCorrection;
  /** Factor on what the model had. */
  readonly factor: number;
  /** Relative standard uncertainty of the factor, from the instruments and the motor constants. */
  readonly uncertainty: number;
  /** The same for use in flight, where the blades work at another angle of attack. */
  readonly flightUncertainty: number;
  /** Current that the uncorrected model gives [A]. */
  readonly predictedCurrent: number;
  /** The drive with the factor applied. */
  readonly drive: Drive;
}

/**
 * Share of a static correction that may not carry over to flight (relative standard uncertainty). Judgement: over seven measured
 * propellers the error of the model differs by about this much between static runs and cruise.
 */
export const staticToFlightUncertainty = 0.06;

/** Bounds of a correction; a run beyond them has another cause than the model's error. */
const smallestFactor = 0.4;
const largestFactor = 2.5;

/**
 * Factor on the propeller's power coefficient, or on the motor's resistance, that reproduces a measured static run.
 *
 * With the power coefficient goes the thrust: where no thrust was measured it is scaled by factor^(2/3), the figure of merit kept.
 *
 * @param run - conditions, measured current and thrust, uncertainties
 * @param correction - what the run corrects (default: propeller power)
 * @returns the factor with its uncertainty and the corrected drive, or why no factor within 0.4 to 2.5 explains the run
 */
export function calibrateStaticRun(
  run: MeasuredStaticRun,
  correction: StaticRunCorrection = 'propeller power',
): Outcome<StaticRunCalibration> {
  if (!(run.batteryCurrent > 0)) return runProblem('The measured current is not positive.');
  const predicted = staticRun(run);
  if (!predicted.ok) return predicted;
  const factor = factorFor(run, correction);
  if (factor === undefined)
    return runProblem(
      `The model expects ${predicted.value.batteryCurrent.toFixed(2)} A, measured are ${run.batteryCurrent.toFixed(2)} A; no ${correction} explains that.`,
    );
  const uncertainty = factorUncertainty(run, correction, factor);
  const flightUncertainty =
    correction === 'propeller power' ? Math.hypot(uncertainty, staticToFlightUncertainty) : uncertainty;
  const drive = correctedDrive(run, correction, factor, flightUncertainty);
  const predictedCurrent = predicted.value.batteryCurrent;
  return success({ correction, factor, uncertainty, flightUncertainty, predictedCurrent, drive }, predicted.warnings);
}

const runProblem = (reason: string) =>
  problem({
    code: 'static-run',
    reason,
    where: 'static run',
    remedy: 'Check propeller, throttle end points, where volts and amps were measured, and the motor constants.',
  });

/** Scales a drive by a factor. */
function scaled(drive: Drive, correction: StaticRunCorrection, factor: number): Drive {
  if (correction === 'motor resistance')
    return { ...drive, motor: { ...drive.motor, resistance: drive.motor.resistance * factor } };
  const { propeller } = drive;
  return { ...drive, propeller: { ...propeller, powerFactor: propeller.powerFactor * factor } };
}

/** Factor at which the predicted current equals the measured one. */
function factorFor(run: MeasuredStaticRun, correction: StaticRunCorrection): number | undefined {
  const excess = (factor: number) => {
    const state = staticRun({ ...run, drive: scaled(run.drive, correction, factor) });
    return state.ok ? state.value.batteryCurrent - run.batteryCurrent : Number.NaN;
  };
  return brentRoot(excess, smallestFactor, largestFactor, { tolerance: 1e-9 });
}

/** Relative standard uncertainty of the factor: each input moved by its own, the effects added in quadrature (JCGM 100:2008, 5.1). */
function factorUncertainty(run: MeasuredStaticRun, correction: StaticRunCorrection, factor: number): number {
  const { voltage = 0.005, current = 0.015, duty = run.duty < 1 ? 0.02 : 0, density = 0.01 } = run.uncertainty ?? {};
  const { motor } = run.drive;
  const withMotor = (change: Partial<Motor>): MeasuredStaticRun => ({
    ...run,
    drive: { ...run.drive, motor: { ...motor, ...change } },
  });
  const constants: MeasuredStaticRun[] = [
    withMotor({ speedConstant: motor.speedConstant * (1 + motor.speedConstantUncertainty) }),
    withMotor({ noLoadCurrent: motor.noLoadCurrent * (1 + motor.noLoadCurrentUncertainty) }),
  ];
  if (correction === 'propeller power')
    constants.push(withMotor({ resistance: motor.resistance * (1 + motor.resistanceUncertainty) }));
  else
    constants.push({ ...run, drive: scaled(run.drive, 'propeller power', 1 + run.drive.propeller.powerUncertainty) });
  const moved: MeasuredStaticRun[] = [
    { ...run, busVoltage: run.busVoltage * (1 + voltage) },
    { ...run, batteryCurrent: run.batteryCurrent * (1 + current) },
    { ...run, duty: Math.max(run.duty * (1 - duty), 1e-3) },
    { ...run, air: { ...run.air, density: run.air.density * (1 + density) } },
    ...constants,
  ];
  let square = 0;
  for (const variant of moved) {
    // An input that no factor can answer counts as a full change.
    const change = ((factorFor(variant, correction) ?? 2 * factor) - factor) / factor;
    square += change * change;
  }
  return Math.sqrt(square);
}

function correctedDrive(
  run: MeasuredStaticRun,
  correction: StaticRunCorrection,
  factor: number,
  uncertainty: number,
): Drive {
  const drive = scaled(run.drive, correction, factor);
  if (correction === 'motor resistance')
    return { ...drive, motor: { ...drive.motor, resistanceUncertainty: uncertainty } };
  const state = staticRun({ ...run, drive });
  const kept = drive.propeller.thrustFactor;
  const measured = run.thrust !== undefined && state.ok && state.value.thrust > 0;
  const thrustFactor = measured ? (kept * run.thrust) / state.value.thrust : kept * factor ** (2 / 3);
  const own = measured ? (run.uncertainty?.thrust ?? 0.02) : uncertainty;
  const thrustUncertainty = measured ? Math.hypot(own, staticToFlightUncertainty) : own;
  return {
    ...drive,
    propeller: { ...drive.propeller, thrustFactor, thrustUncertainty, powerUncertainty: uncertainty },
  };
}
