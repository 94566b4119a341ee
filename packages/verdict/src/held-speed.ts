import type { CompleteAircraft } from '@noonwing/design';
import { type Problem, problem, type Warning } from '@noonwing/engine';
import type { ChosenFlight, ThrustPower } from '@noonwing/engine/flight';

/** How fast the structure lets an aircraft fly, as far as a verdict needs it. */
export interface KnownLimit {
  /** Lower edge of the band of the limit that comes first [m/s]. */
  readonly airspeed: number;
  /** What happens there. */
  readonly words: string;
  /** Whether something in the structure behind it had to be assumed. */
  readonly assumed: boolean;
  /** What was left out on the way to it; absent where everything was looked at. */
  readonly without?: string;
  /** Warmest top of the wing for which it was computed, in flight in the noon sun [K]; absent: at 23 C. */
  readonly warmTop?: number;
}

/** Whether a surface of the design says how it is built: only then a plain day looks for limits. */
export const describesStructure = ({ surfaces }: Pick<CompleteAircraft, 'surfaces'>): boolean =>
  surfaces.some(({ structure }) => structure !== undefined);

/** Limit over airspeed flown from which on no sample reaches the limit and no word is said of it. */
const farAbove = 1.5;

/** Whether a limit can change anything of a flight at an airspeed [m/s]; further above it is only known. */
export const isWithinReach = ({ airspeed }: Pick<KnownLimit, 'airspeed'>, flown: number): boolean =>
  airspeed < farAbove * flown;

/** Least ratio of limit speed to the airspeed flown that passes without a word (common practice: a fifth for gusts and errors). */
export const leastMargin = 1.2;

const speed = (value: number): string => `${value.toFixed(1)} m/s`;

/** What a limit does to the flight: nothing, a remark, or that no airspeed is left between stall and limit. */
export interface HeldSpeed {
  readonly warnings: readonly Warning[];
  readonly problems: readonly Problem[];
}

/** The flight point that limits refer to. */
export interface LimitFlight {
  readonly airspeed: number;
  readonly chosen?: ChosenFlight<ThrustPower>;
}

/** That the flight is held at its limit speed, close to it, or faster although that is too fast. */
export function heldSpeedFindings(
  { chosen, airspeed }: LimitFlight,
  { airspeed: limit, words, assumed, without, warmTop }: KnownLimit,
): HeldSpeed {
  if (limit >= leastMargin * airspeed) return { warnings: [], problems: [] };
  const basis = assumed ? ' (its structure is partly assumed)' : '';
  const left = without === undefined ? '' : ` (${without} not looked at)`;
  const warm = warmTop === undefined ? '' : ` in the noon sun, its top at ${(warmTop - 273.15).toFixed(0)} C`;
  const why = `${warm}${basis}: ${words}${left}`;
  const warning = (message: string): HeldSpeed => ({
    warnings: [{ code: 'limit-speed', message, where: 'structure' }],
    problems: [],
  });
  // A hair of tolerance: a flight held at the limit is at it, not above it.
  if (airspeed > limit * (1 + 1e-6)) {
    return {
      warnings: [],
      problems: [
        problem({
          code: 'limit-speed',
          reason: `flown at ${speed(airspeed)}, above its limit speed of ${speed(limit)}${why}`,
          where: 'structure',
          remedy: 'make it stiffer (what raises its limits most stands with them), or lighter so that it flies slower',
        }),
      ],
    };
  }
  if (chosen?.reason === 'limit speed') {
    const wanted = speed(chosen.wanted);
    return warning(`held at its limit speed of ${speed(limit)}, without it ${wanted} would be flown${why}`);
  }
  return warning(`flown at ${speed(airspeed)}, close to its limit speed of ${speed(limit)}${why}`);
}
