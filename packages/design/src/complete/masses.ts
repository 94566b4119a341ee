import type { AircraftDesign, BatteryDesign, DriveDesign, MassDesign, SurfaceDesign } from '../aircraft.js';
import type { ArrayDesign } from '../array-fields.js';
import type { Valued } from '../schema/field.js';
import { type Bodies, type Surfaces, surfaceArea } from './airframe.js';
import { type Log, withSpread } from './assumptions.js';
import type { Construction } from './types.js';

type Masses = NonNullable<AircraftDesign['masses']>;

/** Areal mass of bare surfaces without cells [kg/m2, its standard uncertainty], common practice, no source. */
const AREAL_MASS: Readonly<Record<Construction, readonly [number, number]>> = {
  'built-up': [0.6, 0.15],
  foam: [0.8, 0.2],
  'foam sheet': [0.4, 0.12],
  moulded: [0.95, 0.25],
};
/** Tails are built lighter than wings, common practice. */
const TAIL_SHARE = 0.6;
/** Skin of pods and booms on their outside [kg/m2], common practice. */
const BODY_AREAL_MASS: readonly [number, number] = [0.8, 0.3];

/** A line under `masses` that is the mass of a part described elsewhere in the file. */
export type PartLine = 'battery' | 'motor' | 'propeller' | 'converter' | 'cells' | 'lamination';

const PART_LINES: readonly (readonly [PartLine, RegExp])[] = [
  ['battery', /^battery( pack)?$/],
  ['motor', /^motors?$/],
  ['propeller', /^propellers?$/],
  ['converter', /^(converters?( \(mppt\))?|mppt)$/],
  ['cells', /^(solar )?cells$/],
  ['lamination', /^(lamination|film( over the cells)?)$/],
];

/** Which part a line under `masses` is, by its name; undefined for a part of its own. */
export const partLine = (name: string): PartLine | undefined =>
  PART_LINES.find(([, pattern]) => pattern.test(name.toLowerCase().trim()))?.[0];

const shared = (mass: Valued, among: number): Valued => ({
  value: mass.value / among,
  ...(mass.sigma === undefined ? {} : { sigma: mass.sigma / among }),
  source: mass.source,
});

const cellCount = (array: ArrayDesign): number =>
  Object.values(array.rows).reduce((sum, row) => sum + row.cells.value, 0);

type Powertrain = Pick<AircraftDesign, 'battery' | 'drive' | 'array'>;

type WithPlace = { readonly x?: Valued | undefined; readonly y?: Valued | undefined; readonly z?: Valued | undefined };
const place = (line: MassDesign, part: WithPlace): WithPlace => ({
  x: part.x ?? line.x,
  y: part.y ?? line.y,
  z: part.z ?? line.z,
});

function arrayWith(array: ArrayDesign, line: PartLine, mass: Valued): ArrayDesign {
  const cells = Math.max(1, cellCount(array));
  if (line === 'cells') return { ...array, cell: { ...array.cell, mass: shared(mass, cells) } };
  if (line === 'lamination') {
    const area = cells * (array.cell?.area?.value ?? 0.0153);
    return { ...array, lamination: { ...array.lamination, arealMass: shared(mass, area) } };
  }
  const names = [...new Set(Object.values(array.strings ?? {}).map((string) => string.converter))].filter(
    (name) => name !== undefined,
  );
  const known = Object.keys(array.converters ?? {});
  const all = known.length > 0 ? known : names.length > 0 ? names : ['all'];
  const entries = all.map((name) => [name, { ...array.converters?.[name], mass: shared(mass, all.length) }] as const);
  return { ...array, converters: Object.fromEntries(entries) };
}

/**
 * Lines under `masses` that weigh the battery, motor, propeller, cells, film or converters become the mass of that part,
 * so that nothing is counted twice. A mass that the part states itself stays; then the line is left out.
 */
export function partsWithMasses(parts: Powertrain, masses: Masses): Powertrain & { readonly masses: Masses } {
  let { battery, drive, array } = parts;
  const rest: [string, MassDesign][] = [];
  for (const [name, line] of Object.entries(masses)) {
    const part = partLine(name);
    if (part === 'battery' && battery !== undefined && battery !== 'none') {
      const pack: BatteryDesign = battery;
      battery = { ...pack, ...place(line, pack), mass: pack.mass ?? line.mass };
    } else if (part === 'motor' && drive !== undefined) {
      const motor = drive.motor ?? {};
      const count = motor.count?.value ?? 1;
      drive = { ...drive, motor: { ...motor, ...place(line, motor), mass: motor.mass ?? shared(line.mass, count) } };
    } else if (part === 'propeller' && drive !== undefined) {
      const count: number = (drive as DriveDesign).motor?.count?.value ?? 1;
      drive = { ...drive, propeller: { ...drive.propeller, mass: drive.propeller?.mass ?? shared(line.mass, count) } };
    } else if (
      (part === 'cells' || part === 'lamination' || part === 'converter') &&
      array !== undefined &&
      array !== 'none'
    ) {
      array = arrayWith(array, part, line.mass);
    } else {
      rest.push([name, line]);
    }
  }
  return { battery, drive, array, masses: Object.fromEntries(rest) };
}

interface Estimate {
  readonly name: string;
  readonly value: number;
  readonly sigma: number;
  readonly place: Partial<MassDesign>;
  readonly why: string;
}

function assumed(log: Log, estimate: Estimate): readonly [string, MassDesign] {
  const { name, value, sigma, why } = estimate;
  log.push({ path: `masses.${name}`, what: 'value', kind: 'mass', value, uncertainty: sigma, why });
  return [name, { mass: { value, sigma, source: 'assumed' }, ...estimate.place }];
}

