import { type SeriesString, type Tracker, trackerCourse } from '../array/index.js';
import type { CellLightTrack } from '../light/index.js';
import type { ArrayPlan, ArrayString } from './array-course.js';
import { litString } from './cell-mismatch.js';
import { usualCellTemperature } from './cell-temperatures.js';

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
 * A string on every heading of a turn, at one instant of a track: the first of its parallel strings.
 * @param k - instant of the track
 * @returns by heading; empty where its cells are not placed one by one
 */
export function stringsOfTurn(
  plan: ArrayPlan,
  string: ArrayString,
  track: CellLightTrack,
  k: number,
): readonly SeriesString[] {
  const cells = string.members?.[0];
  if (cells === undefined) return [];
  return Array.from({ length: track.headingCount }, (_, h) => {
    const row = (k * track.headingCount + h) * track.cellCount;
    const lit = cells.map((cell, i) => {
      const irradiance = track.effective[row + cell]! * plan.lightFactor;
      return {
        count: 1,
        irradiance,
        temperature: usualCellTemperature(irradiance),
        condition: string.conditions?.get(i),
      };
    });
    return { substrings: litString(string, lit), seriesResistance: string.seriesResistance };
  });
}

/** Longest and shortest time step [s]: a hill climber is met at each of its steps. */
const steps = { least: 0.02, most: 0.1 };

/**
 * A tracker through one turn of a circle, after a turn in which it settles.
 *
 * @param headings - the string by heading, in the order flown; of `stringsOfTurn`
 * @param period - of the turn [s]
 * @param window - input voltages that the converter allows [V]
 * @returns share found and time caught. The light changes from heading to heading in steps, which is harsher than in flight
 */
export function trackerTurn(
  headings: readonly SeriesString[],
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
