import { type CurveSource, parallelSource, type Tracker, trackerCourse } from '../array/index.js';
import type { CellLightTrack } from '../light/index.js';
import type { ArrayPlan } from './array-course.js';
import { litMembers, litStrings } from './cell-mismatch.js';

/** How a converter looks for the best voltage. */
export interface TrackerSetup {
  readonly tracker: Tracker;
  /** Of the input voltage behind what is asked for [s]. */
  readonly timeConstant: number;
  /** Where it begins [V]; open circuit where absent. */
  readonly startVoltage?: number;
}

/** What a tracker finds in the changing light of a turn. */
export interface TrackerTurn {
  /** Energy taken over the energy that was there. */
  readonly share: number;
  /** Share of the time with less than 95 % of the greatest power: on a lower maximum, or behind the light. */
  readonly caught: number;
  /** Greatest mean power of the turn [W]. */
  readonly power: number;
}

/**
 * What hangs on a converter on every heading of a turn, at one instant of a track: all its strings and all that lie side by side
 * in them, each in its own light, behind its blocking diodes.
 *
 * @param converter - its index
 * @param k - instant of the track
 * @param temperatureOf - of each cell then, in the mean light of the turn [K]: a cell on foam takes about as long to warm up
 * @returns by heading; empty where cells are not placed one by one, or nothing hangs on it
 */
export function sourcesOfTurn(
  plan: ArrayPlan,
  converter: number,
  track: CellLightTrack,
  k: number,
  temperatureOf: (cell: number) => number,
): readonly CurveSource[] {
  const hung = plan.strings.filter((string) => string.converter === converter);
  if (hung.length === 0 || hung.some(({ members }) => members === undefined)) return [];
  return Array.from({ length: track.headingCount }, (_, h) => {
    const row = (k * track.headingCount + h) * track.cellCount;
    const light = track.effective.subarray(row, row + track.cellCount);
    return parallelSource(hung.map((string) => litStrings(string, litMembers(plan, string, light, temperatureOf))));
  });
}

/** Mean light of a turn on the cells of each facet, at one instant of a track [W/m2]. */
export function turnLight(
  plan: ArrayPlan,
  { effective, headingCount, cellCount }: CellLightTrack,
  k: number,
): Float64Array {
  return Float64Array.from(plan.facets, ({ cells = [] }) => {
    let sum = 0;
    for (let h = 0; h < headingCount; h++) {
      const row = (k * headingCount + h) * cellCount;
      for (const cell of cells) sum += effective[row + cell]!;
    }
    return cells.length === 0 ? 0 : sum / (cells.length * headingCount);
  });
}

/** Longest and shortest time step [s]: a hill climber is met at each of its steps. */
const steps = { least: 0.02, most: 0.1 };

/**
 * A tracker through one turn of a circle, after a turn in which it settles.
 *
 * @param headings - what hangs on the converter by heading, in the order flown; of `sourcesOfTurn`
 * @param period - of the turn [s]
 * @param window - input voltages that the converter allows [V]
 * @returns share found and time caught. The light changes from heading to heading in steps, which is harsher than in flight
 */
export function trackerTurn(
  headings: readonly CurveSource[],
  { tracker, timeConstant, startVoltage }: TrackerSetup,
  period: number,
  window?: { readonly low: number; readonly high: number },
): TrackerTurn {
  const own = 'period' in tracker ? tracker.period : period;
  const step = Math.min(steps.most, Math.max(steps.least, own));
  // At least one look or sweep falls into the part that counts.
  const turns = Math.max(1, Math.ceil(own / period));
  const course = trackerCourse({
    tracker,
    stringAt: (time) => headings[Math.floor(((time / period) % 1) * headings.length)]!,
    duration: 2 * turns * period,
    step,
    timeConstant,
    ...(startVoltage === undefined ? {} : { startVoltage }),
    ...(window === undefined ? {} : { window }),
    settling: 0.5,
  });
  const { share, caught, available } = course;
  return { share: available > 0 ? share : 1, caught, power: available };
}
