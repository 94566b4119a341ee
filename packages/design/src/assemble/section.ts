import { type Outcome, problem, success, type Warning } from '@noonwing/engine';
import {
  facetDrag,
  flatPlateSection,
  greatestBulge,
  librarySection,
  nacaSection,
  type SectionGeometry,
  type SectionModel,
  type SectionOptions,
  sectionFromPoints,
  sectionGeometry,
  sectionModel,
  steppedPlateSection,
} from '@noonwing/engine/section';
import type { ControlTurning } from '@noonwing/engine/shape';
import type { CamberLine } from '@noonwing/engine/wing';
import {
  type FileOutcome,
  orderSectionPoints,
  parseSectionCoordinates,
  type SectionCoordinates,
} from '@noonwing/files';
import type { CompleteControl, CompleteSurface, Section } from '../complete/index.js';

/** Text of a coordinate file by its name in the design file; files are read at the edge of the program. */
export type SectionFiles = Readonly<Record<string, string>>;

/** What sections are made from besides the design file. */
export interface SectionSources {
  /** Nothing else: texts by their names alone are not sources. */
  readonly [other: string]: object | undefined;
  readonly texts?: SectionFiles;
  /** Polars computed before, in place of the first estimate; absent where that shall answer. */
  readonly computed?: ComputedSections;
}

/** Polars of sections by their content, ready to be flown with. */
export interface ComputedSections {
  /** Where they are kept, in words. */
  readonly from: string;
  /** Those of other air: logarithm of amplitude at which layers become turbulent. */
  readonly inAir: (critical: number) => ComputedSections;
  /** Model of a section with its cells; what it rests on says why there is none. */
  readonly of: (
    geometry: SectionGeometry,
    options: SectionOptions,
  ) => { readonly model?: SectionModel; readonly basis: SectionBasis };
  /** What a control of a section turns, its hinge [chord], on a surface of a role; undefined where that was not computed. */
  readonly turningOf?: (
    geometry: SectionGeometry,
    hinge: number,
    role: CompleteSurface['role'],
  ) => ControlTurning | undefined;
  /** Whether the deflected sections of a key were computed. */
  readonly hasControl?: (key: string) => boolean;
}

/** What the model of a section rests on. */
export type SectionBasis =
  | { readonly kind: 'first estimate' }
  /** Its polars were not computed yet. */
  | { readonly kind: 'not computed' }
  /** The solver does not apply: plates, steps, very thin sections. */
  | { readonly kind: 'beyond the solver' }
  /** The same, with measured points laid over the first estimate. */
  | { readonly kind: 'measured'; readonly source: string; readonly reynolds: readonly number[] }
  | ComputedBasis;

export interface ComputedBasis {
  readonly kind: 'computed';
  readonly from: string;
  /** By rising Reynolds number. */
  readonly rows: readonly ComputedRow[];
  /** Measured points laid over them. */
  readonly measured?: { readonly source: string; readonly reynolds: readonly number[] };
  /** What cells on it cost, in words. */
  readonly covering?: string;
}

/** What a polar covers. */
export interface ComputedRow {
  readonly reynolds: number;
  /** Least and greatest lift coefficient; absent where nothing usable converged and the first estimate stands. */
  readonly lift?: { readonly least: number; readonly most: number };
}

/** A section ready for the engine. */
export interface AssembledSection {
  readonly name: string;
  readonly geometry: SectionGeometry;
  readonly model: SectionModel;
  readonly basis: SectionBasis;
  readonly camberLine: CamberLine;
}

/**
 * Geometry of a section of the design file at a chord. Plates have their thickness in length, so that the same sheet is
 * another section at another chord.
 *
 * @param chord - at the station [m]
 */
export function assembleGeometry(section: Section, chord: number, files: SectionSources): Outcome<SectionGeometry> {
  const made = unscaledGeometry(section, chord, files);
  if (!made.ok || section.type === 'plate' || section.thickness === undefined) return made;
  return success(withThickness(made.value, section.thickness.value), made.warnings);
}

function unscaledGeometry(section: Section, chord: number, files: SectionSources): Outcome<SectionGeometry> {
  if (section.type === 'naca') return nacaSection(section.digits);
  if (section.type === 'library') return librarySection(section.name);
  if (section.type === 'plate') return plateGeometry(section, chord);
  if (section.type === 'coordinates') {
    const pairs = section.points.map(([x, y]): [number, number] => [x ?? Number.NaN, y ?? Number.NaN]);
    return geometryOf('own points', orderSectionPoints('own points', pairs));
  }
  const text = files.texts?.[section.path];
  if (text === undefined) {
    return problem({
      code: 'section.file',
      reason: `the coordinate file "${section.path}" was not found`,
      where: section.path,
      remedy: 'put it beside the design file, or name a section such as NACA 2412',
    });
  }
  return geometryOf(section.path, parseSectionCoordinates(text, section.path));
}

/** Geometry from points as read; findings name the file, and the line where there is one. */
function geometryOf(source: string, read: FileOutcome<SectionCoordinates>): Outcome<SectionGeometry> {
  const placed = (where: string | undefined) =>
    where === undefined || where === 'whole file' || where === 'points' ? source : `${source}, ${where}`;
  if (!read.ok) {
    const { reason, where, remedy } = read;
    return problem({ code: 'section.coordinates', reason, where: placed(where), remedy });
  }
  const { x, y } = read.value;
  const made = sectionFromPoints({ name: source, x, y });
  if (!made.ok) return problem({ ...made, where: placed(made.where) });
  const warnings = [...read.warnings, ...made.warnings].map((one) => ({ ...one, where: placed(one.where) }));
  return success(made.value, warnings);
}

