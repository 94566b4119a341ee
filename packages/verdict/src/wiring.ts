import type { CompletePlan } from '@noonwing/design';
import type { Warning } from '@noonwing/engine';
import {
  cellAt,
  compassDeviation,
  gaugeArea,
  maximumPowerPoint,
  mostCellsPerDiode,
  openCircuitVoltage,
  pairClearance,
  shortCircuitCurrent,
  type WirePiece,
  wire,
  wireField,
} from '@noonwing/engine/array';
import type { AircraftModel } from './aircraft.js';
import { benchSetup } from './bench.js';

type Point = readonly [x: number, y: number, z: number];

/** A run of two wires with what is joined to it. */
export interface WiringRun {
  readonly name: string;
  /** One way [m]. */
  readonly length: number;
  readonly gauge: number;
  /** Greatest, in full sun on cells at 25 degC [A], and highest voltage, cold [V]. */
  readonly current: number;
  readonly voltage: number;
  /** Of the loop [ohm], heat in full sun [W] and as a share of the power, copper and insulation [kg]. */
  readonly resistance: number;
  readonly loss: number;
  readonly lossShare: number;
  readonly mass: number;
  readonly connector: string;
  /** Rating [A]; absent where a fuse can not help. */
  readonly fuse?: number;
  readonly fuseWhy: string;
}

/** A string with its cells, diodes and run to the converter. */
export interface WiredString extends WiringRun {
  readonly rows: readonly string[];
  readonly cells: number;
  readonly parallel: number;
  /** Cells between one diode and the next; 0 for none. */
  readonly cellsPerDiode: number;
  readonly converter: string;
}

/** What the wires do to the compass. */
export interface CompassEffect {
  /** Part that carries the compass. */
  readonly where: string;
  /** Flux density with out and return side by side, 10 mm apart [T], and the deviation [rad]. */
  readonly paired: number;
  readonly pairedDeviation: number;
  /** The same with the return 100 mm away, as a loop. */
  readonly apart: number;
  readonly apartDeviation: number;
  /** From the pairs, where they turn it by no more than `allowedDeviation` [m]. */
  readonly clearance: number;
}

/** Deviation of a compass that hardly any flight notices [rad] (judgement). */
export const allowedDeviation = (2 * Math.PI) / 180;

/** Wiring of an array: strings, runs, fuses, connectors, compass, order of connection. */
export interface WiringPlan {
  readonly strings: readonly WiredString[];
  readonly outputs: readonly (WiringRun & { readonly topology: string })[];
  readonly compass: readonly CompassEffect[];
  readonly order: readonly string[];
  readonly cautions: readonly string[];
  readonly warnings: readonly Warning[];
  /** All wires [kg]. */
  readonly mass: number;
}

/** Gauges that builders use, thick to thin. */
const gauges = [10, 12, 14, 16, 18, 20, 22, 24, 26] as const;

/** Current that a gauge bears in open air without growing warm (common practice, no source): 8 A per square millimetre. */
const bearable = (gauge: number): number => gaugeArea(gauge) * 8e6;

/** Level power that a kilogram costs [W/kg], typical of such aircraft: 1.5 times level power over mass (judgement). */
const powerOfMass = 12;

/** Mean heat of a wire over the lit day over that in full sun (judgement: the current varies, its square more). */
const dayShare = 0.4;

/** Slack and bends over the straight way along the axes. */
const slack = 1.1;

const connectorFor = (current: number): string =>
  current > 25
    ? '4 mm bullets, 30 to 60 A'
    : current > 8
      ? 'two-pole 3.5 mm plug, 30 A'
      : current > 3
        ? '2 mm bullets, 15 A'
        : 'crimped pins, 3 A';

/** Blade fuses as sold [A]. */
const fuses = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40];
const fuseAbove = (current: number): number =>
  fuses.find((rating) => rating >= current) ?? Math.ceil(current / 10) * 10;

const way = (from: Point, to: Point): number => slack * from.reduce((sum, at, k) => sum + Math.abs(at - to[k]!), 0);

