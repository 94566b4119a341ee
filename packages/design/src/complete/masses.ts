import type { AircraftDesign, MassDesign } from '../aircraft.js';
import type { Valued } from '../schema/field.js';
import { surfaceArea } from './airframe.js';
import { type Log, withSpread } from './assumptions.js';
import { joinerMasses } from './joiners.js';
import type {
  CompleteArray,
  CompleteBattery,
  CompleteBody,
  CompleteDrive,
  CompleteMass,
  CompleteSurface,
  Construction,
  MassGroup,
  MassPlace,
} from './types.js';
import { wireMasses } from './wires.js';

const ZERO: Valued = { value: 0, source: 'stated' };

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

/** Names in `masses` that stand for a part described elsewhere, so that it is not counted twice. */
const PART_NAMES: readonly (readonly [MassGroup, RegExp])[] = [
  ['battery', /^battery( pack)?$/],
  ['motor', /^motors?$/],
  ['propeller', /^propellers?$/],
  ['speed controller', /^(speed controllers?( \(esc\))?|esc)$/],
  ['converter', /^(converters?( \(mppt\))?|mppt)$/],
  ['cells', /^(solar )?cells$/],
  ['lamination', /^(lamination|film( over the cells)?)$/],
  ['wiring', /^(array )?(wiring|wires)$/],
  ['joiner', /joiner/],
  ['radio and servos', /receiver|servo|autopilot|radio/],
  ['glue, wire and paint', /^glue/],
];

export const massGroupOf = (name: string): MassGroup | undefined =>
  PART_NAMES.find(([, pattern]) => pattern.test(name.toLowerCase().trim()))?.[0];

interface Parts {
  readonly log: Log;
  readonly design: AircraftDesign;
  readonly surfaces: readonly CompleteSurface[];
  readonly bodies: readonly CompleteBody[];
  readonly battery: CompleteBattery | undefined;
  readonly drive: CompleteDrive | undefined;
  readonly array: CompleteArray | undefined;
  readonly sizeMass: number;
}

function placeOf(log: Log, name: string, item: MassDesign): MassPlace {
  const { x, y, z, on } = item as MassDesign & { on?: string; x?: Valued; y?: Valued; z?: Valued };
  if (x !== undefined) return { x, y: y ?? ZERO, z: z ?? ZERO };
  if (on !== undefined) return { on };
  log.push({
    path: `masses.${name}.x`,
    what: 'choice',
    kind: 'choice',
    value: 'spread over the aircraft',
    why: 'no place stated: it leaves the balance point where it is',
  });
  return { everywhere: true };
}

function stated(parts: Parts): readonly CompleteMass[] {
  return Object.entries(parts.design.masses ?? {}).map(([name, item]) => {
    const weighed = item.mass.source === 'measured';
    const usual = weighed ? { share: 0.005, fixed: 0.0005 } : { share: 0.05, fixed: 0.001 };
    return {
      name,
      group: item.ballast === true ? 'ballast' : (massGroupOf(name) ?? 'part'),
      mass: withSpread(
        parts.log,
        `masses.${name}.mass`,
        'mass',
        item.mass,
        usual,
        weighed ? 'kitchen scale' : 'not weighed',
      ),
      count: item.pair === true ? 2 : 1,
      place: placeOf(parts.log, name, item),
      weighed,
    };
  });
}

interface Estimate {
  readonly path: string;
  readonly name: string;
  readonly group: MassGroup;
  readonly value: number;
  readonly sigma: number;
  readonly place: MassPlace;
  readonly why: string;
}

function assumed(log: Log, estimate: Estimate): CompleteMass {
  const { path, value, sigma, why } = estimate;
  log.push({ path, what: 'value', kind: 'mass', value, uncertainty: sigma, why });
  return {
    name: estimate.name,
    group: estimate.group,
    mass: { value, sigma, source: 'assumed' },
    count: 1,
    place: estimate.place,
    weighed: false,
  };
}

/** Surfaces and bodies on which no stated mass lies get the usual mass of their construction. */
function structure(parts: Parts): readonly CompleteMass[] {
  const covered = new Set(
    Object.values(parts.design.masses ?? {}).flatMap((item) => (item.on === undefined ? [] : [item.on])),
  );
  const byName = new Set(Object.keys(parts.design.masses ?? {}));
  const open = (name: string) => !covered.has(name) && !byName.has(name);
  const surfaces = parts.surfaces
    .filter((surface) => open(surface.name))
    .map((surface) => {
      const [areal, spread] = AREAL_MASS[surface.construction];
      const share = surface.role === 'wing' ? 1 : TAIL_SHARE;
      const area = surfaceArea(surface);
      return assumed(parts.log, {
        path: `masses.${surface.name}`,
        name: surface.name,
        group: 'surface',
        value: areal * share * area,
        sigma: spread * share * area,
        place: { on: surface.name },
        why: `usual for a ${surface.construction} ${surface.role} of this area`,
      });
    });
  const bodies = parts.bodies
    .filter((body) => open(body.name))
    .map((body) => {
      const outside = (Math.PI / 2) * (body.width.value + body.height.value) * body.length.value * (body.pair ? 2 : 1);
      return assumed(parts.log, {
        path: `masses.${body.name}`,
        name: body.name,
        group: 'body',
        value: BODY_AREAL_MASS[0] * outside,
        sigma: BODY_AREAL_MASS[1] * outside,
        place: { on: body.name },
        why: 'usual for its outside area',
      });
    });
  return [...surfaces, ...bodies];
}

