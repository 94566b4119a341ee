import type { AircraftDesign, BodyDesign, SectionDesign, StationDesign, SurfaceDesign } from '../aircraft.js';
import type { Valued } from '../schema/field.js';
import { type Log, orChoice, orDefault } from './assumptions.js';
import type { Role } from './types.js';

const EXACT_ZERO: Valued = { value: 0, source: 'stated' };
const exactly = (value: number): Valued => ({ value, source: 'stated' });

/** Role from the name where it is not stated: fins and tails are usually called so. */
function roleOf(log: Log, name: string, surface: SurfaceDesign): Role {
  const word = name.toLowerCase();
  const guess: Role = /fin|rudder|vertical|winglet/.test(word)
    ? 'fin'
    : /tail|stab|elevator|horizontal/.test(word)
      ? 'tailplane'
      : /canard|foreplane/.test(word)
        ? 'foreplane'
        : 'wing';
  return orChoice(log, `surfaces.${name}.role`, surface.role, guess, 'taken from its name');
}

type PlateDesign = NonNullable<SectionDesign['plate']>;

function completePlate(log: Log, path: string, plate: PlateDesign): PlateDesign {
  const thickness = plate.thickness.value;
  const part = (key: string, given: Valued | undefined, usual: { value: number; sigma: number }, why: string) =>
    orDefault(log, `${path}.plate.${key}`, given, {
      kind: 'length',
      value: usual.value * thickness,
      sigma: usual.sigma * thickness,
      why,
    });
  return {
    ...plate,
    noseLength: part(
      'nose length',
      plate.noseLength,
      { value: 1, sigma: 0.5 },
      'nose rounded over about one thickness',
    ),
    tailLength: part(
      'tail length',
      plate.tailLength,
      { value: 3, sigma: 2 },
      'trailing edge sanded over a few thicknesses',
    ),
    tailThickness: part(
      'tail thickness',
      plate.tailThickness,
      { value: 0.3, sigma: 0.15 },
      'trailing edge sanded to about a third',
    ),
    reflexFrom: plate.reflexFrom ?? { value: 0.75, sigma: 0.05, source: 'assumed' },
    stepAt: plate.stepAt ?? { value: 0.5, sigma: 0.1, source: 'assumed' },
  };
}

const completeSection = (log: Log, path: string, section: SectionDesign): SectionDesign =>
  section.plate === undefined ? section : { ...section, plate: completePlate(log, path, section.plate) };

function defaultSection(
  log: Log,
  path: string,
  role: Role,
  construction: SurfaceDesign['construction'],
): SectionDesign {
  const sheet = construction === 'foam sheet' || (role !== 'wing' && construction !== 'moulded');
  const thickness = role === 'wing' ? 0.009 : 0.005;
  const digits = role === 'wing' ? '3410' : '0008';
  const value = sheet ? `plate ${thickness * 1000} mm` : `NACA ${digits}`;
  log.push({ path, what: 'choice', kind: 'choice', value, why: 'no section stated; usual for such a surface' });
  if (!sheet) return { naca: digits };
  return {
    plate: completePlate(log, path, { thickness: { value: thickness, sigma: thickness / 4, source: 'assumed' } }),
  };
}

interface Panel {
  readonly y: number;
  readonly z: number;
  readonly dihedral: number;
}

/** y and z of each station: as written, or from span share and the dihedral of the panel inboard of it. */
function places(surface: SurfaceDesign, role: Role): readonly { readonly y: number; readonly z: number }[] {
  const half = (surface.span?.value ?? 0) / (isMirrored(surface, role) ? 2 : 1);
  const found: Panel[] = [];
  surface.stations.forEach((station, index) => {
    const before = found[index - 1];
    const inward = before?.dihedral ?? 0;
    const share = station.spanShare?.value;
    // A fin whose stations are shares of its span stands upright.
    const upright = role === 'fin' && share !== undefined;
    const y = upright ? 0 : ((share === undefined ? station.y?.value : share * half) ?? before?.y ?? 0);
    const risen = (before?.z ?? 0) + (y - (before?.y ?? 0)) * Math.tan(inward);
    const z = station.z?.value ?? (upright ? share * half : before === undefined ? 0 : risen);
    found.push({ y, z, dihedral: station.dihedral?.value ?? inward });
  });
  return found;
}

export function isMirrored(surface: SurfaceDesign, role: Role): boolean {
  // A fin beside the middle has a twin, one in the middle has none.
  return surface.mirrored ?? (role !== 'fin' || (surface.y?.value ?? 0) !== 0);
}

function stationsOf(log: Log, name: string, surface: SurfaceDesign, role: Role): readonly StationDesign[] {
  const path = `surfaces.${name}`;
  const at = places(surface, role);
  let section = surface.section === undefined ? undefined : completeSection(log, `${path}.section`, surface.section);
  const rootChord = surface.stations[0]!.chord.value;
  return surface.stations.map((station, index) => {
    if (station.section !== undefined)
      section = completeSection(log, `${path}.stations[${index + 1}].section`, station.section);
    section ??= defaultSection(log, `${path}.section`, role, surface.construction);
    const { y, z } = at[index]!;
    return {
      ...station,
      y: { ...exactly(y), ...station.y },
      z: { ...exactly(z), ...station.z },
      // Quarter chords in line where no leading edge is stated.
      leadingEdge: station.leadingEdge ?? exactly(0.25 * (rootChord - station.chord.value)),
      twist: station.twist ?? EXACT_ZERO,
      section,
    };
  });
}

