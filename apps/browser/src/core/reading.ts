import {
  type Assumption,
  type CompleteAircraft,
  type CompletePlan,
  completeDesign,
  completePlan,
  type DayPlanResult,
  type DesignResult,
  type FileDocument,
  type Message,
  messageText,
  readDayPlan,
  readDesign,
} from '@noonwing/design';

/** A design text as read; `aircraft` where it can be computed with. */
export interface DesignReading {
  readonly text: string;
  readonly document: FileDocument;
  readonly messages: readonly Message[];
  readonly design?: NonNullable<DesignResult['design']>;
  readonly aircraft?: CompleteAircraft;
  readonly assumptions: readonly Assumption[];
}

export interface PlanReading {
  readonly text: string;
  readonly document: FileDocument;
  readonly messages: readonly Message[];
  readonly plan?: NonNullable<DayPlanResult['plan']>;
  readonly complete?: CompletePlan;
  readonly assumptions: readonly Assumption[];
}

/** Remembers the newest results by text, so that every part of the page can ask without reading the file again. */
function remembered<T>(read: (text: string) => T, capacity = 12): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined) {
      known.delete(text);
      known.set(text, found);
      return found;
    }
    const result = read(text);
    known.set(text, result);
    if (known.size > capacity) known.delete(known.keys().next().value!);
    return result;
  };
}

const unexpected = (document: FileDocument, error: unknown): Message => ({
  severity: 'error',
  ...document.position(0),
  path: '',
  found: error instanceof Error ? error.message : String(error),
  expected: 'a design that can be completed',
  hint: 'undo the last change',
});

/** Reads and completes a design; what completion cannot take is a message too. Remembered by text. */
export const readingOfDesign: (text: string) => DesignReading = remembered((text) => {
  const { ok, document, messages, design } = readDesign(text);
  const base = { text, document, messages, assumptions: [] };
  if (design === undefined) return base;
  if (!ok) return { ...base, design };
  try {
    const { aircraft, assumptions } = completeDesign(design);
    return { ...base, design, aircraft, assumptions };
  } catch (error) {
    return { ...base, design, messages: [...messages, unexpected(document, error)] };
  }
});

/** Reads and completes a day plan. Remembered by text. */
export const readingOfPlan: (text: string) => PlanReading = remembered((text) => {
  const { ok, document, messages, plan } = readDayPlan(text);
  const base = { text, document, messages, assumptions: [] };
  if (plan === undefined) return base;
  if (!ok) return { ...base, plan };
  try {
    const completed = completePlan(plan);
    return { ...base, plan, complete: completed.plan, assumptions: completed.assumptions };
  } catch (error) {
    return { ...base, plan, messages: [...messages, unexpected(document, error)] };
  }
});

export const readingOf = (kind: 'design' | 'day', text: string): DesignReading | PlanReading =>
  kind === 'design' ? readingOfDesign(text) : readingOfPlan(text);

/** Messages by line, for the text editor. */
export function messagesByLine(messages: readonly Message[]): ReadonlyMap<number, readonly Message[]> {
  const lines = new Map<number, Message[]>();
  for (const message of messages) lines.set(message.line, [...(lines.get(message.line) ?? []), message]);
  return lines;
}

/** A message in one sentence, without its place. */
export const sentenceOf = (message: Message): string => messageText({ ...message, path: '' }).replace(/^\d+:\d+ ?/, '');
