import type { Check } from '../check.js';
import type { Outcome } from '../result.js';
import type { Drive, DriveState } from './drive.js';
import { driveAtThrust } from './match.js';
import { measuredPropeller } from './measuredPropeller.js';
import { motorChecks } from './motor.checks.js';
import { directDrive, motor, speedConstantFromRpmPerVolt } from './motor.js';
import { propellerChecks } from './propeller.checks.js';
import { seaLevelAir, uncorrectedPropeller } from './propeller.js';
import { da4002, da4002Rows } from './publishedPropellers.js';
import { type SpeedController, speedControllerLoss } from './speedController.js';
import { calibrateStaticRun, staticRun } from './staticRun.js';

const demand = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

/** The measured propeller with the motor, controller and battery of the recomputed match. */
export function matchExample(): Drive {
  const propeller = measuredPropeller({
    name: da4002.name,
    diameter: da4002.diameter,
    points: da4002Rows.map(([advanceRatio, thrustCoefficient, powerCoefficient]) => ({
      ...{ rotationRate: (5028 * Math.PI) / 30, advanceRatio, thrustCoefficient, powerCoefficient },
    })),
  });
  return {
    propeller: uncorrectedPropeller(demand(propeller)),
    motor: motor({ speedConstant: speedConstantFromRpmPerVolt(800), resistance: 0.08, noLoadCurrent: 0.5 }),
    gear: directDrive,
    // A series resistance of 6 mohm and nothing else.
    controller: {
      ...{ switchResistance: 0.003, synchronous: true, diodeVoltage: 0, switchingTime: 0, switchingFrequency: 0 },
      standbyPower: 0,
    },
    count: 1,
  };
}

const matched = (): DriveState =>
  demand(
    driveAtThrust({
      ...{ drive: matchExample(), thrust: 1.2, airspeed: 12, air: seaLevelAir, busVoltage: 11.1 },
      batteryResistance: 0.03,
    }),
  );

const matchCheck = (
  id: string,
  quantity: string,
  expected: number,
  unit: string,
  tolerance: number,
  of: (state: DriveState) => number,
): Check => ({
  ...{ id: `drive-match-${id}`, topic: 'drive', quantity, expected, unit, tolerance },
  why: 'rounding of the printed digits',
  provenance: 'recomputed from the published formula',
  source:
    'UIUC DA4002 9 x 6.75 rows near 5000 rpm (AIAA 2014-2151), linear; Kv 800 rpm/V, 80 + 6 mohm, 0.5 A; 11.1 V, 30 mohm; 1.2 N at 12 m/s',
  calls: 'driveAtThrust',
  compute: () => of(matched()),
});

const controllerExample: SpeedController = {
  ...{ switchResistance: 0.003, synchronous: false, diodeVoltage: 0.7, switchingTime: 200e-9 },
  ...{ switchingFrequency: 16e3, standbyPower: 0.3 },
};

const controllerEfficiency = (motorCurrent: number, duty: number, synchronous: boolean) => {
  const output = 16.8 * duty * motorCurrent;
  const state = { busVoltage: 16.8, motorCurrent, duty };
  return output / (output + speedControllerLoss({ ...controllerExample, synchronous }, state));
};

const controllerCheck = (current: number, duty: number, synchronous: boolean, expected: number): Check => ({
  id: `drive-controller-${current}A-${duty}${synchronous ? '-synchronous' : ''}`,
  topic: 'drive',
  quantity: `efficiency of a speed controller at 16.8 V, ${current} A, duty ${duty}${synchronous ? ', synchronous' : ''}`,
  ...{ expected, unit: '-', tolerance: 0.0006, why: 'three printed digits' },
  provenance: 'recomputed from the published formula',
  source: 'half-bridge analysis, textbook (from memory)',
  calls: 'speedControllerLoss',
  compute: () => controllerEfficiency(current, duty, synchronous),
});

const ownChecks: readonly Check[] = [
  matchCheck('rate', 'propeller speed', 4877.87, 'rpm', 0.02, (s) => (s.rotationRate * 30) / Math.PI),
  matchCheck('advance', 'advance ratio', 0.64569, '-', 1e-5, (s) => s.advanceRatio),
  matchCheck('shaft', 'shaft power', 20.924, 'W', 1e-3, (s) => s.shaftPower),
  matchCheck('motor-current', 'motor current', 3.9317, 'A', 1e-4, (s) => s.motorCurrent),
  matchCheck('voltage', 'mean voltage behind the switches', 6.4355, 'V', 1e-4, (s) => s.duty * s.busVoltage),
  matchCheck('duty', 'throttle duty', 0.58339, '-', 1e-5, (s) => s.duty),
  matchCheck('battery-current', 'battery current', 2.2937, 'A', 1e-4, (s) => s.batteryCurrent),
  matchCheck('battery-voltage', 'battery voltage', 11.0312, 'V', 1e-4, (s) => s.busVoltage),
  matchCheck('power', 'battery power', 25.302, 'W', 1e-3, (s) => s.electricPower),
  matchCheck('efficiency', 'efficiency from battery to thrust', 0.5691, '-', 1e-4, (s) => s.efficiency),
  {
    id: 'drive-calibration',
    topic: 'drive',
    quantity: 'factor on the power coefficient found from a run made with 1.1 times it',
    expected: 1.1,
    unit: '-',
    tolerance: 1e-6,
    why: 'the run is the same model with a known factor',
    provenance: 'recomputed from the published formula',
    source: 'round trip',
    calls: 'calibrateStaticRun',
    compute: () => {
      const drive = matchExample();
      const heavier = { ...drive, propeller: { ...drive.propeller, powerFactor: 1.1 } };
      const run = { busVoltage: 11, duty: 0.6, air: seaLevelAir };
      const { batteryCurrent } = demand(staticRun({ ...run, drive: heavier }));
      return demand(calibrateStaticRun({ ...run, drive, batteryCurrent })).factor;
    },
  },
  controllerCheck(2, 0.3, false, 0.882),
  controllerCheck(2, 0.3, true, 0.964),
  controllerCheck(6, 0.6, false, 0.963),
  controllerCheck(6, 0.6, true, 0.989),
  controllerCheck(10, 0.5, false, 0.949),
  controllerCheck(10, 0.8, true, 0.991),
  controllerCheck(20, 1, false, 0.99),
];

/** Comparisons of motor, propeller and drive with sources outside the project. */
export const driveChecks: readonly Check[] = [...motorChecks, ...propellerChecks, ...ownChecks];
