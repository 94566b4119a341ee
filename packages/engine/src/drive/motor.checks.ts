import type { Check } from '../check.js';
import {
  motor,
  motorFromCurrent,
  motorFromDataSheet,
  motorFromTorque,
  motorLandmarks,
  speedConstantFromRpmPerVolt,
  throughGear,
  windingResistance,
} from './motor.js';

const rpm = (rotationRate: number) => (rotationRate * 30) / Math.PI;
const rate = (perMinute: number) => (perMinute * Math.PI) / 30;

const firstOrder = motor({
  speedConstant: speedConstantFromRpmPerVolt(1000),
  resistance: 0.05,
  noLoadCurrent: 0.6,
});
const firstOrderSource =
  'M. Drela, First-order DC electric motor model, MIT, 2007 (from memory): Kv 1000 rpm/V, 50 mohm, 0.6 A at 10 V';

const secondOrder = motor({
  ...{ speedConstant: speedConstantFromRpmPerVolt(1000), resistance: 0.05, noLoadCurrent: 0.35 },
  ...{ noLoadCurrentSlope: 2.5e-4, resistanceGrowth: 2e-5 },
});
const secondOrderSource =
  'M. Drela, Second-order DC electric motor model, MIT, 2006 (from memory): R2 2e-5, I01 2.5e-4; 0.09 N m at 9500 rpm';

/** Maker's sheet of a 6 mm coreless motor, 1.5 V winding. */
const coreless = () =>
  motorFromDataSheet({ voltage: 1.5, noLoadSpeed: rate(17300), noLoadCurrent: 0.0341, stallCurrent: 0.581 });
const corelessSource = 'published data sheet of a coreless motor, 6 mm, 1.5 V winding';

const recomputed = 'recomputed from the published formula';
const row = (
  id: string,
  quantity: string,
  expected: number,
  unit: string,
  tolerance: number,
  source: string,
  calls: string,
  compute: () => number,
): Check => ({
  ...{ id: `motor-${id}`, topic: 'motor', quantity, expected, unit, tolerance, source, calls, compute },
  why: 'rounding of the printed digits',
  provenance: recomputed,
});
const published = (check: Check, why: string): Check => ({ ...check, provenance: 'published', why });

const speedAt = (current: number) => () => rpm(motorFromCurrent(firstOrder, 10, current).rotationRate);
const efficiencyAt = (current: number) => () => motorFromCurrent(firstOrder, 10, current).efficiency;
const inverse = () => motorFromTorque(firstOrder, 0.09, rate(9500));
const second = () => motorFromTorque(secondOrder, 0.09, rate(9500));

const flat70 = motor({ speedConstant: speedConstantFromRpmPerVolt(236), resistance: 0.573, noLoadCurrent: 0.27 });
const flat30 = () =>
  motorFromDataSheet({ voltage: 12, noLoadSpeed: rate(4380), noLoadCurrent: 0.144, stallCurrent: 10 });