/** The gauge that bears the current and costs least power, by its heat over the day and by its mass. */
function run(at: { length: number; current: number; power: number }) {
  const spec = { insulationRatio: 0.6, strandingAllowance: 0.03, temperature: 313.15 };
  const tried = [...gauges].reverse().map((gauge) => {
    const made = wire({ area: gaugeArea(gauge), length: at.length, ...spec });
    return { gauge, made, loss: made.resistance * at.current ** 2 };
  });
  const costOf = ({ loss, made }: (typeof tried)[number]) => dayShare * loss + powerOfMass * made.mass;
  const bearing = tried.filter(({ gauge }) => bearable(gauge) >= at.current);
  const { gauge, made, loss } = bearing.reduce((best, one) => (costOf(one) < costOf(best) ? one : best), tried.at(-1)!);
  return {
    gauge,
    loss,
    resistance: made.resistance,
    mass: made.mass,
    lossShare: at.power > 0 ? loss / at.power : 0,
  };
}

/**
 * Wiring plan of a design: what leads where, how thick, with which fuse and plug, and what the compass feels.
 *
 * @returns the plan; undefined where the design has no array. Converters lie at the battery where the design does not say
 */
export function wiringPlan(model: AircraftModel, plan: CompletePlan): WiringPlan | undefined {
  const { array, complete, battery } = model;
  const setup = benchSetup(model, plan);
  const design = complete.array;
  if (array === undefined || design === undefined || setup === undefined) return undefined;
  const pack = complete.battery;
  const home: Point = pack === undefined ? [0, 0, 0] : [pack.x.value, pack.y.value, pack.z.value];
  const cold = plan.nightTemperature.value;
  const strings = setup.units.map((unit, k): WiredString => {
    const stated = design.strings[k]!;
    const ends = array.placed.filter(({ row }) => stated.rows.includes(row)).map(({ centre }) => centre);
    const length = Math.max(0.1, ...ends.map((end) => way(end, home)));
    const sun = cellAt(unit.cell, { irradiance: 1000, temperature: 298.15 });
    const best = maximumPowerPoint(sun);
    const current = best.current * unit.parallel;
    const short = shortCircuitCurrent(sun);
    const voltage = unit.cells * openCircuitVoltage(cellAt(unit.cell, { irradiance: 1300, temperature: cold }));
    const many = unit.parallel >= 3;
    return {
      name: unit.name,
      rows: stated.rows,
      cells: unit.cells,
      parallel: unit.parallel,
      cellsPerDiode: unit.cellsPerDiode,
      converter: stated.converter,
      length,
      current,
      voltage,
      ...run({ length, current, power: unit.cells * unit.parallel * best.power }),
      connector: connectorFor(current),
      ...(many ? { fuse: fuseAbove(1.56 * short) } : {}),
      fuseWhy: many
        ? 'in each string: the others can feed a short in one of them'
        : 'none: the cells cannot give more than the wire bears; fewer than three strings side by side',
    };
  });
  const outputs = design.converters.map(({ name, topology, outputCurrentLimit }) => {
    const served = strings.filter(({ converter }) => converter === name);
    const power = served.reduce((sum, { current, cells }) => sum + current * cells * 0.58, 0);
    const bus = battery.lowestVoltage > 0 ? battery.lowestVoltage : 10;
    const current = Math.min(power / bus, outputCurrentLimit.value);
    return {
      name,
      topology,
      length: 0.2,
      current,
      voltage: battery.highestVoltage > 0 ? battery.highestVoltage : bus,
      ...run({ length: 0.2, current, power }),
      connector: connectorFor(current),
      fuse: fuseAbove(1.35 * current),
      fuseWhy: 'at the battery: it feeds a short in converter or wire',
    };
  });
  const runs = [...strings, ...outputs];
  return {
    strings,
    outputs,
    compass: compassEffects(model, strings, home),
    order: connectionOrder(pack !== undefined),
    cautions: wiringCautions,
    warnings: wiringWarnings(setup.units, strings, cold),
    mass: runs.reduce((sum, { mass }) => sum + mass, 0),
  };
}

/** Field of the runs at everything that may hold a compass: with wires as pairs, and as loops. */
function compassEffects(model: AircraftModel, strings: readonly WiredString[], home: Point): readonly CompassEffect[] {
  const holders = model.masses.items.filter(({ name }) => /compass|magnet|gps|gnss|autopilot/i.test(name));
  const placed = model.array?.placed ?? [];
  return holders.map(({ name, x, y, z }) => {
    // One circuit a string, by way of its farthest row: its rows are in series and pass the same current on.
    const piecesAt = (spacing: number) =>
      strings.flatMap((string) => {
        const ends = placed.filter(({ row }) => string.rows.includes(row)).map(({ centre }) => centre);
        const [farthest] = ends.sort((a, b) => way(b, home) - way(a, home));
        return farthest === undefined ? [] : loop(farthest, home, string.current, spacing);
      });
    const seat = seatAbove([x, y, z], piecesAt(pairSpacing));
    const field = (spacing: number): number => {
      const [bx, by] = wireField(piecesAt(spacing), seat);
      return Math.hypot(bx, by);
    };
    const [paired, apart] = [field(pairSpacing), field(0.1)];
    const together = strings.reduce((sum, { current }) => sum + current, 0);
    return {
      where: name,
      paired,
      pairedDeviation: compassDeviation(paired, earthField),
      apart,
      apartDeviation: compassDeviation(apart, earthField),
      clearance: pairClearance(together, pairSpacing, allowedDeviation, earthField),
    };
  });
}

