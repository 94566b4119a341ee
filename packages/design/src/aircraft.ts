import { FLOWN_AIR } from '@noonwing/engine/section';
import { formatPackLayout, parsePackLayout, parsePropellerSize } from '@noonwing/quantities';
import { massField, sectionField, surfaceField } from './airframe-fields.js';
import { arrayField } from './array-fields.js';
import { BATTERY_CELLS, type BatteryCellName } from './library/battery-cells.js';
import { MOTORS, type MotorName } from './library/motors.js';
import { PROPELLERS, type PropellerName } from './library/propellers.js';
import { measuredField } from './measured-fields.js';
import {
  ALTITUDE,
  choice,
  either,
  flag,
  labelled,
  list,
  NOT_NEGATIVE,
  notation,
  object,
  POSITIVE,
  quantity,
  quantityOf,
  type Read,
  record,
  required,
  SHARE,
  shortForm,
  text,
} from './schema/field.js';
import { loadField, position, textOnly } from './shared-fields.js';

const names = <N extends string>(library: Readonly<Record<N, unknown>>): readonly N[] => Object.keys(library) as N[];

const packLayout = notation(
  'cells in series and parallel',
  '3S2P',
  (written) => {
    const layout = parsePackLayout(written);
    return layout.ok ? { ok: true, value: { series: layout.series, parallel: layout.parallel } } : layout;
  },
  formatPackLayout,
);

const propellerSize = notation(
  'diameter x pitch',
  '10x6 in',
  (written) => {
    const size = parsePropellerSize(written);
    return size.ok ? { ok: true, value: { diameter: size.diameter, pitch: size.pitch } } : size;
  },
  (size) => `${+(size.diameter / 0.0254).toFixed(4)}x${+(size.pitch / 0.0254).toFixed(4)} in`,
);

const batteryField = object('battery pack', {
  cell: shortForm(
    'battery cell: a name of the parts library, or its data',
    choice(names<BatteryCellName>(BATTERY_CELLS), 'cell of the parts library'),
    object('battery cell', {
      like: labelled(
        'start from (like)',
        choice(names<BatteryCellName>(BATTERY_CELLS), 'cell of the parts library to start from'),
      ),
      capacity: quantity('charge', 'capacity of one cell', { bounds: POSITIVE, example: '3.3 Ah' }),
      resistance: quantity('resistance', 'direct-current resistance of one cell', {
        bounds: POSITIVE,
        example: '45 mohm',
      }),
      mass: quantity('mass', 'mass of one cell', { bounds: POSITIVE }),
      fullVoltage: quantity('voltage', 'charged to', { bounds: { above: 2, to: 4.5 }, example: '4.15 V' }),
      emptyVoltage: quantity('voltage', 'not discharged below, under load', { bounds: { above: 1, to: 4 } }),
    }),
    (like) => ({ like }),
    (full) => (Object.keys(full).length === 1 ? full.like : undefined),
  ),
  layout: packLayout,
  capacity: quantityOf(['charge', 'energy'], 'capacity of the whole pack', {
    bounds: POSITIVE,
    example: '6.6 Ah',
    step: '0.5 Ah',
  }),
  resistance: quantity('resistance', 'resistance of the whole pack with its leads', {
    bounds: POSITIVE,
    example: '90 mohm',
  }),
  mass: quantity('mass', 'mass of the whole pack with leads and wrapping', { bounds: POSITIVE }),
  ...position('centre of the pack', '5 mm'),
  movesFrom: quantity('length', 'most forward place of its centre, aft from the datum'),
  movesTo: quantity('length', 'most aft place of its centre, aft from the datum'),
  chargeCurrentLimit: quantity('current', 'greatest charge current of the pack', { bounds: POSITIVE }),
  dischargeCurrentLimit: quantity('current', 'greatest discharge current of the pack', { bounds: POSITIVE }),
  fullVoltage: quantity('voltage', 'charged to, per cell', { bounds: { above: 2, to: 4.5 }, example: '4.15 V' }),
  emptyVoltage: quantity('voltage', 'not discharged below, per cell under load', { bounds: { above: 1, to: 4 } }),
  usable: labelled(
    'usable share',
    quantity('ratio', 'share of the capacity that is used', { bounds: SHARE, example: '95 %' }),
  ),
});

