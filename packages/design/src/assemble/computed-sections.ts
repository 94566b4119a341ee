import { type SectionGeometry, type SectionModel, type SectionOptions, sectionModel } from '@noonwing/engine/section';
import {
  type CoveredTable,
  controlTurning,
  coveredTable,
  isComputable,
  type LaidCells,
  measuredRuns,
  measuredTable,
  POLAR_SETTINGS,
  type PolarSettings,
  polarKey,
  refinedTable,
  risingBranch,
  type SectionPolar,
  type StoredTable,
  sectionKey,
  storedTable,
  TRIP_STATIONS,
  trippedAt,
  trippedSettings,
  turningKey,
  untilFirstStall,
} from '@noonwing/engine/section/polars';
import type { ControlTurning } from '@noonwing/engine/shape';
import { turningSettings } from './needed-controls.js';
import { type PolarStore, polarsWithMeasured, type StoredText } from './polars.js';
import type { ComputedBasis, ComputedRow, ComputedSections } from './section.js';
import type { ControlStore } from './stored-controls.js';

/** Results kept: an aircraft has few sections, and levers few states of them. */
const capacity = 60;

/** The results used last, by their key. */
function memory<T>(): (key: string, make: () => T) => T {
  const kept = new Map<string, T>();
  return (key, make) => {
    const value = kept.has(key) ? kept.get(key)! : make();
    kept.delete(key);
    kept.set(key, value);
    if (kept.size > capacity) kept.delete(kept.keys().next().value!);
    return value;
  };
}

/** Where cells begin, to half a per cent of the chord, over which a trip changes drag by 0.1 %: a table serves many edits of a chord. */
const rounded = (station: number): number => Math.round(200 * station) / 200;

const dragOptions = ({ transitionAt, dragFactor, dragFactorSpread, flats }: SectionOptions): string =>
  [transitionAt, dragFactor, dragFactorSpread, flats?.from, flats?.to, flats?.width].join(' ');

interface Set {
  readonly polars: readonly SectionPolar[];
  readonly measured?: ComputedBasis['measured'];
}

/**
 * Models of sections from a store of polars, in usual air unless other air is asked for.
 * store - polars of all kinds of air; from - where it is kept, in words
 */
export function computedSections(store: StoredText, from: string): ComputedSections {
  const kept = new Map<number, ComputedSections>();
  const inAir = (critical: number): ComputedSections => {
    const known = kept.get(critical);
    if (known !== undefined) return known;
    const made = {
      from,
      inAir,
      of: sectionsInAir(store, from, { ...POLAR_SETTINGS, critical }),
      turningOf: turningsInAir(store.controls ?? {}, critical),
      hasControl: (key: string) => store.controls?.[key] !== undefined,
    };
    kept.set(critical, made);
    return made;
  };
  return inAir(POLAR_SETTINGS.critical);
}

/**
 * Sections of a first store, and of a second one where that does not hold them.
 * first - absent where there is none; second - made when it is first needed; undefined where there is none
 */
export function eitherComputed(
  first: ComputedSections | undefined,
  second: () => ComputedSections | undefined,
): ComputedSections {
  const kept = new Map<number, ComputedSections>();
  let other: { readonly sections: ComputedSections | undefined } | undefined;
  const both = (critical: number | undefined): ComputedSections => {
    const inAir = (of: ComputedSections | undefined) => (critical === undefined ? of : of?.inAir(critical));
    return {
      from: first?.from ?? '',
      inAir: (next) => {
        const made = kept.get(next) ?? both(next);
        kept.set(next, made);
        return made;
      },
      of: (geometry, options) => {
        const found = inAir(first)?.of(geometry, options) ?? { basis: { kind: 'not computed' as const } };
        if (found.basis.kind === 'computed' || !isComputable(geometry)) return found;
        other ??= { sections: second() };
        const there = inAir(other.sections)?.of(geometry, options);
        return there?.basis.kind === 'computed' || found.basis.kind === 'not computed' ? (there ?? found) : found;
      },
      hasControl: (key) => {
        if (inAir(first)?.hasControl?.(key)) return true;
        other ??= { sections: second() };
        return inAir(other.sections)?.hasControl?.(key) ?? false;
      },
      turningOf: (...of) => {
        const found = inAir(first)?.turningOf?.(...of);
        if (found !== undefined) return found;
        other ??= { sections: second() };
        return inAir(other.sections)?.turningOf?.(...of);
      },
    };
  };
  return both(undefined);
}

/** What controls turn, from a store of their deflected sections. */
function turningsInAir(store: ControlStore, critical: number): NonNullable<ComputedSections['turningOf']> {
  const turnings = memory<ControlTurning | undefined>();
  return (geometry, hinge, role) => {
    const settings = turningSettings(hinge, role, critical);
    const key = turningKey(geometry, settings);
    return turnings(key, () => {
      const rows = store[key]?.rows;
      return rows && controlTurning(rows, settings);
    });
  };
}

/**
 * Models of sections from a store of polars. Tables are made when a section is first asked for and remembered: an edit of rows or chords
 * only weighs bare and tripped anew.
 * from - where the store is kept, in words; settings - of the polars of bare sections
 */
