import type { Message } from '@noonwing/design';
import { refused } from './job.js';
import type { ComputeInput, Ready, Refusal } from './messages.js';
import { type DesignReading, type PlanReading, readingOfDesign, readingOfPlan } from './reading.js';
import type { AssumptionView } from './view.js';
import { assumptionView } from './view-assumption.js';

/** The first error of a file, as a refusal. */
function unreadable(file: string, messages: readonly Message[]): Refusal {
  const message = messages.find(({ severity }) => severity === 'error');
  if (message === undefined) return refused(`the ${file} cannot be computed with`, file, 'look at its messages');
  return refused(
    `${file}, line ${message.line}: found ${message.found}; expected ${message.expected}`,
    message.path,
    message.hint,
  );
}

/** In words, once for each reading: readings are remembered by their text. */
const assumed = new WeakMap<object, readonly AssumptionView[]>();

function assumptionsOf(file: 'design' | 'day', reading: DesignReading | PlanReading): readonly AssumptionView[] {
  const known = assumed.get(reading);
  if (known !== undefined) return known;
  const made = reading.assumptions.map((one) => assumptionView(file, one));
  assumed.set(reading, made);
  return made;
}

/** Files as read, complete, with what is assumed; or why they cannot be computed with. Remembered by the texts. */
export function readyOf({ design, plan, sections }: ComputeInput): Ready | Refusal {
  const [read, day] = [readingOfDesign(design), readingOfPlan(plan)];
  if (read.aircraft === undefined) return unreadable('design', read.messages);
  if (day.complete === undefined) return unreadable('day plan', day.messages);
  const assumptions = [...assumptionsOf('design', read), ...assumptionsOf('day', day)];
  return { aircraft: read.aircraft, plan: day.complete, assumptions, sections: { texts: sections } };
}