/** A bought part: its mass is a fact with its own scatter and does not grow while the aircraft is built. */
const known = (name: string, group: MassGroup, mass: Valued, place: MassPlace): CompleteMass => ({
  name,
  group,
  mass,
  count: 1,
  place,
  weighed: mass.source !== 'assumed' && group !== 'glue, wire and paint',
});

const times = (mass: Valued, count: number): Valued => ({
  value: mass.value * count,
  ...(mass.sigma === undefined ? {} : { sigma: mass.sigma * count }),
  source: mass.source,
});

function propulsion(parts: Parts): readonly CompleteMass[] {
  const { drive, battery } = parts;
  const masses: CompleteMass[] = [];
  if (battery !== undefined)
    masses.push(known('battery', 'battery', battery.mass, { x: battery.x, y: battery.y, z: battery.z }));
  if (drive === undefined) return masses;
  const { motor, propeller, speedController } = drive;
  const place = { x: motor.x, y: motor.y, z: motor.z };
  masses.push(known('motor', 'motor', times(motor.mass, motor.count), place));
  masses.push(known('propeller', 'propeller', times(propeller.mass, motor.count), place));
  const grams = 0.0008 * speedController.currentLimit.value + 0.006;
  const behind = { ...place, x: { ...motor.x, value: motor.x.value + 0.06 } };
  masses.push(
    assumed(parts.log, {
      path: 'masses.speed controller',
      name: 'speed controller',
      group: 'speed controller',
      value: grams * motor.count,
      sigma: 0.3 * grams * motor.count,
      place: behind,
      why: '0.8 g per ampere and its leads, common practice',
    }),
  );
  return masses;
}

function cells(parts: Parts): readonly CompleteMass[] {
  const { array, log } = parts;
  if (array === undefined) return [];
  const rows = array.rows.flatMap((row) => {
    const whole = row.cells / row.pieces;
    const area = whole * array.cell.area.value;
    return [
      known(`cells of ${row.name}`, 'cells', times(array.cell.mass, whole), { row: row.name }),
      known(`film over ${row.name}`, 'lamination', times(array.laminationArealMass, area), { row: row.name }),
    ];
  });
  const converters = array.converters.map((converter) =>
    known(`converter ${converter.name}`, 'converter', converter.mass, { everywhere: true }),
  );
  const grams = 0.01 + 0.006 * array.strings.length;
  const wires = assumed(log, {
    path: 'masses.wiring',
    name: 'wiring',
    group: 'wiring',
    value: grams,
    sigma: 0.4 * grams,
    place: { everywhere: true },
    why: 'leads of the strings and their connectors',
  });
  return [...rows, ...converters, wires];
}

function rest(parts: Parts, airframe: number): readonly CompleteMass[] {
  const { design, log, sizeMass } = parts;
  const radio = 0.02 + 0.03 * sizeMass;
  const glue = design.glueWireAndPaint;
  return [
    assumed(log, {
      path: 'masses.radio and servos',
      name: 'radio and servos',
      group: 'radio and servos',
      value: radio,
      sigma: 0.4 * radio,
      place: { everywhere: true },
      why: 'receiver and servos usual for this size',
    }),
    glue === undefined
      ? assumed(log, {
          path: 'glue wire and paint',
          name: 'glue, wire and paint',
          group: 'glue, wire and paint',
          value: 0.04 * airframe,
          sigma: 0.025 * airframe,
          place: { everywhere: true },
          why: '4 % of the airframe, common practice',
        })
      : known(
          'glue, wire and paint',
          'glue, wire and paint',
          withSpread(log, 'glue wire and paint', 'mass', glue, { share: 0.3 }, 'not weighed'),
          { everywhere: true },
        ),
  ];
}

/**
 * Every mass of the aircraft: what is stated, the parts described elsewhere, and an estimate for what is missing.
 * A stated mass named after a part (motor, battery, cells ...) takes the place of that part's own line.
 */
export function completeMasses(parts: Parts): readonly CompleteMass[] {
  const given = stated(parts);
  const replaced = new Set(given.map((item) => item.group));
  const bare: Log = [];
  const frame = parts.surfaces.length === 0 ? [] : structure(parts);
  const others = [...propulsion({ ...parts, log: bare }), ...cells({ ...parts, log: bare })];
  const airframe = [...given, ...frame]
    .filter((item) => item.group === 'part' || item.group === 'surface' || item.group === 'body')
    .reduce((sum, item) => sum + item.mass.value * item.count, 0);
  const remaining = parts.surfaces.length === 0 ? [] : rest({ ...parts, log: bare }, airframe);
  const kept = [...others, ...remaining].filter((item) => !replaced.has(item.group));
  const names = new Set(kept.map((item) => item.name));
  parts.log.push(
    ...bare.filter(
      (entry) =>
        names.has(entry.path.replace(/^masses\./, '')) ||
        (entry.path === 'glue wire and paint' && names.has('glue, wire and paint')),
    ),
  );
  const joiners = replaced.has('joiner') ? [] : joinerMasses(parts.log, parts.design, parts.surfaces);
  return [...given, ...frame, ...joiners, ...wireMasses(parts.surfaces), ...kept];
}
