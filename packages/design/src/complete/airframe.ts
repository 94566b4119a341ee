import type { AircraftDesign, BodyDesign, SectionDesign, SurfaceDesign } from '../aircraft.js';
import type { Valued } from '../schema/field.js';
import { type Log, orChoice, orDefault } from './assumptions.js';
import type { CompleteBody, CompleteControl, CompleteStation, CompleteSurface, Role, Section } from './types.js';

const EXACT_ZERO: Valued = { value: 0, source: 'stated' };

const present = <K extends string>(key: K, value: Valued | undefined): { [P in K]?: Valued } =>
  (value === undefined ? {} : { [key]: value }) as { [P in K]?: Valued };

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

function plateSection(log: Log, path: string, plate: NonNullable<SectionDesign['plate']>): Section {
  const thickness = plate.thickness;
  const part = (key: string, given: Valued | undefined, factor: number, spread: number, why: string) =>
    orDefault(log, `${path}.plate.${key}`, given, {
      kind: 'length',
      value: factor * thickness.value,
      sigma: spread * thickness.value,
      why,
    });
  return {
    type: 'plate',
    thickness,
    noseLength: part('nose length', plate.noseLength, 1, 0.5, 'nose rounded over about one thickness'),
    tailLength: part('tail length', plate.tailLength, 3, 2, 'trailing edge sanded over a few thicknesses'),
    tailThickness: part('tail thickness', plate.tailThickness, 0.3, 0.15, 'trailing edge sanded to about a third'),
    ...present('reflex', plate.reflex),
    ...(plate.reflex === undefined
      ? {}
      : { reflexFrom: plate.reflexFrom ?? { value: 0.75, sigma: 0.05, source: 'assumed' as const } }),
    ...present('step', plate.step),
    ...(plate.step === undefined
      ? {}
      : { stepAt: plate.stepAt ?? { value: 0.5, sigma: 0.1, source: 'assumed' as const } }),
  };
}

/** The one form of a section that is written. */
export function sectionOf(log: Log, path: string, section: SectionDesign): Section {
  const scaled = present('thickness', section.thickness);
  if (section.plate !== undefined) return plateSection(log, path, section.plate);
  if (section.file !== undefined) return { type: 'file', path: section.file, ...scaled };
  if (section.library !== undefined) return { type: 'library', name: section.library.trim(), ...scaled };
  if (section.coordinates !== undefined) return { type: 'coordinates', points: section.coordinates, ...scaled };
  return { type: 'naca', digits: (section.naca ?? '0009').trim(), ...scaled };
}

