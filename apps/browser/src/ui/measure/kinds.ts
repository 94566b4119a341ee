import { STRUCTURAL_MATERIALS } from '@noonwing/design';
import type { QuantityKind } from '@noonwing/quantities';

export type StiffnessWhat = 'load test' | 'strip bend' | 'tap frequency';
export type RecordWhat = 'motor run' | 'array reading' | 'mass' | 'balance point' | 'level power' | StiffnessWhat;

/** One value of a record. */
export interface RecordKey {
  /** As the file spells it. */
  readonly key: string;
  readonly label: string;
  readonly help: string;
  /** Kinds of quantity; absent for texts. */
  readonly kinds?: readonly QuantityKind[];
  /** Unit of a number that was typed alone. */
  readonly unit?: string;
  readonly example?: string;
  readonly needed?: boolean;
  /** Step of the arrow keys [SI]. */
  readonly step?: number;
  readonly notation?: 'instant' | 'date' | 'place';
  /** Words to choose from. */
  readonly choices?: readonly string[];
}

export interface RecordKind {
  readonly what: RecordWhat;
  readonly title: string;
  /** What it tells, and how to do it. */
  readonly about: string;
  readonly cautions: readonly string[];
  readonly keys: readonly RecordKey[];
}

const quantity = (
  key: string,
  kind: QuantityKind,
  unit: string,
  label: string,
  help: string,
  more: Partial<RecordKey> = {},
): RecordKey => ({ key, kinds: [kind], unit, label, help, ...more });

const common: readonly RecordKey[] = [
  { key: 'date', label: 'Date', help: 'day of the measurement', notation: 'date', example: '2026-06-21' },
  { key: 'instrument', label: 'Instrument', help: 'which, and how it was read' },
  { key: 'note', label: 'Note', help: 'anything else' },
];

const airTemperature = quantity('temperature', 'temperature', 'degC', 'Air temperature', 'in the shade', { step: 1 });
const altitude = quantity('altitude', 'length', 'm', 'Altitude', 'above sea level', { step: 10 });

const lithium =
  'Lithium cells: never below their lowest voltage, never a short between the leads, never charged unattended.';

