import {
  type MeasuredPoint,
  measuredRuns,
  type PolarPoint,
  type SectionPolar,
  SOLVER_VERSION,
  withMeasured,
} from '@noonwing/engine/section/polars';
import { type ControlStore, controlStoreOf, controlsText } from './stored-controls.js';
import { isRecord, numbers, rounded } from './stored-values.js';

/** File beside a design that its computed polars are kept in. */
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
export function polarStoreText(store: PolarStore, measured: MeasuredStore = {}, controls: ControlStore = {}): string {
  const sections = Object.entries(store).map(([key, { name, polars }]) => {
    const rows = polars.map(
      ({ reynolds, points, holes }) =>
        `      ${JSON.stringify({ reynolds, points: points.map(written), holes: holes.map((hole) => rounded(hole, 5)) })}`,
    );
    return `    ${JSON.stringify(key)}: {"name": ${JSON.stringify(name)}, "polars": [\n${rows.join(',\n')}\n    ]}`;
  });
  return `{\n  "format": "${format}",\n  "solver": ${SOLVER_VERSION},\n  "sections": {\n${sections.join(',\n')}\n  }${controlsText(controls)}${measuredText(measured)}\n}\n`;
}

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

/** Content of a store; undefined where the text is not JSON. */
function parsedStore(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** What the text of a store holds. */
export interface StoredText {
  readonly polars: PolarStore;
  readonly measured: MeasuredStore;
  /** Deflected sections of controls; absent in a store of before they were computed. */
  readonly controls?: ControlStore;
}

/** A store from its text; undefined where the text is not one, or any part of it cannot be read, so that nothing is lost unseen. */
export function readStoredText(text: string): StoredText | undefined {
  const value = parsedStore(text);
  const [polars, measured] = [polarStoreOf(value), measuredStoreOf(value)];
  const controls = isRecord(value) && value.solver === SOLVER_VERSION ? controlStoreOf(value.controls) : {};
  if (polars === undefined || measured === undefined || controls === undefined) return undefined;
  return Object.keys(controls).length === 0 ? { polars, measured } : { polars, measured, controls };
}

/** Polars of another solver version are left out. */
function polarStoreOf(value: unknown): PolarStore | undefined {
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

function measuredStoreOf(value: unknown): MeasuredStore | undefined {
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
  store: MeasuredStore,
  section: string,
  polars: readonly SectionPolar[],
): {
  readonly polars: readonly SectionPolar[];
  readonly measured?: { readonly source: string; readonly reynolds: readonly number[] };
} {
  const measured = store[section];
  if (measured === undefined) return { polars };
  const runs = measuredRuns(measured.points);
  const reynolds = runs.map((run) => Math.round(run.reynolds / 1000) * 1000);
  return { polars: withMeasured(polars, runs), measured: { source: measured.source, reynolds } };
}
