import type { Warning } from '@noonwing/engine';
import type { Air } from '@noonwing/engine/air';
import { inputWindow } from '@noonwing/engine/array';
import {
  type ArrayPlan,
  cellTemperatures,
  cellWarmth,
  facetOfCells,
  sourcesOfTurn,
  type TrackerTurn,
  trackerTurn,
  turnLight,
} from '@noonwing/engine/day';
import { turnRadius } from '@noonwing/engine/flight';
import { type CellLightTrack, cellLightTrack } from '@noonwing/engine/light';
import { circleHeadings } from '@noonwing/engine/sun';
import { airOffset, clearSkyOf, dayGrid, gridPlanOf, skyTermsOf, thinned } from './day-setup.js';
import type { FlightNeed } from './need.js';
import type { Prepared } from './prepare.js';
import type { Stages } from './stages.js';

/** What the tracker of one converter finds in the turns of a day. */
export interface TrackerOfDay extends TrackerTurn {
  /** Name of the converter. */
  readonly converter: string;
}

/** A day in which trackers whose method is stated find what they find in a turn. */
export interface TrackedDay {
  readonly prepared: Prepared;
  readonly trackers: readonly TrackerOfDay[];
  readonly warnings: readonly Warning[];
}

/** Share of a turn on a lower maximum from which it is said. */
const saidAbove = 0.2;
/** Headings of a turn, and sines of the sun's elevation below which income is small. */
const turn = { headings: 36, lowSun: 0.15 };

/**
 * Runs the trackers of a design through the turns that it flies, at three times of the day.
 * @returns the same day where no method is stated or no cells are placed one by one
 */
export function trackedDay(prepared: Prepared, flight: FlightNeed, stages: Stages): TrackedDay {
  const { array } = prepared.run;
  const same = { prepared, trackers: [], warnings: [] };
  if (array?.trackers === undefined || array.cells === undefined) return same;
  const pitch = Math.round((flight.chosen?.flight.trim.alpha ?? 0) * 100) / 100;
  const [bank, airspeed] = [Math.round(flight.bank * 100) / 100, Math.round(flight.airspeed * 4) / 4];
  const { plan, run, skies } = prepared;
  const sky = [run.turbidity, run.altitude, run.albedo, skies[0]!.clearSkyIndex];
  const air = [run.air.temperature, run.air.pressure, plan.temperature.value, plan.nightTemperature.value];
  const { complete } = prepared.model;
  const key = JSON.stringify([pitch, bank, airspeed, gridPlanOf(plan), sky, air]);
  const found = stages.run('trackers in a turn', [array, key], () =>
    turnsOf(prepared, array, { pitch, bank, airspeed }),
  );
  const tracked = stages.run('array with its trackers', [array, found], () => withShares(array, found));
  const trackers = found.flatMap((of, k) =>
    of === undefined ? [] : [{ ...of, converter: complete.array!.converters[k]!.name }],
  );
  return { prepared: { ...prepared, run: { ...run, array: tracked } }, trackers, warnings: trackers.flatMap(said) };
}

const said = ({ converter, caught, share }: TrackerOfDay): readonly Warning[] =>
  caught < saidAbove
    ? []
    : [
        {
          code: 'tracker-caught',
          message: `the tracker stands on a lower maximum or behind the light for ${(100 * caught).toFixed(0)} % of a turn and finds ${(100 * share).toFixed(0)} % of what is there: another method, other diodes or strings, or a start nearer the best voltage`,
          where: `array.converters.${converter}`,
        },
      ];

/** Tracking efficiency of each converter, times what it finds in a turn. */
function withShares(array: ArrayPlan, found: readonly (TrackerTurn | undefined)[]): ArrayPlan {
  const converters = array.converters.map((converter, k) => {
    const { tracking } = converter;
    const share = found[k]?.share;
    if (share === undefined || tracking.method !== 'maximum power') return converter;
    return { ...converter, tracking: { ...tracking, efficiency: (tracking.efficiency ?? 1) * share } };
  });
  return { ...array, converters };
}

/** Bank below which flight counts as straight on [rad]. */
const level = 0.01;

/** Time of one turn [s], within 8 s and a minute; 20 s straight on. */
export function circlePeriod(airspeed: number, bank: number): number {
  const radius = Math.abs(bank) < level ? undefined : turnRadius(bank, airspeed);
  return radius === undefined ? 20 : Math.min(60, Math.max(8, (2 * Math.PI * radius) / airspeed));
}

function turnsOf(
  { plan, run, skies, model }: Prepared,
  array: ArrayPlan,
  { pitch, bank, airspeed }: { readonly pitch: number; readonly bank: number; readonly airspeed: number },
): readonly (TrackerTurn | undefined)[] {
  const grid = dayGrid(gridPlanOf(plan), 3600);
  const lit = Array.from({ length: grid.stepsPerDay }, (_, i) => i).filter((i) => grid.sun.up[i]! > turn.lowSun);
  const at = [...new Set([1, 3, 5].map((sixth) => lit[Math.floor((sixth * lit.length) / 6)]!))];
  if (lit.length === 0) return array.converters.map(() => undefined);
  const pattern = { pitch, bank, headings: circleHeadings(Math.abs(bank) < level ? 1 : turn.headings) };
  const scene = {
    sun: thinned(grid.sun, at),
    cells: array.cells!,
    shade: array.shade,
    pattern,
    incidence: array.incidence,
  };
  const here = { ...grid, sun: scene.sun };
  const { terms } = skyTermsOf(here, clearSkyOf(here, run), {
    clearSkyIndex: skies[0]!.clearSkyIndex,
    albedo: run.albedo,
  });
  const track = cellLightTrack(scene, terms);
  const period = circlePeriod(airspeed, bank);
  const swing = plan.temperature.value - plan.nightTemperature.value;
  const warmths = at.map((instant, k) =>
    warmthOf(array, track, k, { air: run.air, airspeed, offset: airOffset(grid.hours[instant]!, swing) }),
  );
  return array.converters.map((converter, c) => {
    const setup = array.trackers?.[c];
    if (setup === undefined) return undefined;
    const window = inputWindow(converter, Math.max(model.battery.nominalVoltage, 1));
    const turns = at
      .map((_, k) => sourcesOfTurn(array, c, track, k, warmths[k]!))
      .filter((headings) => headings.length > 0)
      .map((headings) => trackerTurn(headings, setup, period, window));
    return meanOf(turns);
  });
}

/** Temperature of each cell in a turn: that of its row and side, as in the day. */
function warmthOf(
  array: ArrayPlan,
  track: CellLightTrack,
  k: number,
  { air, airspeed, offset }: { readonly air: Air; readonly airspeed: number; readonly offset: number },
): (cell: number) => number {
  const warm = cellTemperatures(cellWarmth(array.facets, { air, airspeed }), turnLight(array, track, k));
  const facetOf = facetOfCells(array);
  return (cell) => warm[facetOf[cell]!]! + offset;
}

/** Of several turns, weighted by the energy that was there; undefined without any. */
function meanOf(turns: readonly TrackerTurn[]): TrackerTurn | undefined {
  const power = turns.reduce((sum, of) => sum + of.power, 0);
  if (!(power > 0)) return undefined;
  const mean = (pick: (of: TrackerTurn) => number) => turns.reduce((sum, of) => sum + of.power * pick(of), 0) / power;
  return { share: mean(({ share }) => share), caught: mean(({ caught }) => caught), power: power / turns.length };
}
