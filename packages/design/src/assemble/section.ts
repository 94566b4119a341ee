import { type Outcome, problem, success, type Warning } from '@noonwing/engine';
import {
  flatPlateSection,
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
import {
  type CoveredTable,
  coveredTable,
  type SectionPolar,
  storedTable,
  trippedSettings,
} from '@noonwing/engine/section/polars';
import type { CamberLine } from '@noonwing/engine/wing';
import {
  type FileOutcome,
  orderSectionPoints,
  parseSectionCoordinates,
  type SectionCoordinates,
} from '@noonwing/files';
import type { Section } from '../complete/index.js';
import { type PolarStore, polarStoreName, polarsWithMeasured, readPolarStore, storedPolars } from './polars.js';

/** Text of a coordinate file by its name in the design file; files are read at the edge of the program. */
export type SectionFiles = Readonly<Record<string, string>>;

/** A section ready for the engine. */
export interface AssembledSection {
  readonly name: string;
  readonly geometry: SectionGeometry;
  readonly model: SectionModel;
  readonly camberLine: CamberLine;
}

/**
 * Geometry of a section of the design file at a chord. Plates have their thickness in length, so that the same sheet is
 * another section at another chord.
 *
 * @param chord - at the station [m]
 */
export function assembleGeometry(section: Section, chord: number, files: SectionFiles): Outcome<SectionGeometry> {
  const made = unscaledGeometry(section, chord, files);
  if (!made.ok || section.type === 'plate' || section.thickness === undefined) return made;
  return success(withThickness(made.value, section.thickness.value), made.warnings);
}

function unscaledGeometry(section: Section, chord: number, files: SectionFiles): Outcome<SectionGeometry> {
  if (section.type === 'naca') return nacaSection(section.digits);
  if (section.type === 'library') return librarySection(section.name);
  if (section.type === 'plate') return plateGeometry(section, chord);
  if (section.type === 'coordinates') {
    const pairs = section.points.map(([x, y]): [number, number] => [x ?? Number.NaN, y ?? Number.NaN]);
    return geometryOf('own points', orderSectionPoints('own points', pairs));
  }
  const text = files[section.path];
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
    trailing: { length: plate.tailLength.value / chord, side: 'both' },
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
  files: SectionFiles,
  options: SectionOptions,
): Outcome<AssembledSection> {
  const geometry = assembleGeometry(section, chord, files);
  if (!geometry.ok) return geometry;
  const { model, warnings } = polarModel(name, geometry.value, files, options);
  return success({ name, geometry: geometry.value, model, camberLine: camberLineOf(geometry.value) }, [
    ...geometry.warnings,
    ...warnings,
  ]);
}

const thousands = (reynolds: readonly number[]): string => reynolds.map((one) => `${one / 1000}`).join(', ');

interface PolarModel {
  readonly model: SectionModel;
  readonly warnings: readonly Warning[];
}

/** Table of stored polars where a store was given and holds the section, else the first estimate; with a finding of which it is. */
function polarModel(name: string, geometry: SectionGeometry, files: SectionFiles, options: SectionOptions): PolarModel {
  const estimate = sectionModel(geometry, options);
  const text = files[polarStoreName];
  if (text === undefined) return { model: estimate, warnings: [] };
  const finding = (code: string, message: string): Warning => ({ code, message, where: name });
  const store = readPolarStore(text);
  const polars = store === undefined ? undefined : storedPolars(store, geometry);
  const laid = polars === undefined ? undefined : polarsWithMeasured(text, geometry, polars);
  const covered = laid && store && coveredBy(store, geometry, laid.polars, options);
  const stored = covered?.table ?? (laid && storedTable(estimate, laid.polars));
  if (polars === undefined || stored === undefined) {
    const why = store === undefined ? 'the polar store cannot be read' : 'the polar store does not hold this section';
    return { model: estimate, warnings: [finding('section.estimate', `${why}: the first estimate is used`)] };
  }
  const { table, estimated } = stored;
  const gaps = estimated.length === 0 ? '' : `; first estimate at Reynolds numbers ${thousands(estimated)} thousand`;
  const rows = `${polars.length - estimated.length} of ${polars.length} Reynolds numbers computed`;
  const over =
    laid?.reynolds === undefined
      ? ''
      : `; measured points of ${laid.source} laid over them at Reynolds numbers ${thousands(laid.reynolds)} thousand`;
  const said = finding('section.computed', `stored polars are used: ${rows}${gaps}${over}`);
  const cost = options.cells === undefined ? [] : [finding('section.covering', coveringWords(covered))];
  return { model: table, warnings: [said, ...cost] };
}

interface CoveredBy {
  readonly table: CoveredTable;
  readonly cells: { readonly from: number; readonly edge: number };
}

/** Table of the section under its cells, where the store holds it tripped at their front edge too. */
function coveredBy(
  store: PolarStore,
  geometry: SectionGeometry,
  polars: readonly SectionPolar[],
  { cells, ...options }: SectionOptions,
): CoveredBy | undefined {
  if (cells?.edge === undefined) return undefined;
  const laid = { from: cells.from, edge: cells.edge };
  const tripped = storedPolars(store, geometry, trippedSettings(laid));
  const table = tripped && coveredTable(sectionModel(geometry, options), polars, tripped, laid);
  return table && { table, cells: laid };
}

/** Lift and Reynolds numbers at which the cost of covering is put in words. */
const SPOKEN = { lift: 0.6, reynolds: [1e5, 2e5] } as const;

/** What covering costs, in words. */
function coveringWords(covered: CoveredBy | undefined): string {
  if (covered === undefined)
    return 'cells: 0 to 15 % of section drag by the first estimate; the polar store does not hold the section tripped at their front edge';
  const { table, cells } = covered;
  const share = (value: number) => `${(100 * value).toFixed(0)} %`;
  const at = SPOKEN.reynolds.map((reynolds) => {
    const { likelihood, expected, tripped } = table.cost(SPOKEN.lift, reynolds);
    return `${share(expected)} at Reynolds number ${reynolds / 1000} thousand (${share(tripped)} if their front edge trips the layer, likelihood ${share(likelihood)})`;
  });
  return `cells from ${share(cells.from)} of the chord add to section drag at lift ${SPOKEN.lift}: ${at.join(', ')}`;
}
