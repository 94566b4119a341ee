import { type MaterialName, STRUCTURAL_MATERIALS } from './library/materials.js';
import { date, instant, place } from './notations.js';
import {
  ALTITUDE,
  choice,
  flag,
  labelled,
  NOT_NEGATIVE,
  object,
  POSITIVE,
  quantity,
  type Read,
  required,
  SHARE,
  text,
  variants,
} from './schema/field.js';

const common = {
  use: labelled('compute with it (use)', flag('no: keep the record but compute without it')),
  date: date('day of the measurement'),
  instrument: text('instrument and how it was read'),
  note: text('anything else'),
};

/** What was measured, by kind; each overrides or scales its own stage of the computation. */
export const measuredField = variants('what', 'a measurement', {
  'level power': object('power measured in level flight', {
    power: required(quantity('power', 'electric power from the battery', { bounds: POSITIVE, example: '16 W ± 2 W' })),
    airspeed: quantity('speed', 'true airspeed', { bounds: POSITIVE }),
    altitude: quantity('length', 'altitude above sea level', { usual: ALTITUDE }),
    bank: quantity('angle', 'bank held', { bounds: { from: 0, to: 1.3 } }),
    mass: quantity('mass', 'mass as flown', { bounds: POSITIVE }),
    ...common,
  }),
  mass: object('the aircraft on the scale', {
    mass: required(quantity('mass', 'mass ready to fly', { bounds: POSITIVE, example: '1.32 kg ± 0.01 kg' })),
    ...common,
  }),
  'balance point': object('the aircraft on the balance', {
    x: required(
      labelled(
        'aft of the datum (x)',
        quantity('length', 'balance point (CG) aft from the datum', { example: '85 mm ± 2 mm' }),
      ),
    ),
    batteryX: quantity('length', 'centre of the battery during the measurement'),
    ...common,
  }),
  'motor run': object('the motor on the bench, standing still', {
    voltage: required(quantity('voltage', 'at the speed controller', { bounds: POSITIVE, example: '11.4 V ± 0.05 V' })),
    current: required(quantity('current', 'from the battery', { bounds: POSITIVE, example: '8.2 A ± 0.2 A' })),
    throttle: quantity('ratio', 'throttle', { bounds: SHARE, example: '100 %' }),
    propeller: text('propeller used, where it is not that of the design'),
    speed: quantity('angular speed', 'propeller speed', { bounds: POSITIVE, example: '6200 rpm ± 50 rpm' }),
    thrust: quantity('force', 'thrust', { bounds: POSITIVE, example: '480 gf ± 10 gf' }),
    temperature: quantity('temperature', 'air temperature'),
    altitude: quantity('length', 'altitude above sea level', { usual: ALTITUDE }),
    ...common,
  }),
  'array reading': object('the array in the sun', {
    current: required(quantity('current', 'into the battery', { bounds: NOT_NEGATIVE, example: '2.6 A ± 0.05 A' })),
    voltage: required(quantity('voltage', 'at the battery', { bounds: POSITIVE, example: '11.9 V ± 0.05 V' })),
    time: required(instant('date and time with offset')),
    place: place('where'),
    altitude: quantity('length', 'altitude above sea level', { usual: ALTITUDE }),
    tilt: quantity('angle', 'tilt of the array from level', { bounds: { from: 0, to: Math.PI } }),
    facing: quantity('angle', 'direction towards which it tilts, from north clockwise'),
    nose: quantity('angle', 'direction in which the nose points, from north clockwise, before it is tilted', {
      example: '180 deg',
    }),
    string: text('which string, where not the whole array'),
    temperature: quantity('temperature', 'air temperature'),
    wind: quantity('speed', 'wind at the cells', { bounds: NOT_NEGATIVE, example: '1 m/s' }),
    cellTemperature: quantity('temperature', 'cell temperature'),
    irradiance: quantity('areal power', 'light on the plane of the array, where measured', { bounds: POSITIVE }),
    arrayVoltage: quantity('voltage', 'at the input of the converter, while it works', { bounds: POSITIVE }),
    arrayCurrent: quantity('current', 'into the converter', { bounds: NOT_NEGATIVE }),
    openCircuitVoltage: quantity('voltage', 'of the array, converter unplugged', { bounds: POSITIVE }),
    shortCircuitCurrent: quantity('current', 'of the array, shorted through the meter', { bounds: POSITIVE }),
    worstCellVoltage: quantity('voltage', 'of the cell that gives least, while the array works'),
    zeroCurrent: quantity('current', 'of the sensor, cells covered and everything off'),
    converter: choice(['own', 'other'], 'other: another converter, known to be good, stood in its place'),
    ...common,
  }),
  'load test': object('a weight on one wing, the aircraft held at its middle', {
    surface: text('surface that was loaded, where it is not the wing'),
    mass: required(quantity('mass', 'weight that was put on', { bounds: POSITIVE, example: '0.5 kg' })),
    station: required(
      quantity('length', 'of the weight, from the middle along the span', { bounds: POSITIVE, example: '900 mm' }),
    ),
    chordStation: quantity('ratio', 'of the weight along the chord', { bounds: SHARE, example: '30 %' }),
    deflection: required(
      quantity('length', 'by which the middle of the chord went down', { bounds: POSITIVE, example: '22 mm ± 1 mm' }),
    ),
    at: quantity('length', 'where it was read, from the middle, if not at the weight', { bounds: POSITIVE }),
    twist: quantity('angle', 'by which the chord turned there, nose up', { example: '-1.2 deg ± 0.2 deg' }),
    ...common,
  }),
  'strip bend': object('a strip of a material on two supports, a weight in the middle', {
    material: required(choice<MaterialName>(STRUCTURAL_MATERIALS, 'material of the parts library that it is')),
    width: required(quantity('length', 'of the strip', { bounds: POSITIVE, example: '50 mm' })),
    thickness: required(quantity('length', 'of the strip', { bounds: POSITIVE, example: '9 mm ± 0.1 mm' })),
    span: required(quantity('length', 'between the supports', { bounds: POSITIVE, example: '300 mm' })),
    mass: required(quantity('mass', 'weight in the middle', { bounds: POSITIVE, example: '100 g' })),
    deflection: required(quantity('length', 'under the weight', { bounds: POSITIVE, example: '6.5 mm ± 0.3 mm' })),
    ...common,
  }),
  'tap frequency': object('lowest tone of the wing when it is tapped or plucked', {
    frequency: required(
      quantity('angular speed', 'vibrations a second', { bounds: POSITIVE, example: '6.2 Hz ± 0.2 Hz' }),
    ),
    held: choice(['middle', 'free'], 'held at its middle, or hung on something soft'),
    ...common,
  }),
});

export type MeasuredRecord = Read<typeof measuredField>;