/** Every kind of record that the design file takes, the two bench readings first. */
export const recordKinds: readonly RecordKind[] = [
  {
    what: 'motor run',
    title: 'Motor run, standing still',
    about:
      'Hold full throttle, or one throttle, until volts and amps rest, then read both together. It corrects what the propeller takes.',
    cautions: [
      'Tie the model down so that it cannot move. Stand behind the propeller, nobody beside it; it may start when the battery is joined.',
      lithium,
    ],
    keys: [
      quantity('voltage', 'voltage', 'V', 'Volts', 'at the speed controller (ESC), under load', {
        needed: true,
        example: '11.4 V ± 0.05 V',
        step: 0.1,
      }),
      quantity('current', 'current', 'A', 'Amps', 'from the battery', {
        needed: true,
        example: '8.2 A ± 0.2 A',
        step: 0.1,
      }),
      quantity('throttle', 'ratio', '%', 'Throttle', 'full throttle where it is left empty', {
        example: '100 %',
        step: 0.05,
      }),
      {
        key: 'propeller',
        label: 'Propeller used',
        help: 'only where it is not that of the design',
        example: 'folding 10x6 in',
      },
      quantity('speed', 'angular speed', 'rpm', 'Propeller speed', 'where it was measured', {
        example: '6200 rpm ± 50 rpm',
      }),
      quantity('thrust', 'force', 'gf', 'Thrust', 'where it was measured', { example: '480 gf ± 10 gf' }),
      airTemperature,
      altitude,
      ...common,
    ],
  },
  {
    what: 'array reading',
    title: 'Cells in the sun',
    about:
      'With the battery neither full nor empty and the motor off, turn the cells towards the sun and read what flows into the battery. It corrects what cells, wires and converter (MPPT) give.',
    cautions: [
      'Cells in light are always live: cover them before a plug or a joint is opened.',
      'Take the propeller off: the motor stays connected.',
      lithium,
    ],
    keys: [
      quantity('current', 'current', 'A', 'Amps into the battery', 'of the whole array', {
        needed: true,
        example: '2.6 A ± 0.05 A',
        step: 0.05,
      }),
      quantity('voltage', 'voltage', 'V', 'Volts at the battery', 'while it charges', {
        needed: true,
        example: '11.9 V ± 0.05 V',
        step: 0.1,
      }),
      {
        key: 'time',
        label: 'Date and time',
        help: 'with the offset of the clock, or Z for UTC',
        needed: true,
        notation: 'instant',
        example: '2026-06-21T10:00+02:00',
      },
      {
        key: 'place',
        label: 'Place',
        help: 'where it is not the place of the day plan',
        notation: 'place',
        example: '40.7 N 0.9 E',
      },
      altitude,
      quantity('tilt', 'angle', 'deg', 'Tilt of the cells', 'from level; 0 where it is left empty', {
        example: '30 deg',
        step: Math.PI / 180,
      }),
      quantity('facing', 'angle', 'deg', 'Facing', 'direction towards which they tilt, from north clockwise', {
        example: '180 deg',
        step: Math.PI / 36,
      }),
      quantity(
        'nose',
        'angle',
        'deg',
        'Nose',
        'direction in which it points, from north clockwise: halves at an angle to each other see unequal light',
        { example: '90 deg', step: Math.PI / 36 },
      ),
      quantity(
        'irradiance',
        'areal power',
        'W/m2',
        'Light on the cells',
        'on their plane, where it was measured; otherwise a clear sky is taken',
        { example: '880 W/m2', step: 10 },
      ),
      airTemperature,
      quantity('wind', 'speed', 'm/s', 'Wind at the cells', 'a breath of wind cools them by 10 K', {
        example: '1 m/s',
        step: 0.5,
      }),
      quantity('cell temperature', 'temperature', 'degC', 'Cell temperature', 'where it was measured', { step: 1 }),
      quantity('array voltage', 'voltage', 'V', 'Volts of the array', 'at the input of the converter, at work', {
        step: 0.1,
      }),
      quantity('array current', 'current', 'A', 'Amps of the array', 'into the converter', { step: 0.05 }),
      quantity('open circuit voltage', 'voltage', 'V', 'Open-circuit volts', 'converter unplugged', { step: 0.1 }),
      quantity('short circuit current', 'current', 'A', 'Short-circuit amps', 'through a meter that bears it', {
        step: 0.05,
      }),
      quantity('worst cell voltage', 'voltage', 'V', 'Volts of the worst cell', 'at work, cell by cell', {
        step: 0.01,
      }),
      quantity('zero current', 'current', 'A', 'Amps at zero', 'of the sensor, cells covered, everything off', {
        step: 0.01,
      }),
      {
        key: 'converter',
        label: 'Converter',
        help: 'own, or other: one that is known to be good in its place',
        example: 'other',
      },
      ...common.filter(({ key }) => key !== 'date'),
    ],
  },
  {
    what: 'mass',
    title: 'Weighing',
    about: 'The whole aircraft, ready to fly, on the scale. It takes the place of the sum of all masses.',
    cautions: [],
    keys: [
      quantity('mass', 'mass', 'kg', 'Mass ready to fly', 'with battery, propeller and everything that flies', {
        needed: true,
        example: '1.32 kg ± 0.01 kg',
        step: 0.001,
      }),
      ...common,
    ],
  },
  {
    what: 'balance point',
    title: 'Balance point (CG)',
    about: 'The aircraft ready to fly, held under the wing at the point where it stays level.',
    cautions: [],
    keys: [
      quantity('x', 'length', 'mm', 'Balance point', 'aft of the datum of the design', {
        needed: true,
        example: '85 mm ± 2 mm',
        step: 0.001,
      }),
      quantity(
        'battery x',
        'length',
        'mm',
        'Battery then',
        'centre of the battery during the measurement, aft of the datum',
        { step: 0.001 },
      ),
      ...common,
    ],
  },
  {
    what: 'level power',
    title: 'Level flight',
    about:
      'Power from the battery in steady level flight in calm air, cells covered or their income added. It corrects the drag and the drive together.',
    cautions: [],
    keys: [
      quantity('power', 'power', 'W', 'Power', 'from the battery', { needed: true, example: '16 W ± 2 W', step: 0.1 }),
      quantity('airspeed', 'speed', 'm/s', 'Airspeed', 'true; that of the design where it is left empty', {
        step: 0.1,
      }),
      quantity('bank', 'angle', 'deg', 'Bank', 'straight flight where it is left empty', { step: Math.PI / 180 }),
      quantity('mass', 'mass', 'kg', 'Mass', 'as flown', { step: 0.01 }),
      altitude,
      ...common,
    ],
  },
  {
    what: 'load test',
    title: 'Load test of the wing',
    about:
      'Hold the aircraft at its middle, put a weight on one wing and read how far it goes down there, and how far the chord turns. It corrects bending and twisting stiffness.',
    cautions: ['Begin with little weight. Stop where anything creaks or wrinkles; look at the cells afterwards.'],
    keys: [
      quantity('mass', 'mass', 'kg', 'Weight put on', 'on one wing', { needed: true, example: '0.5 kg', step: 0.01 }),
      quantity('station', 'length', 'mm', 'Weight at', 'distance from the middle along the span', {
        needed: true,
        example: '900 mm',
        step: 0.01,
      }),
      quantity(
        'deflection',
        'length',
        'mm',
        'Went down by',
        'the middle of the chord, with the weight less without it',
        {
          needed: true,
          example: '22 mm ± 1 mm',
          step: 0.0005,
        },
      ),
      quantity('twist', 'angle', 'deg', 'Turned by', 'the chord there, nose up; down is negative', {
        example: '-1.2 deg ± 0.2 deg',
        step: Math.PI / 1800,
      }),
      quantity('chord station', 'ratio', '%', 'Weight along the chord', '30 % where it is left empty', {
        example: '30 %',
        step: 0.05,
      }),
      quantity('at', 'length', 'mm', 'Read at', 'distance from the middle, if not at the weight', { step: 0.01 }),
      { key: 'surface', label: 'Surface', help: 'only where it is not the wing' },
      ...common,
    ],
  },
  {
    what: 'strip bend',
    title: 'Bent strip of a material',
    about:
      'Lay a strip of the same foam or wood on two supports, at least 16 times as far apart as it is thick, and put a weight in the middle. It corrects that material wherever it is.',
    cautions: [],
    keys: [
      {
        key: 'material',
        label: 'Material',
        help: 'as the structure names it',
        needed: true,
        choices: STRUCTURAL_MATERIALS,
      },
      quantity('width', 'length', 'mm', 'Width', 'of the strip', { needed: true, example: '50 mm', step: 0.001 }),
      quantity('thickness', 'length', 'mm', 'Thickness', 'of the strip; it counts three times', {
        needed: true,
        example: '9 mm ± 0.1 mm',
        step: 0.0001,
      }),
      quantity('span', 'length', 'mm', 'Supports apart', 'between the supports', {
        needed: true,
        example: '300 mm',
        step: 0.01,
      }),
      quantity('mass', 'mass', 'g', 'Weight', 'in the middle', { needed: true, example: '100 g', step: 0.01 }),
      quantity('deflection', 'length', 'mm', 'Went down by', 'under the weight', {
        needed: true,
        example: '6.5 mm ± 0.3 mm',
        step: 0.0005,
      }),
      ...common,
    ],
  },
  {
    what: 'tap frequency',
    title: 'Tone of the tapped wing',
    about:
      'Hold the aircraft at its middle, pluck a wing tip and count or record how often it swings a second. It corrects bending stiffness; the whole aircraft must have the masses of the design.',
    cautions: [],
    keys: [
      quantity('frequency', 'angular speed', 'Hz', 'Lowest tone', 'vibrations a second', {
        needed: true,
        example: '6.2 Hz ± 0.2 Hz',
        step: 0.2 * Math.PI,
      }),
      {
        key: 'held',
        label: 'Held',
        help: 'at its middle where it is left empty; free: hung on something soft',
        choices: ['middle', 'free'],
      },
      ...common,
    ],
  },
];

export const kindOf = (what: string): RecordKind | undefined => recordKinds.find((kind) => kind.what === what);

const stiffness: readonly string[] = ['load test', 'strip bend', 'tap frequency'] satisfies readonly StiffnessWhat[];

/** Records that correct the structure, which the limits and not the verdict use. */
export const isStiffness = (what: string): what is StiffnessWhat => stiffness.includes(what);
