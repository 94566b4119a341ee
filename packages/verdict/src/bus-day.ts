import type { Warning } from '@noonwing/engine';
import type { CurveSource } from '@noonwing/engine/array';
import type { CellPack } from '@noonwing/engine/battery';
import { type BurstReport, type BusFeed, type BusFloors, busCourse, cloudEdgeBurst } from '@noonwing/engine/bus';
import { type ArrayPlan, facetOfCells, sourcesOfTurn } from '@noonwing/engine/day';
import { cellLightTrack } from '@noonwing/engine/light';
import { circleHeadings } from '@noonwing/engine/sun';
import { burstString, burstWarnings, floorsOf, flownSteps } from './bus-watch.js';
import type { Verdict } from './central.js';
import { clearSkyOf, skyTermsOf, thinned } from './day-setup.js';
import { circlePeriod } from './trackers.js';
import { wiringPlan } from './wiring.js';

/** The bus through one turn. */
export interface BusTurn {
  readonly name: string;
  /** Middle of it [s, Unix]. */
  readonly time: number;
  readonly stateOfCharge: number;
  readonly lowestVoltage: number;
  /** Energy taken from the strings over the energy that was there; 1 in the dark. */
  readonly share: number;
}

/** A burst of light at a cloud edge on one string. */
export interface StringBurst extends Omit<BurstReport, 'warnings'> {
  readonly string: string;
}

/** Seconds on the bus of a day: lowest voltage in turns and under a cloud, bursts at cloud edges, and what they pass. */
export interface BusOfDay {
  readonly floors: Required<BusFloors>;
  readonly turns: readonly BusTurn[];
  readonly bursts: readonly StringBurst[];
  readonly warnings: readonly Warning[];
}

/** Light that a thick small cloud leaves (from memory: 10 to 30 %), and the part of the turn that it takes. */
const cloud = { leaves: 0.2, from: 0.4, to: 0.65 };
/** Usual hill climber, where no method is stated: step as a share of open circuit, seconds (common practice, no source). */
const climber = { step: 0.01, period: 0.05 };
const headingCount = 24;

/**
 * The bus of a verdict in seconds, under one of its skies.
 * @returns undefined without flight, cells placed one by one, or a battery of cells
 */
export function busOfDay(verdict: Verdict, skyIndex = 0): BusOfDay | undefined {
  const { prepared, flight, grid, skies } = verdict;
  const { array, pack } = prepared.run;
  const run = skies[skyIndex]?.run;
  if (array?.cells === undefined || flight === undefined || run === undefined || pack.kind !== 'cells')
    return undefined;
  const floors = floorsOf(prepared);
  const { stateOfCharge } = run.course;
  const flown = flownSteps(prepared, grid, run);
  if (flown.length === 0) return undefined;
  const bySun = flown.reduce((best, i) => (grid.sun.up[i]! > grid.sun.up[best]! ? i : best));
  const lowest = flown.reduce((least, i) => (stateOfCharge[i]! < stateOfCharge[least]! ? i : least));
  const cases: readonly (readonly [name: string, step: number, clouded: boolean])[] = [
    ['turn at the highest sun', bySun, false],
    ['cloud in that turn', bySun, true],
    ['turn with the battery at its lowest', lowest, false],
  ];
  const warnings: Warning[] = [];
  const turns = cases.map(([name, step, clouded]): BusTurn => {
    const { turn, said } = turnAt(verdict, array, pack, { step, clouded, skyIndex, floors });
    warnings.push(...said.map((warning) => ({ ...warning, message: `${name}: ${warning.message}` })));
    return { name, ...turn };
  });
  const bursts = burstsOf(verdict, array);
  return {
    floors,
    turns,
    bursts: bursts.map(({ string, report: { warnings: _, ...report } }) => ({ string, ...report })),
    warnings: [
      ...warnings,
      ...burstWarnings(prepared, array),
      ...bursts.flatMap(({ string, report }) =>
        report.warnings.map((warning) => ({ ...warning, where: `array.strings.${string}` })),
      ),
    ],
  };
}