function plateGeometry(plate: Extract<Section, { type: 'plate' }>, chord: number): Outcome<SectionGeometry> {
  const thickness = plate.thickness.value / chord;
  if (plate.step !== undefined && plate.stepAt !== undefined) {
    const rear = thickness - plate.step.value / chord;
    return steppedPlateSection({ front: thickness, rear, step: plate.stepAt.value });
  }
  const made = flatPlateSection({
    thickness,
    // A nose worked over at least its own thickness keeps some suction; a square one keeps none.
    nose: plate.noseLength.value >= 0.5 * plate.thickness.value ? 'round' : 'sharp',
    leading: { length: plate.noseLength.value / chord, side: 'both' },
    trailing: { length: plate.tailLength.value / chord, side: 'both', edge: plate.tailThickness.value / chord },
  });
  if (!made.ok || plate.reflex === undefined) return made;
  return success(bentUp(made.value, plate.reflexFrom?.value ?? 0.75, plate.reflex.value), made.warnings);
}

/** The section with its rear bent up from a chord station: reflex in a sheet. */
function bentUp(section: SectionGeometry, from: number, angle: number): SectionGeometry {
  const rise = (x: number) => Math.max(0, x - from) * Math.tan(angle);
  return sectionGeometry({
    name: `${section.name}, bent up ${((angle * 180) / Math.PI).toFixed(1)} deg from ${(100 * from).toFixed(0)} %`,
    x: section.outlineX,
    y: section.outlineY.map((y, i) => y + rise(section.outlineX[i]!)),
    leadingEdge: section.leadingEdge,
    meanLine: { stations: section.stations, camber: section.stations.map((x, i) => section.camber[i]! + rise(x)) },
  });
}

/** The section with its thickness scaled about the mean line. */
function withThickness(section: SectionGeometry, thickness: number): SectionGeometry {
  const factor = thickness / section.maximumThickness;
  const camberAt = (x: number) => {
    const stations = section.stations;
    let i = 0;
    while (i < stations.length - 2 && stations[i + 1]! < x) i++;
    const t = (x - stations[i]!) / (stations[i + 1]! - stations[i]!);
    return section.camber[i]! + t * (section.camber[i + 1]! - section.camber[i]!);
  };
  return sectionGeometry({
    name: `${section.name}, ${(100 * thickness).toFixed(1)} % thick`,
    x: section.outlineX,
    y: section.outlineY.map((y, i) => {
      const camber = camberAt(section.outlineX[i]!);
      return camber + factor * (y - camber);
    }),
    leadingEdge: section.leadingEdge,
    meanLine: { stations: section.stations, camber: section.camber },
  });
}

/** Slopes of the mean line on a coarse grid of chord fractions, for the lattice. */
export function camberLineOf(geometry: SectionGeometry): CamberLine {
  const { stations, camber } = geometry;
  const chordFractions: number[] = [];
  const slopes: number[] = [];
  const count = stations.length;
  const stride = Math.max(1, Math.floor(count / 40));
  for (let i = 0; i + stride < count; i += stride) {
    const next = Math.min(count - 1, i + stride);
    chordFractions.push((stations[i]! + stations[next]!) / 2);
    slopes.push((camber[next]! - camber[i]!) / (stations[next]! - stations[i]!));
  }
  return { chordFractions, slopes };
}

/** Geometry, aerodynamic model and camber line of a section in a given surface state. */
export function assembleSection(
  name: string,
  section: Section,
  chord: number,
  files: SectionSources,
  options: SectionOptions,
): Outcome<AssembledSection> {
  const geometry = assembleGeometry(section, chord, files);
  if (!geometry.ok) return geometry;
  const found = files.computed?.of(geometry.value, options);
  const model = found?.model ?? sectionModel(geometry.value, options);
  const basis = found?.basis ?? firstEstimate;
  const camberLine = camberLineOf(geometry.value);
  return success({ name, geometry: geometry.value, model, basis, camberLine }, [
    ...geometry.warnings,
    ...coveringWarnings(name, basis),
    ...facetWarnings(name, geometry.value, chord, options),
  ]);
}

/** What stiff cells stand off a curved surface and cost there; nothing where it is flat to a tenth of a millimetre. */
function facetWarnings(
  where: string,
  geometry: SectionGeometry,
  chord: number,
  { flats }: SectionOptions,
): readonly Warning[] {
  const bulge = flats === undefined ? 0 : greatestBulge(geometry, flats);
  if (bulge * chord < 1e-4) return [];
  const { factor, spread } = facetDrag(bulge);
  const [low, high] = [-1, 1].map((side) => (factor * Math.exp(1.645 * side * spread)).toFixed(2));
  const message = `stiff flat cells make facets: the surface would stand ${(1000 * bulge * chord).toFixed(1)} mm over them, section drag x ${factor.toFixed(2)} (${low} to ${high}); narrower cells or a section for flat cells cost less`;
  return [{ code: 'section.facets', message, where }];
}

const firstEstimate: SectionBasis = { kind: 'first estimate' };

function coveringWarnings(where: string, basis: SectionBasis): readonly Warning[] {
  const covering = basis.kind === 'computed' ? basis.covering : undefined;
  return covering === undefined ? [] : [{ code: 'section.covering', message: covering, where }];
}

/** Station of a surface that lies nearest to the middle of a control. */
export function stationOfControl(
  { from, to }: Pick<CompleteControl, 'from' | 'to'>,
  stations: CompleteSurface['stations'],
): number {
  const [root, tip] = [stations[0]!, stations.at(-1)!];
  const along = (y: number, z: number): number => Math.hypot(y - root.y, z - root.z);
  const middle = ((from + to) / 2) * along(tip.y, tip.z);
  const away = stations.map(({ y, z }) => Math.abs(along(y, z) - middle));
  return away.indexOf(Math.min(...away));
}