function defaultSection(log: Log, path: string, role: Role, construction: string | undefined): Section {
  if (construction === 'foam sheet' || (role !== 'wing' && construction !== 'moulded')) {
    const thickness = role === 'wing' ? 0.009 : 0.005;
    log.push({ path, what: 'choice', kind: 'choice', value: `plate ${thickness * 1000} mm`, why: 'no section stated' });
    return plateSection(log, path, { thickness: { value: thickness, sigma: thickness / 4, source: 'assumed' } });
  }
  const digits = role === 'wing' ? '3410' : '0008';
  log.push({
    path,
    what: 'choice',
    kind: 'choice',
    value: `NACA ${digits}`,
    why: 'no section stated; camber and thickness usual for slow wings',
  });
  return { type: 'naca', digits };
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

function stationsOf(log: Log, name: string, surface: SurfaceDesign, role: Role): readonly CompleteStation[] {
  const path = `surfaces.${name}`;
  const at = places(surface, role);
  const incidence = surface.incidence?.value ?? 0;
  let section = surface.section === undefined ? undefined : sectionOf(log, `${path}.section`, surface.section);
  const rootChord = surface.stations[0]!.chord.value;
  return surface.stations.map((station, index) => {
    if (station.section !== undefined)
      section = sectionOf(log, `${path}.stations[${index + 1}].section`, station.section);
    section ??= defaultSection(log, `${path}.section`, role, surface.construction);
    const twist = station.twist ?? EXACT_ZERO;
    const sigma = Math.hypot(twist.sigma ?? 0, surface.incidence?.sigma ?? 0);
    return {
      ...at[index]!,
      // Quarter chords in line where no leading edge is stated.
      leadingEdge: station.leadingEdge?.value ?? 0.25 * (rootChord - station.chord.value),
      chord: station.chord,
      twist: { value: twist.value + incidence, ...(sigma > 0 ? { sigma } : {}), source: twist.source },
      section,
    };
  });
}

function controlsOf(log: Log, name: string, surface: SurfaceDesign): readonly CompleteControl[] {
  return Object.entries(surface.controls ?? {}).map(([control, part]) => {
    const path = `surfaces.${name}.controls.${control}`;
    const travel = (key: string, given: Valued | undefined) =>
      orDefault(log, `${path}.${key}`, given, {
        kind: 'angle',
        value: 0.35,
        sigma: 0.07,
        why: 'usual travel of about 20 deg',
      });
    return {
      name: control,
      kind: part.kind,
      from: part.from?.value ?? 0,
      to: part.to?.value ?? 1,
      hinge: orDefault(log, `${path}.hinge`, part.hinge, {
        kind: 'ratio',
        value: 0.75,
        sigma: 0.05,
        why: 'usual hinge line',
      }),
      up: travel('up', part.up),
      down: travel('down', part.down),
      gap: orDefault(log, `${path}.gap`, part.gap, {
        kind: 'length',
        value: 0,
        sigma: 0.0005,
        why: 'closed by tape, film or a skin',
      }),
    };
  });
}

/** Area of the surface, both halves where it is mirrored, along its own panels [m2]. */
export function surfaceArea(surface: Pick<CompleteSurface, 'stations' | 'mirrored'>): number {
  let area = 0;
  for (let index = 1; index < surface.stations.length; index++) {
    const [inner, outer] = [surface.stations[index - 1]!, surface.stations[index]!];
    const length = Math.hypot(outer.y - inner.y, outer.z - inner.z);
    area += (length * (inner.chord.value + outer.chord.value)) / 2;
  }
  return surface.mirrored ? 2 * area : area;
}

/** Distance from root to tip along the panels, of one half [m]. */
export function panelLength(stations: readonly CompleteStation[]): number {
  let length = 0;
  for (let index = 1; index < stations.length; index++) {
    length += Math.hypot(stations[index]!.y - stations[index - 1]!.y, stations[index]!.z - stations[index - 1]!.z);
  }
  return length;
}

function surfaceOf(log: Log, name: string, surface: SurfaceDesign, wingChord: number): CompleteSurface {
  const role = roleOf(log, name, surface);
  const stations = stationsOf(log, name, surface, role);
  const path = `surfaces.${name}`;
  const aft = role === 'tailplane' || role === 'fin';
  const x = orDefault(log, `${path}.x`, surface.x, {
    kind: 'length',
    value: aft ? 3.2 * wingChord : 0,
    sigma: aft ? 0.5 * wingChord : 0,
    why: aft ? 'tail about three wing chords behind, no place stated' : 'datum taken at the root leading edge',
  });
  return {
    name,
    role,
    x,
    y: surface.y ?? EXACT_ZERO,
    z: surface.z ?? EXACT_ZERO,
    mirrored: isMirrored(surface, role),
    stations,
    controls: controlsOf(log, name, surface),
    ...(surface.structure === undefined ? {} : { structure: surface.structure }),
    construction: orChoice(
      log,
      `${path}.construction`,
      surface.construction,
      'built-up',
      'not stated; used only where its mass is not stated',
    ),
  };
}

export function completeSurfaces(log: Log, design: AircraftDesign): readonly CompleteSurface[] {
  const entries = Object.entries(design.surfaces ?? {});
  const widest = Math.max(
    0,
    ...entries.map(([, surface]) => Math.max(...surface.stations.map((station) => station.chord.value))),
  );
  return entries.map(([name, surface]) => surfaceOf(log, name, surface, widest));
}

function bodyOf(log: Log, name: string, body: BodyDesign): CompleteBody {
  const path = `bodies.${name}`;
  const width = orDefault(log, `${path}.width`, body.width ?? body.diameter, {
    kind: 'length',
    value: 0.08 * body.length.value,
    sigma: 0.03 * body.length.value,
    why: 'no width stated; usual slenderness of a pod',
  });
  return {
    name,
    x: orDefault(log, `${path}.x`, body.x, {
      kind: 'length',
      value: -0.25 * body.length.value,
      sigma: 0.1 * body.length.value,
      why: 'nose ahead of the wing, no place stated',
    }),
    y: body.y ?? EXACT_ZERO,
    z: body.z ?? EXACT_ZERO,
    length: body.length,
    width,
    height: body.height ?? body.diameter ?? width,
    pair: body.pair ?? false,
  };
}

export const completeBodies = (log: Log, design: AircraftDesign): readonly CompleteBody[] =>
  Object.entries(design.bodies ?? {}).map(([name, body]) => bodyOf(log, name, body));