interface TurnAsked {
  readonly step: number;
  readonly clouded: boolean;
  readonly skyIndex: number;
  readonly floors: BusFloors;
}

function turnAt(verdict: Verdict, array: ArrayPlan, pack: CellPack, { step, clouded, skyIndex, floors }: TurnAsked) {
  const { prepared, flight, grid, skies } = verdict;
  const { run } = skies[skyIndex]!;
  const period = circlePeriod(flight!.airspeed, flight!.bank);
  const stateOfCharge = Math.min(1, Math.max(0.005, run.course.stateOfCharge[step]!));
  const course = busCourse({
    feeds: feedsAt(verdict, array, { step, clouded, skyIndex, period }),
    pack,
    stateOfCharge,
    temperature: prepared.run.batteryTemperature,
    loadAt: () => run.need[step]!,
    duration: period,
    floors,
  });
  const time = (grid.times[step]! + grid.times[step + 1]!) / 2;
  const { lowestVoltage, share, warnings } = course;
  return { turn: { time, stateOfCharge, lowestVoltage, share: share > 0 ? share : 1 }, said: warnings };
}

/** Every converter with its strings through a turn; in its middle under a cloud where asked. */
function feedsAt(
  { prepared, flight, grid, courses }: Verdict,
  array: ArrayPlan,
  { step, clouded, skyIndex, period }: Pick<TurnAsked, 'step' | 'clouded' | 'skyIndex'> & { readonly period: number },
): readonly BusFeed[] {
  const { run, skies } = prepared;
  const facetOf = facetOfCells(array);
  const warmth = courses[skyIndex]!.temperature;
  // Foam keeps the cells through a cloud of seconds about as warm as the turn made them.
  const temperatureOf = (cell: number) => warmth[step * array.facets.length + facetOf[cell]!]!;
  const sun = thinned(grid.sun, [step]);
  const here = { ...grid, sun };
  const clear = clearSkyOf(here, run);
  const sky = (clearSkyIndex: number) => skyTermsOf(here, clear, { clearSkyIndex, albedo: run.albedo }).terms;
  const pitch = flight!.chosen?.flight.trim.alpha ?? 0;
  const pattern = { pitch, bank: flight!.bank, headings: circleHeadings(headingCount) };
  const scene = { sun, cells: array.cells!, shade: array.shade, pattern, incidence: array.incidence };
  const bright = cellLightTrack(scene, sky(skies[0]!.clearSkyIndex));
  const dim = cellLightTrack(scene, sky(cloud.leaves));
  return array.converters.flatMap((converter, c): BusFeed[] => {
    const [open, under] = [bright, dim].map((track) => sourcesOfTurn(array, c, track, 0, temperatureOf)) as [
      readonly CurveSource[],
      readonly CurveSource[],
    ];
    if (open.length === 0) return [];
    const stated = array.trackers?.[c]?.tracker;
    const top = open.reduce((most, { openCircuitVoltage }) => Math.max(most, openCircuitVoltage), 0);
    const tracker = stated ?? {
      method: 'perturb and observe' as const,
      step: Math.max(climber.step * top, 1e-3),
      period: climber.period,
    };
    const stringAt = (time: number) => {
      const part = (time / period) % 1;
      const isUnder = clouded && part >= cloud.from && part < cloud.to;
      return (isUnder ? under : open)[Math.floor(part * open.length)]!;
    };
    return [{ converter, tracker, stringAt }];
  });
}

function burstsOf({ prepared }: Verdict, array: ArrayPlan) {
  const { model, plan } = prepared;
  const fuses = new Map(wiringPlan(model, plan)?.strings.map(({ name, fuse }) => [name, fuse]));
  return array.strings.map((string) => {
    const burst = burstString(string, plan.temperature.value);
    return { string: string.name, report: cloudEdgeBurst([burst], {}, fuses.get(string.name)) };
  });
}