function controlsOf(log: Log, name: string, surface: SurfaceDesign): SurfaceDesign['controls'] {
  const entries = Object.entries(surface.controls ?? {}).map(([control, part]) => {
    const path = `surfaces.${name}.controls.${control}`;
    const travel = (key: string, given: Valued | undefined) =>
      orDefault(log, `${path}.${key}`, given, {
        kind: 'angle',
        value: 0.35,
        sigma: 0.07,
        why: 'usual travel of about 20 deg',
      });
    const hinge = orDefault(log, `${path}.hinge`, part.hinge, {
      kind: 'ratio',
      value: 0.75,
      sigma: 0.05,
      why: 'usual hinge line',
    });
    const ends = { from: part.from ?? EXACT_ZERO, to: part.to ?? exactly(1) };
    return [control, { ...part, ...ends, hinge, up: travel('up', part.up), down: travel('down', part.down) }] as const;
  });
  return Object.fromEntries(entries);
}

interface Planform {
  readonly stations: readonly StationDesign[];
  readonly mirrored?: boolean | undefined;
}

/** Lengths of the panels between the stations of a completed surface [m]. */
function panelLengths({ stations }: Planform): readonly number[] {
  const place = (station: StationDesign) => [station.y?.value ?? 0, station.z?.value ?? 0] as const;
  return stations.slice(1).map((outer, index) => {
    const [y, z] = place(outer);
    const [innerY, innerZ] = place(stations[index]!);
    return Math.hypot(y - innerY, z - innerZ);
  });
}

/** Area of a completed surface along its panels, both halves where it is mirrored [m2]. */
export function surfaceArea(surface: Planform): number {
  const { stations } = surface;
  const mean = (index: number) => (stations[index]!.chord.value + stations[index + 1]!.chord.value) / 2;
  const half = panelLengths(surface).reduce((sum, length, index) => sum + length * mean(index), 0);
  return surface.mirrored === true ? 2 * half : half;
}

/** Distance from root to tip of a completed surface along its panels, of one half [m]. */
export const panelReach = (surface: Planform): number => panelLengths(surface).reduce((sum, length) => sum + length, 0);

function surfaceOf(log: Log, name: string, surface: SurfaceDesign, wingChord: number): SurfaceDesign {
  const role = roleOf(log, name, surface);
  const path = `surfaces.${name}`;
  const aft = role === 'tailplane' || role === 'fin';
  const x = orDefault(log, `${path}.x`, surface.x, {
    kind: 'length',
    value: aft ? 3.2 * wingChord : 0,
    sigma: aft ? 0.5 * wingChord : 0,
    why: aft ? 'tail about three wing chords behind, no place stated' : 'datum taken at the root leading edge',
  });
  const construction = orChoice(
    log,
    `${path}.construction`,
    surface.construction,
    'built-up',
    'not stated; used only where its mass is not stated',
  );
  return {
    ...surface,
    role,
    x,
    y: surface.y ?? EXACT_ZERO,
    z: surface.z ?? EXACT_ZERO,
    mirrored: isMirrored(surface, role),
    stations: stationsOf(log, name, surface, role),
    controls: controlsOf(log, name, surface),
    construction,
  };
}

export type Surfaces = NonNullable<AircraftDesign['surfaces']>;
export type Bodies = NonNullable<AircraftDesign['bodies']>;

/** Surfaces with every station placed and every default filled in. */
export function completeSurfaces(log: Log, surfaces: AircraftDesign['surfaces']): Surfaces {
  const entries = Object.entries(surfaces ?? {});
  const chords = entries.flatMap(([, surface]) => surface.stations.map((station) => station.chord.value));
  const widest = Math.max(0, ...chords);
  return Object.fromEntries(entries.map(([name, surface]) => [name, surfaceOf(log, name, surface, widest)]));
}

function bodyOf(log: Log, name: string, body: BodyDesign): BodyDesign {
  const path = `bodies.${name}`;
  const length = body.length.value;
  const width = orDefault(log, `${path}.width`, body.width ?? body.diameter, {
    kind: 'length',
    value: 0.08 * length,
    sigma: 0.03 * length,
    why: 'no width stated; usual slenderness of a pod',
  });
  const nose = {
    kind: 'length',
    value: -0.25 * length,
    sigma: 0.1 * length,
    why: 'nose ahead of the wing, no place stated',
  } as const;
  return {
    ...body,
    x: orDefault(log, `${path}.x`, body.x, nose),
    y: body.y ?? EXACT_ZERO,
    z: body.z ?? EXACT_ZERO,
    width,
    height: body.height ?? body.diameter ?? width,
    pair: body.pair ?? false,
  };
}

export const completeBodies = (log: Log, bodies: AircraftDesign['bodies']): Bodies =>
  Object.fromEntries(Object.entries(bodies ?? {}).map(([name, body]) => [name, bodyOf(log, name, body)]));
