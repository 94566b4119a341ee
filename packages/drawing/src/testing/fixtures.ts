/** Invented data for tests and previews. */
import type {
  BeamData,
  ChargeData,
  CompareData,
  DayData,
  DriveData,
  IntervalData,
  LedgerData,
  PolarData,
  PowerData,
  SharesData,
  SparkData,
  WhereWhenData,
} from '../charts/inputs.js';
import type { Point } from '../model.js';
import type { FirstFlightData } from '../pages/inputs.js';
import type { AircraftShape, CellShape } from '../shapes/inputs.js';
import type { WiringData } from '../shapes/wiring.js';

const range = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i);
const watts = { label: 'power', unit: 'W', decimals: 1 };
const airspeed = { label: 'airspeed', unit: 'm/s', decimals: 1 };
const mass = { label: 'mass', unit: 'g', decimals: 0 };
const millimetres = { label: 'position', unit: 'mm', decimals: 0 };

const hours = range(73).map((i) => 4 + i / 4);
const bell = (hour: number, most: number): number =>
  hour < 6.3 || hour > 21.4 ? 0 : most * Math.sin((Math.PI * (hour - 6.3)) / 15.1) ** 1.6;
const broken = (hour: number): number => bell(hour, 41) * (0.75 + 0.25 * Math.sin(hour * 7));

export const day: DayData = {
  when: '21 June, 40.7° N 0.9° E',
  zone: 'UTC+2',
  hours,
  sunlight: {
    measure: { label: 'sunlight on the level', unit: 'W/m2', decimals: 0 },
    values: hours.map((hour) => bell(hour, 940)),
  },
  power: watts,
  skies: [
    {
      id: 'clear',
      name: 'clear',
      income: hours.map((hour) => bell(hour, 78)),
      windows: [{ start: 9.83, end: 16.17 + 1.5, startSpan: [9.4, 10.3], endSpan: [17.2, 18.1] }],
      confidence: 'about 9 in 10',
    },
    {
      id: 'thin',
      name: 'thin cloud',
      income: hours.map((hour) => bell(hour, 62)),
      windows: [{ start: 10.9, end: 16.6, startSpan: [10.1, 11.6], endSpan: [15.9, 17.3] }],
      confidence: 'about 7 in 10',
    },
    { id: 'broken', name: 'broken', income: hours.map(broken), windows: [], confidence: 'about 1 in 10' },
  ],
  need: 43.1,
  needSpan: [39.5, 47],
  sunrise: 6.35,
  sunset: 21.4,
  launch: 6.75,
  landing: 12.5,
  cursor: 11.25,
};

export const charge: ChargeData = {
  when: '21 June',
  zone: 'UTC+2',
  hours,
  charge: { label: 'charge', unit: '%', decimals: 0 },
  skies: [
    {
      id: 'clear',
      name: 'clear',
      charge: hours.map((hour) =>
        Math.min(100, 55 + 6 * (hour - 9) ** 2 * (hour < 9 ? 0.35 : 1) - (hour > 19 ? (hour - 19) * 14 : 0)),
      ),
      curtailed: hours.map((hour) => hour > 11.9 && hour < 19),
    },
    {
      id: 'thin',
      name: 'thin cloud',
      charge: hours.map((hour) => 78 - 2.4 * (hour - 4) + 14 * Math.exp(-(((hour - 14) / 3) ** 2))),
    },
    { id: 'broken', name: 'broken', charge: hours.map((hour) => Math.max(4, 80 - 7.5 * (hour - 4))) },
  ],
  reserve: 20,
  full: 100,
  cursor: 11.25,
  sunrise: 6.35,
  sunset: 21.4,
};

const speeds = range(16).map((i) => 6.6 + i * 0.5);
const parasite = (v: number): number => 0.012 * v ** 3;
const induced = (v: number): number => 178 / v;

export const power: PowerData = {
  airspeed,
  power: { ...watts, label: 'level power' },
  parts: [
    { id: 'induced', label: 'induced drag' },
    { id: 'profile', label: 'profile drag' },
    { id: 'parasite', label: 'parasite drag' },
    { id: 'drive', label: 'drive losses' },
    { id: 'loads', label: 'loads' },
  ],
  points: speeds.map((v) => {
    const air = induced(v) + parasite(v) * 1.5;
    return { airspeed: v, parts: [induced(v), parasite(v), parasite(v) * 0.5, air * 0.7, 4.2] };
  }),
  stall: 6.4,
  leastPower: 7.6,
  bestRange: 10.1,
  flown: 8.4,
  limit: { airspeed: 13.8, reason: 'wing torsion' },
};