function surfaceMass(log: Log, name: string, surface: SurfaceDesign) {
  const construction = surface.construction ?? 'built-up';
  const role = surface.role ?? 'wing';
  const [areal, spread] = AREAL_MASS[construction];
  const area = surfaceArea(surface) * (role === 'wing' ? 1 : TAIL_SHARE);
  const why = `usual for a ${construction} ${role} of this area`;
  return assumed(log, { name, value: areal * area, sigma: spread * area, place: { on: name }, why });
}

/** Surfaces and bodies on which no stated mass lies get the usual mass of their construction. */
function structure(
  log: Log,
  masses: Masses,
  surfaces: Surfaces,
  bodies: Bodies,
): readonly (readonly [string, MassDesign])[] {
  const covered = new Set(
    Object.entries(masses).flatMap(([name, line]) => (line.on === undefined ? [name] : [name, line.on])),
  );
  const open = ([name]: readonly [string, unknown]) => !covered.has(name);
  const ofBodies = Object.entries(bodies)
    .filter(open)
    .map(([name, body]) => {
      const girth = (Math.PI / 2) * ((body.width?.value ?? 0) + (body.height?.value ?? 0));
      const outside = girth * body.length.value;
      const [areal, spread] = BODY_AREAL_MASS;
      const line = { name, value: areal * outside, sigma: spread * outside, why: 'usual for its outside area' };
      // A pair lies on both sides, so that its common centre is in the middle.
      return assumed(log, {
        ...line,
        value: line.value * (body.pair ? 2 : 1),
        sigma: line.sigma * (body.pair ? 2 : 1),
        place: { on: name },
      });
    });
  return [
    ...Object.entries(surfaces)
      .filter(open)
      .map(([name, surface]) => surfaceMass(log, name, surface)),
    ...ofBodies,
  ];
}

function stated(log: Log, masses: Masses, home: string | undefined): readonly (readonly [string, MassDesign])[] {
  return Object.entries(masses).map(([name, line]) => {
    const weighed = line.mass.source === 'measured';
    const usual = weighed ? { share: 0.005, fixed: 0.0005 } : { share: 0.05, fixed: 0.001 };
    const mass = withSpread(
      log,
      `masses.${name}.mass`,
      'mass',
      line.mass,
      usual,
      weighed ? 'kitchen scale' : 'not weighed',
    );
    if (line.x !== undefined || line.on !== undefined || home === undefined) return [name, { ...line, mass }];
    log.push({ path: `masses.${name}.x`, what: 'choice', kind: 'choice', value: `on ${home}`, why: 'no place stated' });
    return [name, { ...line, mass, on: home }];
  });
}

/** What every aircraft carries and few lists name: speed controller, radio and servos, leads of the strings. */
function equipment(
  log: Log,
  given: Masses,
  parts: Powertrain,
  context: { sizeMass: number; home: string },
): readonly (readonly [string, MassDesign])[] {
  const has = (pattern: RegExp) => Object.keys(given).some((name) => pattern.test(name.toLowerCase()));
  const lines: (readonly [string, MassDesign])[] = [];
  const { drive, array } = parts;
  if (drive?.motor !== undefined && !has(/speed controller|\besc\b/)) {
    const value =
      (0.0008 * (drive.speedController?.currentLimit?.value ?? 15) + 0.006) * (drive.motor.count?.value ?? 1);
    const x: Valued = { value: (drive.motor.x?.value ?? 0) + 0.06, sigma: 0.03, source: 'assumed' };
    lines.push(
      assumed(log, {
        name: 'speed controller',
        value,
        sigma: 0.3 * value,
        place: { x },
        why: '0.8 g per ampere and its leads, common practice',
      }),
    );
  }
  if (!has(/receiver|servo|autopilot|radio/)) {
    const value = 0.02 + 0.03 * context.sizeMass;
    lines.push(
      assumed(log, {
        name: 'radio and servos',
        value,
        sigma: 0.4 * value,
        place: { on: context.home },
        why: 'receiver and servos usual for this size',
      }),
    );
  }
  if (array !== undefined && array !== 'none' && !has(/wiring|wires|leads/)) {
    const value = 0.01 + 0.006 * Object.keys(array.strings ?? {}).length;
    lines.push(
      assumed(log, {
        name: 'wiring',
        value,
        sigma: 0.4 * value,
        place: { on: context.home },
        why: 'leads of the strings and their connectors',
      }),
    );
  }
  return lines;
}

/** The largest surface: what has no place of its own is taken to lie on it. */
function homeOf(surfaces: Surfaces): string | undefined {
  const areas = Object.entries(surfaces).map(([name, surface]) => [name, surfaceArea(surface)] as const);
  return areas.sort((a, b) => b[1] - a[1])[0]?.[0];
}

/** Masses with a place and an uncertainty each, and an estimate for what is missing. */
export function completeMasses(
  log: Log,
  given: Masses,
  parts: Powertrain,
  frame: { surfaces: Surfaces; bodies: Bodies; sizeMass: number },
): Masses {
  const home = homeOf(frame.surfaces);
  const lines = stated(log, given, home);
  if (home === undefined) return Object.fromEntries(lines);
  const built = structure(log, given, frame.surfaces, frame.bodies);
  return Object.fromEntries([...lines, ...built, ...equipment(log, given, parts, { sizeMass: frame.sizeMass, home })]);
}

/** Glue, wire and paint where they are not stated: 4 % of what is built, common practice. */
export function usualGlue(masses: Masses): { readonly value: number; readonly sigma: number } {
  const built = Object.values(masses).reduce((sum, line) => sum + line.mass.value * (line.pair ? 2 : 1), 0);
  return { value: 0.04 * built, sigma: 0.025 * built };
}