const motorField = object('motor', {
  like: labelled('start from (like)', choice(names<MotorName>(MOTORS), 'motor of the parts library to start from')),
  count: labelled('how many', quantity('count', 'how many such motors', { bounds: { from: 1, to: 40 } })),
  speedConstant: quantity('motor speed constant', 'motor speed constant', {
    bounds: POSITIVE,
    usual: { from: 2, to: 700 },
    example: '750 rpm/V',
    step: '50 rpm/V',
  }),
  resistance: quantity('resistance', 'winding resistance, phase to phase', { bounds: POSITIVE, example: '80 mohm' }),
  noLoadCurrent: quantity('current', 'current without propeller', { bounds: POSITIVE, example: '0.6 A' }),
  noLoadVoltage: quantity('voltage', 'voltage at which the no-load current was measured', { bounds: POSITIVE }),
  gearRatio: quantity('ratio', 'motor turns per propeller turn', { bounds: { above: 0, to: 100 }, step: '0.5' }),
  gearEfficiency: quantity('ratio', 'share of the power that the gear passes on', { bounds: { above: 0, to: 1 } }),
  currentLimit: quantity('current', 'continuous current limit of one motor', { bounds: POSITIVE }),
  powerLimit: quantity('power', 'continuous electric power limit of one motor', { bounds: POSITIVE }),
  mass: quantity('mass', 'mass of one motor with its mount and gear', { bounds: POSITIVE }),
  ...position('motor (the first, where there are several)', '10 mm'),
});

const bladeStation = object('blade station', {
  radius: required(
    quantityOf(['ratio', 'length'], 'distance from the axis, or share of the tip radius', { bounds: POSITIVE }),
  ),
  chord: required(quantityOf(['length', 'ratio'], 'chord, or share of the tip radius', { bounds: POSITIVE })),
  angle: required(quantity('angle', 'angle of the chord to the plane of rotation')),
});

const measuredPoint = object('point of a measured propeller', {
  advanceRatio: required(
    quantity('ratio', 'airspeed over revolutions per second and diameter', { bounds: NOT_NEGATIVE }),
  ),
  thrustCoefficient: required(
    quantity('ratio', 'thrust over density, revolutions per second squared, diameter to the 4th'),
  ),
  powerCoefficient: required(
    quantity('ratio', 'power over density, revolutions per second cubed, diameter to the 5th'),
  ),
  speed: quantity('angular speed', 'speed at which it was measured', { bounds: POSITIVE }),
});

const propellerField = shortForm(
  'propeller: size as sold, a name of the parts library, or its data',
  either(
    'size as sold or a name of the parts library',
    propellerSize,
    choice(names<PropellerName>(PROPELLERS), 'propeller of the parts library'),
  ),
  object('propeller', {
    like: labelled(
      'start from (like)',
      choice(names<PropellerName>(PROPELLERS), 'propeller of the parts library to start from'),
    ),
    size: propellerSize,
    blades: quantity('count', 'how many blades', { bounds: { from: 1, to: 8 } }),
    folding: flag('the blades fold back when it stops'),
    geometry: list(bladeStation, 'blade stations from hub to tip', 3, 'blade station'),
    section: labelled('section of the blades', sectionField),
    measured: list(measuredPoint, 'measured table', 2, 'point'),
    mass: quantity('mass', 'mass with hub and spinner', { bounds: POSITIVE }),
  }),
  (short) => (typeof short === 'string' ? { like: short } : { size: short }),
  (full) => (Object.keys(full).length === 1 ? (full.like ?? full.size) : undefined),
);