const polarPoint = (angle: number) => {
  const lift = 0.32 + 0.085 * angle;
  return { angle, lift, drag: 0.021 + 0.034 * lift ** 2, moment: 0.042 - 0.0125 * angle };
};
export const polar: PolarData = {
  angle: { label: 'angle of attack', unit: 'deg', decimals: 1 },
  points: range(15).map((i) => polarPoint(i - 4)),
  trim: polarPoint(3.36),
};

export const drive: DriveData = {
  airspeed,
  thrust: { label: 'thrust', unit: 'N', decimals: 2 },
  available: range(17).map((i): Point => [i, 9.2 - 0.42 * i - 0.011 * i * i]),
  needed: speeds.map((v): Point => [v, 58 / v ** 2 + 0.014 * v ** 2]),
  flown: 8.4,
  motorSpeed: {
    measure: { label: 'motor speed in level flight', unit: 'rpm', decimals: 0 },
    points: speeds.map((v): Point => [v, 2900 + 26 * (v - 7) ** 2 + 190 * v]),
    limit: 9500,
  },
  chain: [
    { id: 'battery', label: 'wires', efficiency: 0.985 },
    { id: 'controller', label: 'speed controller (ESC)', efficiency: 0.91, note: 'part load' },
    { id: 'motor', label: 'motor', efficiency: 0.78 },
    { id: 'gear', label: 'gear', efficiency: 0.96 },
    { id: 'propeller', label: 'propeller', efficiency: 0.64 },
  ],
};

export const beam: BeamData = {
  position: millimetres,
  mass,
  items: [
    { id: 'motor', label: 'motor', x: -150, mass: 62 },
    { id: 'propeller', label: 'propeller', x: -182, mass: 18 },
    { id: 'esc', label: 'speed controller (ESC)', x: -105, mass: 24, assumed: true },
    { id: 'battery', label: 'battery', x: -40, mass: 186 },
    { id: 'receiver', label: 'receiver', x: 35, mass: 12 },
    { id: 'wing', label: 'wing', x: 108, mass: 412 },
    { id: 'cells', label: 'cells', x: 118, mass: 152, assumed: true },
    { id: 'converter', label: 'converter (MPPT)', x: 60, mass: 31 },
    { id: 'fuselage', label: 'fuselage', x: 240, mass: 141 },
    { id: 'servos', label: 'tail servos', x: 330, mass: 18 },
    { id: 'tail', label: 'tail surfaces', x: 910, mass: 58 },
  ],
  balance: { x: 92, sigma: 6 },
  neutral: { x: 131, sigma: 5 },
  allowed: [74, 110],
  meanChord: { leadingEdge: 12, chord: 212 },
  datum: 'leading edge at the root',
};

const cellRow = (y0: number, x: number): readonly CellShape[] =>
  range(8).map((i) => {
    const y = y0 + i * 128;
    return {
      id: `cell ${y0} ${i}`,
      corners: [
        [x, y, 22],
        [x + 125, y, 22],
        [x + 125, y + 125, 22],
        [x, y + 125, 22],
      ] as const,
    };
  });

export const aircraft: AircraftShape = {
  name: 'Alondra',
  length: { label: 'length', unit: 'mm', decimals: 0 },
  surfaces: [
    {
      id: 'wing',
      label: 'wing',
      mirrored: true,
      stations: [
        { at: [0, 0, 20], chord: 230, thickness: 0.095 },
        { at: [0, 820, 35], chord: 230, thickness: 0.095 },
        { at: [35, 1200, 110], chord: 140, thickness: 0.09, twist: -1 },
      ],
      controls: [{ id: 'aileron', label: 'aileron', span: [0.6, 0.96], hinge: 0.78 }],
    },
    {
      id: 'tail',
      label: 'tailplane',
      mirrored: true,
      stations: [
        { at: [860, 0, 40], chord: 150, thickness: 0.06 },
        { at: [885, 290, 40], chord: 110, thickness: 0.06 },
      ],
      controls: [{ id: 'elevator', label: 'elevator', span: [0, 1], hinge: 0.65 }],
    },
    {
      id: 'fin',
      label: 'fin',
      stations: [
        { at: [850, 0, 20], chord: 170, thickness: 0.06 },
        { at: [900, 0, 230], chord: 110, thickness: 0.06 },
      ],
      controls: [{ id: 'rudder', label: 'rudder', span: [0, 1], hinge: 0.6 }],
    },
  ],
  bodies: [
    {
      id: 'fuselage',
      label: 'fuselage',
      stations: [
        { at: [-180, 0, 0], width: 34, height: 34 },
        { at: [-120, 0, -2], width: 62, height: 74 },
        { at: [60, 0, -4], width: 66, height: 84 },
        { at: [260, 0, 8], width: 40, height: 46 },
        { at: [1020, 0, 24], width: 16, height: 18 },
      ],
    },
  ],
  cells: [
    ...cellRow(60, 40),
    ...cellRow(60, 40).map((cell) => ({
      ...cell,
      id: `left ${cell.id}`,
      corners: cell.corners.map(([x, y, z]) => [x, -y, z] as const),
    })),
  ],
  masses: [
    { id: 'motor', label: 'motor', at: [-150, 0, 0], mass: '62 g', size: [40, 28, 28] },
    { id: 'battery', label: 'battery', at: [-40, 0, -10], mass: '186 g', size: [110, 40, 38] },
    { id: 'receiver', label: 'receiver', at: [35, 0, 0], mass: '12 g', size: [40, 22, 12] },
    { id: 'converter', label: 'converter (MPPT)', at: [60, 0, 0], mass: '31 g', assumed: true, size: [50, 40, 15] },
    { id: 'servos', label: 'tail servos', at: [330, 0, 10], mass: '18 g', size: [24, 30, 22] },
  ],
  propellers: [{ id: 'propeller', label: 'propeller', at: [-190, 0, 0], diameter: 330 }],
  balance: [92, 0, 5],
  neutral: [131, 0, 5],
  allowed: [74, 110],
};

