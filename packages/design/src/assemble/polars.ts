import type { SectionGeometry } from '@noonwing/engine/section';
import {
  isComputable,
  type MeasuredPoint,
  measuredRuns,
  type PolarPoint,
  type PolarSettings,
  polarKey,
  type SectionPolar,
  SOLVER_VERSION,
  sectionKey,
  withMeasured,
} from '@noonwing/engine/section/polars';

/** Name under which the text of a polar store travels beside the coordinate files of a design. */
export const polarStoreName = 'polars.json';

/** Polars of sections by their content. */
export interface PolarStore {
  readonly [key: string]: { readonly name: string; readonly polars: readonly SectionPolar[] };
}

/** Measured points of sections by the content of their outline: they outlive any solver. */
export interface MeasuredStore {
  readonly [key: string]: {
    readonly name: string;
    /** File that they were read from. */
    readonly source: string;
    readonly points: readonly MeasuredPoint[];
  };
}

const format = 'noonwing polars 1';

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

/** A point as written: incidence [rad], lift, drag, moment, transition above and below [chord]. */
const written = (p: PolarPoint): readonly number[] => [
  rounded(p.alpha, 5),
  rounded(p.lift, 4),
  rounded(p.drag, 5),
  rounded(p.moment, 4),
  rounded(p.upperTransition, 3),
  rounded(p.lowerTransition, 3),
];

/** A measured point as written: Reynolds number, incidence [rad], lift, drag, moment; null for what was not measured. */
const measuredRow = ({ reynolds, incidence, lift, drag, moment }: MeasuredPoint) => [
  reynolds,
  incidence ?? null,
  lift,
  drag ?? null,
  moment ?? null,
];

function measuredText(measured: MeasuredStore): string {
  const entries = Object.entries(measured).map(([key, { name, source, points }]) => {
    const rows = points.map((point) => `      ${JSON.stringify(measuredRow(point))}`);
    return `    ${JSON.stringify(key)}: {"name": ${JSON.stringify(name)}, "source": ${JSON.stringify(source)}, "points": [\n${rows.join(',\n')}\n    ]}`;
  });
  return entries.length === 0 ? '' : `,\n  "measured": {\n${entries.join(',\n')}\n  }`;
}

/** Text of a store: one line a polar or measured point, so that a change shows where it is. */
export function polarStoreText(store: PolarStore, measured: MeasuredStore = {}): string {
  const sections = Object.entries(store).map(([key, { name, polars }]) => {
    const rows = polars.map(
      ({ reynolds, points, holes }) =>
        `      ${JSON.stringify({ reynolds, points: points.map(written), holes: holes.map((hole) => rounded(hole, 5)) })}`,
    );
    return `    ${JSON.stringify(key)}: {"name": ${JSON.stringify(name)}, "polars": [\n${rows.join(',\n')}\n    ]}`;
  });
  return `{\n  "format": "${format}",\n  "solver": ${SOLVER_VERSION},\n  "sections": {\n${sections.join(',\n')}\n  }${measuredText(measured)}\n}\n`;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const numbers = (value: unknown): value is number[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'number' && Number.isFinite(one));

/** A point as read; undefined where it is none. */
function pointOf(value: unknown): PolarPoint | undefined {
  if (!numbers(value) || value.length !== 6 || !(value[2]! > 0)) return undefined;
  const [alpha, lift, drag, moment, upperTransition, lowerTransition] = value as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return { alpha, lift, drag, moment, upperTransition, lowerTransition };
}

function polarOf(value: unknown): SectionPolar | undefined {
  if (!isRecord(value)) return undefined;
  const { reynolds, points, holes } = value;
  if (typeof reynolds !== 'number' || !(reynolds > 0) || !Array.isArray(points) || !numbers(holes)) return undefined;
  const read = points.map(pointOf).filter((point) => point !== undefined);
  const rising = read.every((point, i) => i === 0 || point.alpha > read[i - 1]!.alpha);
  return read.length === points.length && rising ? { reynolds, points: read, holes } : undefined;
}

/** The text parsed last: every section of a design asks for its polars and measured points in the same store. */
let last: { readonly text: string; readonly value: unknown } | undefined;

/** Content of a store; undefined where the text is not JSON. */
function parsedStore(text: string): unknown {
  if (last?.text === text) return last.value;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    value = undefined;
  }
  last = { text, value };
  return value;
}

/** Store from its text; undefined where the text is not one. Polars of another solver version are left out. */
export function readPolarStore(text: string): PolarStore | undefined {
  const value = parsedStore(text);
  if (!isRecord(value) || value.format !== format || !isRecord(value.sections)) return undefined;
  if (value.solver !== SOLVER_VERSION) return {};
  const store: Record<string, PolarStore[string]> = {};
  for (const [key, section] of Object.entries(value.sections)) {
    if (!isRecord(section) || typeof section.name !== 'string' || !Array.isArray(section.polars)) return undefined;
    const polars = section.polars.map(polarOf).filter((polar) => polar !== undefined);
    if (polars.length !== section.polars.length) return undefined;
    store[key] = { name: section.name, polars };
  }
  return store;
}

const isOptional = (value: unknown): value is number | null =>
  value === null || (typeof value === 'number' && Number.isFinite(value));

function measuredPointOf(value: unknown): MeasuredPoint | undefined {
  if (!Array.isArray(value) || value.length !== 5 || !value.every(isOptional)) return undefined;
  const [reynolds, incidence, lift, drag, moment] = value as (number | null)[];
  if (!(reynolds! > 0) || lift === null || (drag !== null && !(drag! > 0))) return undefined;
  return {
    reynolds: reynolds!,
    lift: lift!,
    ...(incidence === null ? {} : { incidence: incidence! }),
    ...(drag === null ? {} : { drag: drag! }),
    ...(moment === null ? {} : { moment: moment! }),
  };
}

/** Measured points in the text of a store; those that cannot be read are undefined as a whole, so that none is lost unseen. */
export function readMeasuredStore(text: string): MeasuredStore | undefined {
  const value = parsedStore(text);
  if (!isRecord(value) || value.format !== format) return undefined;
  if (value.measured === undefined) return {};
  if (!isRecord(value.measured)) return undefined;
  const store: Record<string, MeasuredStore[string]> = {};
  for (const [key, section] of Object.entries(value.measured)) {
    if (!isRecord(section) || !Array.isArray(section.points)) return undefined;
    const { name, source } = section;
    const points = section.points.map(measuredPointOf).filter((point) => point !== undefined);
    if (typeof name !== 'string' || typeof source !== 'string' || points.length !== section.points.length)
      return undefined;
    store[key] = { name, source, points };
  }
  return store;
}

/** Stored polars of a section with the measured points that the store holds laid over them, and where these come from. */
export function polarsWithMeasured(
  text: string,
  geometry: SectionGeometry,
  polars: readonly SectionPolar[],
): { readonly polars: readonly SectionPolar[]; readonly source?: string; readonly reynolds?: readonly number[] } {
  const measured = readMeasuredStore(text)?.[sectionKey(geometry)];
  if (measured === undefined) return { polars };
  const runs = measuredRuns(measured.points);
  const reynolds = runs.map((run) => Math.round(run.reynolds / 1000) * 1000);
  return { polars: withMeasured(polars, runs), source: measured.source, reynolds };
}

/** Stored polars of a section, if there are any. */
export const storedPolars = (
  store: PolarStore,
  geometry: SectionGeometry,
  settings?: PolarSettings,
): readonly SectionPolar[] | undefined =>
  isComputable(geometry) ? store[polarKey(geometry, settings)]?.polars : undefined;
