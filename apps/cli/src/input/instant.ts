import { parseQuantity, parseTimeOfDay } from '@noonwing/quantities';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { type Options, typed } from './plan-options.js';

/** An instant of the first day and the heading flown then. */
export interface TypedInstant {
  /** After the first local midnight [h]. */
  readonly hour: number;
  /** From north, clockwise [rad]. */
  readonly heading: number;
}

/** Reads --hour and --heading; undefined where no hour is asked for. */
export function readInstant(options: Options): Attempt<TypedInstant | undefined> {
  const clock = typed(options, 'hour');
  if (clock === undefined) return ready(undefined);
  const time = parseTimeOfDay(clock);
  if (!time.ok)
    return refuse(exitCode.wrongUsage, `--hour: found "${time.found}"; expected ${time.expected}; ${time.hint}`);
  const heading = parseQuantity(typed(options, 'heading') ?? '0 deg', 'angle');
  if (!heading.ok) {
    return refuse(
      exitCode.wrongUsage,
      `--heading: found "${heading.found}"; expected ${heading.expected}; ${heading.hint}`,
    );
  }
  return ready({ hour: time.seconds / 3600, heading: heading.value });
}