const days = range(27).map((i) => 1 + i * 14);
const clockHours = range(31).map((i) => 5 + i * 0.5);
const season = (dayOfYear: number): number => -Math.cos((2 * Math.PI * (dayOfYear + 10)) / 365);
export const dateAndHour: WhereWhenData = {
  figure: { label: 'solar ratio', unit: '', decimals: 2 },
  x: { label: 'date', unit: '', kind: 'day of year', values: days },
  y: { label: 'hour (UTC+2)', unit: '', kind: 'hour', values: clockHours },
  values: clockHours.flatMap((hour) =>
    days.map((dayOfYear) => {
      const half = 5.6 + 1.9 * season(dayOfYear);
      const off = (hour - 13.9) / half;
      return Math.abs(off) > 1 ? 0 : (1.25 + 0.6 * season(dayOfYear)) * Math.cos((Math.PI / 2) * off) ** 1.3;
    }),
  ),
  here: { x: 172, y: 11.25, label: 'this day, 11:15' },
};

const latitudes = range(17).map((i) => -60 + i * 7.5);
export const latitudeAndDate: WhereWhenData = {
  figure: { label: 'hours carried', unit: 'h', decimals: 1 },
  x: { label: 'date', unit: '', kind: 'day of year', values: days },
  y: { label: 'latitude', unit: '°', kind: 'latitude', values: latitudes },
  threshold: 4,
  words: { above: 'long enough', below: 'too short' },
  values: latitudes.flatMap((latitude) =>
    days.map((dayOfYear) =>
      Math.max(0, 7.5 * Math.cos(((latitude - 23 * season(dayOfYear)) * Math.PI) / 180) ** 1.2 || 0),
    ),
  ),
};

export const ledger: LedgerData = {
  when: 'clear, 13:50',
  power: watts,
  rows: [
    { id: 'incidence', label: 'reflected by oblique incidence', value: 7.4, group: 'light' },
    { id: 'cover', label: 'film, tabs and dust', value: 21.3, group: 'light' },
    { id: 'conversion', label: 'not turned into electricity by the cells (at 25 degC)', value: 301.2, group: 'cells' },
    { id: 'heat', label: 'cells warmer than 25 degC', value: 6.1, group: 'cells' },
    { id: 'mismatch', label: 'cells of one string in unequal light', value: 0.4, group: 'cells' },
    { id: 'wires', label: 'tabs, wires and connectors of the strings', value: 0.9, group: 'cells' },
    { id: 'tracking', label: 'not found by the tracker', value: 0.8, group: 'converter' },
    { id: 'converter', label: 'heat and stand-by of the converters', value: 3.9, group: 'converter' },
    { id: 'loads', label: 'loads (receiver, autopilot, payload ...)', value: 4.2, group: 'loads' },
    { id: 'air', label: 'turbulence, control activity and height hold', value: 5.1, group: 'drive' },
    { id: 'motor', label: 'motor', value: 7.3, group: 'drive' },
    { id: 'propeller', label: 'propeller', value: 9.2, group: 'drive' },
    { id: 'profile', label: 'profile drag of wing and tail', value: 8.9, group: 'air' },
    { id: 'induced', label: 'induced drag', value: 6.2, group: 'air' },
    {
      id: 'battery',
      label: 'left over for the battery',
      value: 30.4,
      group: 'battery',
      note: 'below zero: the battery adds',
    },
    { id: 'speed', label: 'airspeed above that of least power', value: 2.1, group: 'drive', partOf: 'drive' },
  ],
};

