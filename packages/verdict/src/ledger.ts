import { airFactorAt, arrayMaxima, hasSharedVoltage, incomeAt, loadPowerAt } from '@noonwing/engine/day';
import type { Verdict } from './central.js';
import type { FlightNeed } from './need.js';

/** One row of the ledger. Losses and uses add up to the light on the cells; what is marked as part of another row does not. */
export interface LedgerRow {
  readonly key: string;
  /** In words of the trade. */
  readonly label: string;
  /** [W]; negative where the battery adds. */
  readonly watts: number;
  /** Of the light on the cells, 0 to 1. */
  readonly share: number;
  readonly group: 'light' | 'cells' | 'converter' | 'loads' | 'drive' | 'air' | 'battery';
  /** Contained in another row, shown for information only. */
  readonly partOf?: string;
  readonly note?: string;
}

/** The chain from sunlight on the cells to work on the air, at one instant or averaged over a stretch. */
export interface Ledger {
  readonly sky: string;
  /** Middle of the step, or of the stretch [s, Unix]. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  /** Sunlight on the cells before any loss [W]. */
  readonly light: number;
  /** Income: what the converters can deliver to the bus [W]. */
  readonly income: number;
  /** What flight and loads take from the bus [W]. */
  readonly need: number;
  /** First what is lost from the light to the bus, then what is used from the air back to the bus, last the battery. */
  readonly rows: readonly LedgerRow[];
}

type Amounts = Map<string, Omit<LedgerRow, 'share'>>;

/**
 * Ledger of one sky of a verdict.
 *
 * @param skyIndex - which sky, in the order of the verdict
 * @param when - an instant [s, Unix], or a stretch; by default the instant of the best solar ratio
 * @returns rows that sum to the light on the cells; undefined where the aircraft has no cells or cannot fly
 */
export function dayLedger(
  verdict: Verdict,
  skyIndex: number,
  when?: number | { readonly from: number; readonly to: number },
): Ledger | undefined {
  const sky = verdict.skies[skyIndex];
  if (sky === undefined || verdict.flight === undefined || verdict.courses[skyIndex] === undefined) return undefined;
  const { times } = verdict.grid;
  const stretch = typeof when === 'object' ? when : undefined;
  const instant = typeof when === 'number' ? when : sky.run.figures.bestRatioAt;
  const first = stepAt(times, stretch?.from ?? instant);
  const last = stretch === undefined ? first : Math.max(first, stepAt(times, stretch.to - 1));
  const sum: Amounts = new Map();
  for (let step = first; step <= last; step++) addStep(sum, verdict, skyIndex, step);
  return averaged(sum, last - first + 1, { sky: sky.run.sky.name, from: times[first]!, to: times[last + 1]! });
}

function stepAt(times: Float64Array, instant: number): number {
  const step = times[1]! - times[0]!;
  return Math.min(times.length - 2, Math.max(0, Math.floor((instant - times[0]!) / step)));
}

function averaged(sum: Amounts, steps: number, of: { sky: string; from: number; to: number }): Ledger {
  const rows = [...sum.values()].map((row) => ({ ...row, watts: row.watts / steps }));
  const watts = (keep: (row: (typeof rows)[number]) => boolean) =>
    rows.filter((row) => row.partOf === undefined && keep(row)).reduce((total, row) => total + row.watts, 0);
  const light = watts(() => true);
  const need = watts(({ group }) => group === 'loads' || group === 'drive' || group === 'air');
  return {
    ...of,
    at: (of.from + of.to) / 2,
    light,
    income: need + watts(({ group }) => group === 'battery'),
    need,
    rows: rows.map((row) => ({ ...row, share: light > 0 ? row.watts / light : 0 })),
  };
}

/** Adds the amounts of one step to the sum; the order of the rows is the order of the chain. */
function addStep(sum: Amounts, verdict: Verdict, skyIndex: number, step: number): void {
  const add = (group: LedgerRow['group'], key: string, label: string, watts: number, more: Partial<LedgerRow> = {}) => {
    const known = sum.get(key);
    sum.set(key, { group, key, label, ...more, watts: (known?.watts ?? 0) + watts });
  };
  const income = addArray(add, verdict, skyIndex, step);
  const need = addUses(add, verdict, step);
  add('battery', 'battery', 'left over for the battery', income - need, {
    note: 'below zero: the battery adds what the sun does not give',
  });
}

type Add = (group: LedgerRow['group'], key: string, label: string, watts: number, more?: Partial<LedgerRow>) => void;