/** Between out and return where they run side by side [m]. */
const pairSpacing = 0.01;

/** No wire comes nearer to a compass than its case and mount allow [m] (judgement). */
const nearestWire = 0.04;

/** Place of a compass, raised until no wire is too near: a part whose place is rough may lie on the run as drawn, its compass does not. */
function seatAbove(part: Point, wires: readonly WirePiece[]): Point {
  const [x, y, z] = part;
  const step = 0.002;
  for (let raised = 0; raised < 0.2; raised += step) {
    const seat: Point = [x, y, z + raised];
    if (wires.every((wire) => distanceTo(wire, seat) >= nearestWire)) return seat;
  }
  return part;
}

/** Distance of a point from a straight piece of wire [m]. */
function distanceTo({ from, to }: Pick<WirePiece, 'from' | 'to'>, point: Point): number {
  const along = to.map((end, i) => end - from[i]!);
  const square = along.reduce((sum, part) => sum + part * part, 0);
  const share = along.reduce((sum, part, i) => sum + part * (point[i]! - from[i]!), 0) / Math.max(square, 1e-12);
  const held = Math.min(1, Math.max(0, share));
  return Math.hypot(...along.map((part, i) => from[i]! + held * part - point[i]!));
}

/** Horizontal field of the earth in the middle latitudes [T] (from memory). */
const earthField = 2.4e-5;

/** Out along the span and then along the fuselage, back the same way so far below it. */
function loop(from: Point, home: Point, current: number, spacing: number): readonly WirePiece[] {
  const corner: Point = [from[0], home[1], from[2]];
  const lifted = ([x, y, z]: Point): Point => [x + spacing, y, z];
  const lowered = ([x, y, z]: Point): Point => [x, y, z - spacing];
  return [
    { from: [...from], to: [...corner], current },
    { from: [...corner], to: [...home], current },
    { from: [...lowered(home)], to: [...lowered(corner)], current },
    { from: [...lifted(corner)], to: [...lifted(from)], current },
  ];
}

const connectionOrder = (hasBattery: boolean): readonly string[] => [
  'propeller off',
  'cells covered, isolator between array and converter open',
  ...(hasBattery ? ['battery to the converter first, through its fuse: the converter needs to know its voltage'] : []),
  'array to the isolator, polarity checked with a meter in dim light',
  'cover off, then the isolator closed',
  ...(hasBattery
    ? ['taking apart: isolator open or cells covered first, the battery last']
    : ['taking apart: cells covered first']),
];

const wiringCautions: readonly string[] = [
  'An array in light is always live; no switch makes it dead, only a cover.',
  'The motor may start whenever battery or array is joined: propeller off, or the model held.',
  'Never unplug the battery while the converter works in the sun: its output may rise beyond what receiver and servos bear.',
  'Out and return side by side or twisted, away from compass and antennas.',
];

function wiringWarnings(
  units: NonNullable<ReturnType<typeof benchSetup>>['units'],
  strings: readonly WiredString[],
  coldest: number,
): readonly Warning[] {
  return units.flatMap((unit, k) => {
    const found: Warning[] = [];
    const where = `array.strings.${unit.name}`;
    const most = mostCellsPerDiode(unit.cell, coldest);
    if (unit.cellsPerDiode > 0 && most !== undefined && unit.cellsPerDiode > most) {
      found.push({
        code: 'diode-span',
        where,
        message: `a diode over ${unit.cellsPerDiode} cells does not help: a shaded cell breaks down first; ${most} cells are the most`,
      });
    }
    const rating = unit.converter.limits.maximumInputVoltage;
    if (rating !== undefined && strings[k]!.voltage > rating) {
      found.push({
        code: 'string-above-input-rating',
        where,
        message: `in a cloud-edge burst on cold cells the string reaches ${strings[k]!.voltage.toFixed(1)} V, the input of the converter bears ${rating.toFixed(1)} V`,
      });
    }
    return found;
  });
}