export const shares: SharesData = {
  of: 'solar ratio at its best, clear sky',
  rows: [
    {
      id: 'drag',
      label: 'drag of fuselage, gaps and fittings',
      share: 0.41,
      remedy: 'Measure: a glide or the power in level flight.',
    },
    {
      id: 'cells',
      label: 'efficiency of the cells',
      share: 0.28,
      remedy: 'Measure: one reading of the array in the sun.',
    },
    { id: 'turbidity', label: 'haze of the air', share: 0.17 },
    { id: 'propeller', label: 'propeller efficiency', share: 0.11, measured: true },
    { id: 'mass', label: 'mass', share: 0.0004, measured: true },
  ],
};

export const compare: CompareData = {
  question: 'Which of the two needs less power?',
  x: airspeed,
  y: { ...watts, label: 'level power' },
  a: {
    name: 'Alondra',
    curves: [
      { id: 'level power', label: 'level power', points: speeds.map((v): Point => [v, 0.03 * v ** 3 + 105 / v + 4.2]) },
    ],
  },
  b: {
    name: 'with winglets',
    curves: [
      { id: 'level power', label: 'level power', points: speeds.map((v): Point => [v, 0.031 * v ** 3 + 92 / v + 4.2]) },
    ],
  },
};

export const intervals: IntervalData = {
  measure: { label: 'endurance', unit: 'h', decimals: 1 },
  rows: [
    { id: 'clear', label: 'clear', value: 9.2, span: [7.4, 11.5] },
    { id: 'thin', label: 'thin cloud', value: 6.1, span: [4.9, 7.8], measured: true },
    { id: 'broken', label: 'broken', value: 2.6, span: [2.2, 3.1] },
  ],
  limit: { value: 5.75, label: 'as planned' },
};

export const spark: SparkData = {
  measure: { label: 'level power', unit: 'W' },
  label: 'level power over the last edits',
  points: [52, 49, 50, 46, 45, 43.1].map((value, i): Point => [i, value]),
  limit: 45,
};

export const firstFlight: FirstFlightData = {
  aircraft: 'Alondra',
  place: '40.7° N 0.9° E',
  date: '21 June',
  configuration: 'configuration 3, 1210 g',
  balance: beam,
  balanceWords:
    'Balance 92 mm aft of the leading edge at the root (74 mm to 110 mm allowed, 37.7 % of the mean chord). Weigh and correct before the flight.',
  speeds: [
    { label: 'stall', value: '6.4 m/s', note: 'straight flight' },
    { label: 'least power', value: '7.6 m/s', note: '40.2 W' },
    { label: 'flown', value: '8.4 m/s', note: '43.1 W' },
    { label: 'best range', value: '10.1 m/s', note: '53 W' },
    { label: 'limit', value: '13.8 m/s', note: 'wing torsion, lower edge of its band' },
  ],
  throttle: { label: 'throttle in level flight', value: '41 %', note: 'at 8.4 m/s, battery half full', assumed: true },
  wind: { label: 'wind, most', value: '5 m/s', note: '18 km/h, 3 Bft at 10 m' },
  endurance: { label: 'endurance with reserve', value: '4 h 10 min', note: 'without sun 58 min' },
  sun: [
    { label: 'clear', value: '09:50 to 17:40', note: 'about 9 in 10' },
    { label: 'thin cloud', value: '10:54 to 16:36', note: 'about 7 in 10' },
    { label: 'broken', value: 'not carried' },
  ],
  assumed: [
    'mass of the cells, laminated and tabbed',
    'efficiency of the speed controller (ESC)',
    'drag of gaps and fittings',
    'motor resistance',
  ],
  cautions: [
    'the propeller starts without warning when the battery is connected',
    'cells in the sun cannot be switched off',
    'first flight in calm air, over soft ground',
  ],
  footer: 'noonwing, printed 20 June',
};

export const wiring: WiringData = {
  aircraft: 'Alondra <test>',
  strings: [
    {
      name: 'left',
      cells: 8,
      parallel: 1,
      cellsPerDiode: 4,
      rows: 'top',
      electric: '5.9 A, up to 6.0 V',
      wire: 'AWG 18, 0.9 m, 0.3 W lost',
      connector: 'two-pole 3.5 mm plug, 30 A',
      converter: 0,
    },
    {
      name: 'right & long',
      cells: 32,
      parallel: 3,
      cellsPerDiode: 0,
      rows: 'top, tail',
      electric: '17.7 A, up to 23 V',
      wire: 'AWG 14, 0.9 m, 0.9 W lost',
      connector: 'two-pole 3.5 mm plug, 30 A',
      fuse: '10 A',
      converter: 0,
    },
  ],
  converters: [{ name: 'tracker', kind: 'boost', electric: '6 A', wire: 'AWG 18, 0.2 m', fuse: '10 A' }],
  battery: '4S battery, 12 to 17 V',
  finding: 'Two strings on one converter; 1.2 W lost in the wires.',
  order: ['cover the cells', 'battery first'],
  cautions: ['An array in light is always live.'],
};