/** From the light on the cells to the bus; returns the income [W]. */
function addArray(add: Add, verdict: Verdict, skyIndex: number, step: number): number {
  const { run } = verdict.prepared;
  const course = verdict.courses[skyIndex]!;
  const { maxima, course: charge } = verdict.skies[skyIndex]!.run;
  const { array } = run;
  if (array === undefined || maxima === undefined) return 0;
  const facets = array.facets.length;
  let shade = 0;
  let incidence = 0;
  let effective = 0;
  for (const [f, facet] of array.facets.entries()) {
    shade += facet.area * course.ledger.shadeLoss[step * facets + f]!;
    incidence += facet.area * course.ledger.incidenceLoss[step * facets + f]!;
    effective += facet.area * course.ledger.effective[step * facets + f]!;
  }
  const here = (values: Float64Array) => values.slice(step * facets, (step + 1) * facets);
  const covered = effective * array.lightFactor;
  const light = here(course.ledger.effective);
  const temperate = sumOf(arrayMaxima(array, light, new Float64Array(facets).fill(298.15)).equalLightPower);
  const warm = sumOf(arrayMaxima(array, light, here(course.temperature)).equalLightPower);
  let equal = 0;
  let own = 0;
  let kept = 0;
  let mismatch = 0;
  for (let s = 0; s < array.strings.length; s++) {
    const at = s * maxima.instants + step;
    const unequal = maxima.equalLightPower[at]! * (1 - course.unequal.power[at]!);
    equal += maxima.equalLightPower[at]!;
    mismatch += unequal;
    own += maxima.ownPower[at]!;
    kept += maxima.power[at]!;
  }
  add('light', 'shade', 'in the shade of wing, fins, tail and bodies', shade);
  add('light', 'incidence', 'reflected by oblique incidence', incidence);
  add('light', 'cover', 'film, tabs and dust', effective - covered);
  add('cells', 'conversion', 'not turned into electricity by the cells (at 25 degC)', covered - temperate);
  add('cells', 'heat', 'cells warmer than 25 degC', temperate - warm);
  add('cells', 'mismatch', 'cells of one string in unequal light', mismatch);
  add('cells', 'wires', 'tabs, wires and connectors of the strings', equal - mismatch - own);
  if (hasSharedVoltage(array))
    add('cells', 'shared', 'strings on one converter off their own best voltage', own - kept);
  const voltage = charge.terminalVoltage[step]! > 0 ? charge.terminalVoltage[step]! : run.busVoltage;
  const output = incomeAt(array, maxima, step, voltage);
  const offered = verdict.skies[skyIndex]!.run.offered[step]!;
  add('converter', 'tracking', 'not found by the tracker', output.tracking);
  add('converter', 'converter', 'heat and stand-by of the converters', output.conversion);
  add('converter', 'limits', 'left on the cells by limits of the converters', output.unused);
  // A reading in the sun scales what the converters deliver; so does a throttle that tracks without a converter.
  add(
    'converter',
    'reading',
    'difference by the array reading',
    kept - output.tracking - output.conversion - output.unused - offered,
  );
  return offered;
}

const sumOf = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

/**
 * From the air back to the bus; returns the need [W]. Flight asks and the drive follows: each row depends only on rows
 * above it, so that another motor changes its own row and those below.
 */
function addUses(add: Add, verdict: Verdict, step: number): number {
  const { prepared, grid } = verdict;
  const flight = verdict.flight!;
  const { run } = prepared;
  const loads = loadPowerAt(run.loads, grid.hours[step]!);
  const factor = airFactorAt({ ...run.airFactor, sigma: 0 }, grid.sun.up[step]!, grid.greatestSine[step]!);
  const { chosen } = flight;
  if (chosen === undefined) add('drive', 'flight', 'drive and flight, as stated', flight.drivePower);
  else addFlight(add, chosen, flight.drivePower);
  add('drive', 'air factor', 'turbulence, control activity and height hold', flight.drivePower * (factor - 1));
  add('loads', 'loads', 'loads (receiver, autopilot, payload ...)', loads);
  return loads + flight.drivePower * factor;
}

/** From the work on the air to the drive power that a known level power sets. */
function addFlight(add: Add, chosen: NonNullable<FlightNeed['chosen']>, drivePower: number): void {
  const { drive, trim, levelPower } = chosen.flight;
  const work = drive.thrust * trim.airspeed;
  const part = (drag: number) => (work * drag) / trim.drag;
  add('air', 'parasite drag', 'drag of fuselage, gaps and fittings', part(trim.parasiteDrag));
  add('air', 'profile drag', 'profile drag of wing and tail', part(trim.profileDrag));
  add('air', 'induced drag', 'induced drag', part(trim.inducedDrag));
  add('drive', 'propeller', 'propeller', drive.losses.propeller);
  add('drive', 'gear', 'gear', drive.losses.gear);
  add('drive', 'motor', 'motor', drive.losses.motor);
  add('drive', 'speed controller', 'speed controller (ESC)', drive.losses.controller);
  add('drive', 'calibration', 'difference of the known from the computed level power', drivePower - levelPower);
  if (chosen.cost > 0) {
    add('drive', 'airspeed', 'airspeed above that of least power', chosen.cost * (drivePower / levelPower), {
      partOf: 'drive',
      note: chosen.reason === 'stated' ? 'the airspeed is stated' : 'floor of the airspeed over the stall',
    });
  }
}