const driveField = object('drive', {
  motor: shortForm(
    'motor: a name of the parts library, or its data',
    choice(names<MotorName>(MOTORS), 'motor of the parts library'),
    motorField,
    (like) => ({ like }),
    (full) => (Object.keys(full).length === 1 ? full.like : undefined),
  ),
  propeller: propellerField,
  speedController: object('speed controller (ESC)', {
    resistance: quantity('resistance', 'resistance in series with the motor', {
      bounds: NOT_NEGATIVE,
      example: '6 mohm',
    }),
    currentLimit: quantity('current', 'continuous current limit', { bounds: POSITIVE }),
    standbyPower: quantity('power', 'drawn at all times', { bounds: NOT_NEGATIVE }),
    lowVoltageCut: quantity('voltage', 'pack voltage at which it stops the motor', { bounds: POSITIVE }),
  }),
  wiringResistance: quantity('resistance', 'leads from battery to speed controller and back', { bounds: NOT_NEGATIVE }),
  downThrust: quantity('angle', 'thrust line below straight ahead', {
    usual: { from: -0.35, to: 0.35 },
    step: '1 deg',
  }),
});

const flightField = object('how it is flown', {
  airspeed: either(
    'airspeed flown',
    quantity('speed', 'true airspeed', { bounds: { above: 0, to: 100 }, example: '8.5 m/s', step: '0.5 m/s' }),
    choice(['least power'], 'the speed of least level power, above the stall margin'),
  ),
  turbulence: labelled(
    'turbulence of the air',
    choice(FLOWN_AIR, 'how disturbed the air is that the boundary layers of the sections feel'),
  ),
  bank: quantity('angle', 'bank held in circles', { bounds: { from: 0, to: 1.3 }, example: '15 deg', step: '5 deg' }),
  circleRadius: quantity('length', 'radius of the circles flown', {
    bounds: POSITIVE,
    usual: { from: 10, to: 5000 },
    example: '60 m',
  }),
  height: quantity('length', 'height above the ground', {
    bounds: { from: 0, to: 20000 },
    usual: { from: 5, to: 5000 },
    example: '80 m',
  }),
  stallFactor: quantity('ratio', 'lowest airspeed flown, as a multiple of the stall speed', {
    bounds: { from: 1, to: 3 },
    usual: { to: 2 },
    example: '1.25',
  }),
  maximumLift: quantity('ratio', 'greatest lift coefficient of the whole aircraft, in place of the computed one', {
    bounds: { above: 0, to: 4 },
  }),
  profileDragFactor: quantity('ratio', 'factor on the computed profile drag', {
    bounds: { above: 0, to: 10 },
    example: '1.1 ± 0.1',
  }),
  inducedDragFactor: quantity('ratio', 'factor on the computed induced drag', { bounds: { above: 0, to: 10 } }),
  levelPowerFactor: quantity('ratio', 'factor on the computed level power', { bounds: { above: 0, to: 10 } }),
  airAndControlFactor: quantity(
    'ratio',
    'factor on level power for turbulence, control activity and height hold at midday',
    {
      bounds: { from: 1, to: 3 },
    },
  ),
});

const launchField = object('how it gets into the air', {
  kind: choice(['hand', 'bungee', 'winch', 'towline'], 'by hand, or by what line'),
  pull: quantity('force', 'greatest pull of the line; of a bungee its first', {
    bounds: POSITIVE,
    usual: { from: 1, to: 2000 },
    example: '60 N',
    step: '10 N',
  }),
  way: quantity('length', 'over which a bungee pulls until it is slack', {
    bounds: POSITIVE,
    usual: { from: 1, to: 200 },
    example: '6 m',
    step: '1 m',
  }),
  hook: object('hook of the line', {
    x: labelled(
      'aft of the datum (x)',
      required(quantity('length', 'hook: aft from the datum', { step: '10 mm', example: '60 mm' })),
    ),
    z: labelled(
      'above the datum (z)',
      required(quantity('length', 'hook: up from the datum, below it negative', { step: '10 mm', example: '-60 mm' })),
    ),
  }),
});

const levelPowerField = shortForm(
  'level power as known: electric power from the battery that holds level flight',
  quantity('power', 'electric power in level flight', { bounds: POSITIVE, example: '16 W ± 2 W' }),
  object('level power', {
    power: required(quantity('power', 'electric power in level flight', { bounds: POSITIVE, example: '16 W ± 2 W' })),
    airspeed: quantity('speed', 'true airspeed at which it holds', { bounds: POSITIVE }),
    altitude: quantity('length', 'altitude above sea level at which it holds', { usual: ALTITUDE }),
    mass: quantity('mass', 'mass at which it holds', { bounds: POSITIVE }),
  }),
  (power) => ({ power }),
  (full) => (Object.keys(full).length === 1 ? full.power : undefined),
);