export const motorChecks: readonly Check[] = [
  row('speed-5A', 'speed at 5 A', 9750, 'rpm', 0.01, firstOrderSource, 'motorFromCurrent', speedAt(5)),
  row('speed-40A', 'speed at 40 A', 8000, 'rpm', 0.01, firstOrderSource, 'motorFromCurrent', speedAt(40)),
  row('eta-5A', 'efficiency at 5 A', 0.858, '-', 1e-6, firstOrderSource, 'motorFromCurrent', efficiencyAt(5)),
  row('eta-20A', 'efficiency at 20 A', 0.873, '-', 1e-6, firstOrderSource, 'motorFromCurrent', efficiencyAt(20)),
  row(
    ...(['torque-10A', 'torque at 10 A', 0.089763, 'N m', 1e-6, firstOrderSource, 'motorFromCurrent'] as const),
    () => motorFromCurrent(firstOrder, 10, 10).torque,
  ),
  row(
    ...(['best', 'highest efficiency', 0.893455, '-', 1e-6, firstOrderSource, 'motorLandmarks'] as const),
    () => motorLandmarks(firstOrder, 10).bestEfficiency,
  ),
  row(
    ...(['best-current', 'current at it', 10.954451, 'A', 1e-6, firstOrderSource, 'motorLandmarks'] as const),
    () => motorLandmarks(firstOrder, 10).bestCurrent,
  ),
  row(...(['no-load', 'no-load speed', 9970, 'rpm', 0.01, firstOrderSource, 'motorLandmarks'] as const), () =>
    rpm(motorLandmarks(firstOrder, 10).noLoadSpeed),
  ),
  row(
    ...(['inverse-current', 'current for 0.09 N m at 9500 rpm', 10.024778, 'A', 1e-6] as const),
    ...([firstOrderSource, 'motorFromTorque', () => inverse().current] as const),
  ),
  row(
    ...(['inverse-voltage', 'voltage for it', 10.001239, 'V', 1e-6, firstOrderSource, 'motorFromTorque'] as const),
    () => inverse().voltage,
  ),
  row(
    ...([
      'second-current',
      'current, second order',
      10.023487,
      'A',
      1e-6,
      secondOrderSource,
      'motorFromTorque',
    ] as const),
    () => second().current,
  ),
  row(
    ...([
      'second-voltage',
      'voltage, second order',
      10.021316,
      'V',
      1e-6,
      secondOrderSource,
      'motorFromTorque',
    ] as const),
    () => second().voltage,
  ),
  row(
    ...(['second-eta', 'efficiency, second order', 0.891356, '-', 1e-6, secondOrderSource, 'motorFromTorque'] as const),
    () => second().efficiency,
  ),
  row(
    ...([
      'copper',
      'resistance at 80 C over that at 20 C',
      1.236,
      '-',
      5e-4,
      'IEC 60028',
      'windingResistance',
    ] as const),
    () => windingResistance(1, 353.15),
  ),
  row(
    ...(['gear-speed', 'speed behind a 3:1 gear from 9500 rpm', 3166.67, 'rpm', 0.01, 'definition'] as const),
    'throughGear',
    () => rpm(throughGear({ ratio: 3, efficiency: 0.96 }, { rotationRate: rate(9500), torque: 0.09 }).rotationRate),
  ),
  row(
    ...(['gear-torque', 'torque behind it from 0.09 N m', 0.2592, 'N m', 1e-6, 'definition', 'throughGear'] as const),
    () => throughGear({ ratio: 3, efficiency: 0.96 }, { rotationRate: 1, torque: 0.09 }).torque,
  ),
  published(
    row(...(['coreless-speed', 'speed at 0.425 A', 4950, 'rpm', 50, corelessSource, 'motorFromCurrent'] as const), () =>
      rpm(motorFromCurrent(coreless(), 1.5, 0.425).rotationRate),
    ),
    '1 per cent: a coreless motor is nearly first order',
  ),
  published(
    row(
      ...([
        'coreless-torque',
        'torque at 0.425 A',
        0.309e-3,
        'N m',
        0.005e-3,
        corelessSource,
        'motorFromCurrent',
      ] as const),
      () => motorFromCurrent(coreless(), 1.5, 0.425).torque,
    ),
    '1.5 per cent: a coreless motor is nearly first order',
  ),
  published(
    row(
      ...([
        'flat30-eta',
        'highest efficiency, 30 W flat, 12 V',
        0.78,
        '-',
        0.01,
        'published data sheet of an iron-core flat brushless motor, 30 W, 12 V winding',
      ] as const),
      'motorLandmarks',
      () => motorLandmarks(flat30(), 12).bestEfficiency,
    ),
    'one point, the digits of the sheet and its iron loss',
  ),
  {
    ...published(
      row(
        ...([
          'flat30-speed',
          'speed at 2.03 A, 30 W flat, 12 V',
          2940,
          'rpm',
          150,
          'published data sheet of an iron-core flat brushless motor, 30 W, 12 V winding',
        ] as const),
        'motorFromCurrent',
        () => rpm(motorFromCurrent(flat30(), 12, 2.03).rotationRate),
      ),
      '5 per cent would be useful',
    ),
    miss: 'Three constants from no-load and stall give 20 per cent too much speed: the rated point is that of a hot winding with iron losses.',
  },
  published(
    row(
      ...([
        'flat70-eta',
        'highest efficiency, 70 W flat, 24 V',
        0.849,
        '-',
        0.01,
        'published data sheet of an iron-core flat brushless motor, 70 W, 24 V winding',
      ] as const),
      'motorLandmarks',
      () => motorLandmarks(flat70, 24).bestEfficiency,
    ),
    'one point, the digits of the sheet and its iron loss',
  ),
  published(
    row(
      ...([
        'flat70-constant',
        'torque constant, 70 W flat',
        0.0404,
        'N m/A',
        2e-4,
        'published data sheet of an iron-core flat brushless motor, 70 W, 24 V winding',
      ] as const),
      'motorLandmarks',
      () => motorLandmarks(flat70, 24).torqueConstant,
    ),
    'three printed digits of speed and torque constant',
  ),
];