function sectionsInAir(store: StoredText, from: string, settings: PolarSettings): ComputedSections['of'] {
  const tables = memory<StoredTable | undefined>();
  const covered = memory<CoveredTable | undefined>();
  const sets = memory<Set | undefined>();
  const overEstimate = memory<ReturnType<typeof measuredModel>>();

  const bareSet = (geometry: SectionGeometry, section: string) =>
    sets(section, () => {
      const polars = polarsOf(store.polars, polarKey(geometry, settings, section));
      return polars && polarsWithMeasured(store.measured, section, polars);
    });

  const bareTable = (geometry: SectionGeometry, section: string, set: Set, options: SectionOptions) =>
    tables(`${section} ${dragOptions(options)} ${options.cells === undefined}`, () =>
      storedTable(sectionModel(geometry, options), set.polars),
    );

  const refinedBare = (geometry: SectionGeometry, section: string, set: Set, options: SectionOptions) =>
    tables(`${section} ${dragOptions(options)} refined`, () => {
      const found = bareTable(geometry, section, set, options);
      return found && refinedTable(found);
    });

  const trippedTable = (geometry: SectionGeometry, section: string, set: Set, options: SectionOptions, at: number) =>
    tables(`${section} ${dragOptions(options)} tripped ${at}`, () => {
      const tripped = TRIP_STATIONS.map((station) =>
        polarsOf(store.polars, polarKey(geometry, trippedSettings(station, settings), section)),
      );
      if (tripped.some((one) => one === undefined)) return undefined;
      const found = storedTable(
        sectionModel(geometry, options),
        trippedAt(at, set.polars, tripped as SectionPolar[][]),
      );
      return found && refinedTable(found);
    });

  const coveredBy = (geometry: SectionGeometry, section: string, set: Set, options: SectionOptions) => {
    const { cells, ...plain } = options;
    if (cells?.edge === undefined) return undefined;
    const laid: LaidCells = { from: cells.from, edge: cells.edge };
    return covered(`${section} ${dragOptions(options)} ${laid.from} ${laid.edge}`, () => {
      const free = refinedBare(geometry, section, set, plain);
      const forced = free && trippedTable(geometry, section, set, plain, rounded(laid.from));
      return free && forced && coveredTable(free, forced, laid);
    });
  };

  return (geometry, options) => {
    const section = sectionKey(geometry);
    const measuredAlone = () =>
      overEstimate(`${section} ${dragOptions(options)} ${options.cells === undefined}`, () =>
        measuredModel(store, section, geometry, options),
      );
    if (!isComputable(geometry)) return measuredAlone();
    const set = bareSet(geometry, section);
    const under = set && coveredBy(geometry, section, set, options);
    const stored = under ?? (set && bareTable(geometry, section, set, options));
    // Measured points are not left out because the polars under them are not computed yet.
    if (set === undefined || stored === undefined)
      return store.measured[section] === undefined ? { basis: { kind: 'not computed' } } : measuredAlone();
    return modelOf(stored.table, stored.estimated, set, from, options, under);
  };
}

/** A section that is not computed, by its measured points over the first estimate where the store has some. */
function measuredModel(
  store: StoredText,
  section: string,
  geometry: SectionGeometry,
  options: SectionOptions,
): ReturnType<ComputedSections['of']> {
  const measured = store.measured[section];
  if (measured === undefined) return { basis: { kind: 'beyond the solver' } };
  const runs = measuredRuns(measured.points);
  const reynolds = runs.map((run) => Math.round(run.reynolds / 1000) * 1000);
  const model = measuredTable(sectionModel(geometry), sectionModel(geometry, options), runs);
  return { model, basis: { kind: 'measured', source: measured.source, reynolds } };
}

const polarsOf = (store: PolarStore, key: string): readonly SectionPolar[] | undefined => store[key]?.polars;

function modelOf(
  model: SectionModel,
  estimated: readonly number[],
  { polars, measured }: Set,
  from: string,
  { cells }: SectionOptions,
  under: CoveredTable | undefined,
): { readonly model: SectionModel; readonly basis: ComputedBasis } {
  const rows = polars.map((polar): ComputedRow => {
    const { reynolds } = polar;
    if (estimated.some((one) => Math.abs(one / reynolds - 1) < 1e-6)) return { reynolds };
    const branch = risingBranch(untilFirstStall(polar));
    return { reynolds, lift: { least: branch[0]!.lift, most: branch.at(-1)!.lift } };
  });
  const covering = cells === undefined ? undefined : coveringWords(under, cells.from);
  return {
    model,
    basis: {
      kind: 'computed',
      from,
      rows,
      ...(measured === undefined ? {} : { measured }),
      ...(covering === undefined ? {} : { covering }),
    },
  };
}

/** Lift and Reynolds numbers at which the cost of covering is put in words. */
const SPOKEN = { lift: 0.6, reynolds: [1e5, 2e5] } as const;

/** What covering costs, in words. */
function coveringWords(table: CoveredTable | undefined, front: number): string {
  if (table === undefined)
    return 'cells: 0 to 15 % of section drag by the first estimate; its polars with a turbulent layer from their front edge on are not computed';
  // A share of -0.3 % is written 0 %, not -0 %.
  const share = (value: number) => `${Math.round(100 * value) + 0} %`;
  const at = SPOKEN.reynolds.map((reynolds) => {
    const { likelihood, expected, tripped } = table.cost(SPOKEN.lift, reynolds);
    return `${share(expected)} at Reynolds number ${reynolds / 1000} thousand (${share(tripped)} if their front edge trips the layer, likelihood ${share(likelihood)})`;
  });
  return `cells from ${share(front)} of the chord add to section drag at lift ${SPOKEN.lift}: ${at.join(', ')}`;
}