const bodyField = object('body: fuselage, pod or boom', {
  length: required(quantity('length', 'length', { bounds: POSITIVE, step: '50 mm' })),
  width: quantity('length', 'greatest width', { bounds: POSITIVE }),
  height: quantity('length', 'greatest height', { bounds: POSITIVE }),
  diameter: quantity('length', 'diameter, where it is round', { bounds: POSITIVE }),
  ...position('its nose', '10 mm'),
  pair: labelled('one on each side (pair)', flag('one on each side')),
});

const dragField = shortForm(
  'extra drag: drag area, or drag area with its place',
  quantity('area', 'drag area: drag over dynamic pressure', { bounds: NOT_NEGATIVE, example: '5 cm2' }),
  object('extra drag', {
    area: required(
      quantity('area', 'drag area: drag over dynamic pressure', { bounds: NOT_NEGATIVE, example: '5 cm2' }),
    ),
    ...position('where it acts', '10 mm'),
  }),
  (area) => ({ area }),
  (full) => (Object.keys(full).length === 1 ? full.area : undefined),
);

/** The design file: every key, its kind of quantity, its help and the natural step of its lever. */
export const aircraftField = object('design file', {
  noonwing: required(textOnly('design 1')),
  name: required(text('name of the aircraft')),
  notes: text('notes of the maker'),
  datum: text('where x, y and z start, in words'),
  allUpMass: quantity('mass', 'mass ready to fly, where only the whole is known', {
    bounds: POSITIVE,
    example: '1.3 kg ± 0.1 kg',
  }),
  levelPower: levelPowerField,
  surfaces: record(surfaceField, 'wing, tailplane, fins by name', 'surface'),
  bodies: record(bodyField, 'fuselage, pods and booms by name', 'body'),
  extraDrag: record(dragField, 'what else drags, by name', 'extra drag'),
  masses: record(massField, 'parts with their masses, by name', 'part'),
  glueWireAndPaint: quantity('mass', 'glue, wire and paint of the whole aircraft', { bounds: NOT_NEGATIVE }),
  growthAllowance: quantity('ratio', 'growth of parts that are not weighed', {
    bounds: { from: -0.5, to: 2 },
    example: '10 % ± 8 %',
  }),
  battery: either('battery pack, or none', choice(['none'], 'no battery'), batteryField),
  drive: driveField,
  array: either('solar cells, or none', choice(['none'], 'no cells'), arrayField),
  loads: record(loadField('a load: its power, or power with hours'), 'always-on loads by name', 'load'),
  regulatorEfficiency: quantity('ratio', 'share of the power that the receiver supply passes on', {
    bounds: { above: 0, to: 1 },
  }),
  regulatorDropOut: quantity('voltage', 'bus voltage below which the receiver supply drops out', {
    bounds: POSITIVE,
    usual: { from: 3, to: 30 },
    example: '5.5 V',
  }),
  receiverBrownOut: quantity('voltage', 'bus voltage below which the receiver restarts', {
    bounds: POSITIVE,
    usual: { from: 2.5, to: 10 },
    example: '4 V',
  }),
  flight: flightField,
  launch: launchField,
  measured: list(measuredField, 'what was measured', 0, 'measurement'),
});

/** A design as read from a file: what is written, no default filled in. */
export type AircraftDesign = Read<typeof aircraftField>;
export type BatteryDesign = Read<typeof batteryField>;
export type DriveDesign = Read<typeof driveField>;
export type MotorDesign = Read<typeof motorField>;
export type FlightDesign = Read<typeof flightField>;
export type LaunchDesign = Read<typeof launchField>;
export type BodyDesign = Read<typeof bodyField>;
export type { MassDesign, SectionDesign, StationDesign, SurfaceDesign } from './airframe-fields.js';
export type { ArrayDesign } from './array-fields.js';
export type { MeasuredRecord } from './measured-fields.js';
