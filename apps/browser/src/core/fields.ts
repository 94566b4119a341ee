import {
  type Assumption,
  type Bounds,
  completeDesign,
  type Message,
  nodeAt,
  parsePath,
  readDesign,
  removeFromDesign,
  SOURCE_WORDS,
  type Source,
} from '@noonwing/design';
import { formatQuantity, parseQuantity, type QuantityKind, writeQuantity } from '@noonwing/quantities';
import { describeField, fieldWords } from './field-text.js';
import { type DesignReading, type PlanReading, readingOf, readingOfDesign, readingOfPlan } from './reading.js';
import { exactWords } from './said.js';
import { splitSourceWord } from './source-word.js';
import { type AppState, activeOf, pendingKey } from './state.js';

/** Everything that an input for one value needs. */
export interface FieldValue {
  readonly file: 'design' | 'day';
  readonly path: string;
  /** Name for people: 'chord', 'inner end (from)'. */
  readonly label: string;
  /** The same with where it belongs: 'surface "wing", station 2: chord'. */
  readonly name: string;
  /** As the file has it; empty where it is not written. */
  readonly text: string;
  readonly written: boolean;
  /** Text typed that the file cannot take; shown in the field instead. */
  readonly pending?: string;
  /** SI; absent for words, and where nothing is known. */
  readonly value?: number;
  readonly sigma?: number;
  readonly kind?: QuantityKind;
  /** Where the value that counts comes from. */
  readonly source: Source | 'none';
  /** What counts where nothing is written: in words, for a placeholder, and why. */
  readonly defaultText?: string;
  readonly why?: string;
  readonly help: string;
  readonly kinds: readonly QuantityKind[];
  readonly units: readonly string[];
  readonly choices: readonly string[];
  /** Natural step, SI; absent where the key has none. */
  readonly step?: number;
  readonly stepText?: string;
  readonly example?: string;
  /** What the reader takes [SI], and in words; nothing is clamped to it. */
  readonly bounds?: Bounds;
  readonly limits?: string;
  /** What such a value usually is; others are taken and said. */
  readonly usual?: string;
  /** About this value, errors first. */
  readonly messages: readonly Message[];
}

const scalarAt = (reading: DesignReading | PlanReading, path: string): string | undefined => {
  const node = nodeAt(reading.document, parsePath(path)) as { value?: unknown; source?: string } | undefined;
  if (node === undefined || node.value === undefined || node.value === null || typeof node.value === 'object')
    return undefined;
  return typeof node.value === 'string' ? node.value.trimEnd() : (node.source ?? String(node.value));
};

interface Written {
  readonly value?: number;
  readonly sigma?: number;
  readonly kind?: QuantityKind;
  readonly source: Source;
}

/** A written value in SI. */
function writtenValue(text: string, kinds: readonly QuantityKind[]): Written {
  const { quantity, word } = splitSourceWord(text);
  const source = SOURCE_WORDS[word] ?? 'stated';
  const parsed = kinds.length === 0 ? undefined : parseQuantity(quantity, kinds);
  if (!parsed?.ok) return { source };
  return {
    value: parsed.value,
    ...(parsed.sigma === undefined ? {} : { sigma: parsed.sigma }),
    kind: parsed.kind,
    source,
  };
}

const assumptionAt = (assumptions: readonly Assumption[], path: string, what: Assumption['what'][]) =>
  assumptions.find((one) => one.path === path && what.includes(one.what));

/** What would be assumed without a value that is written: the design completed once without it. Remembered by text and path. */
const withoutValue = new Map<string, Assumption | null>();

function defaultOf(reading: DesignReading | PlanReading, file: 'design' | 'day', path: string): Assumption | undefined {
  const filled = assumptionAt(reading.assumptions, path, ['value', 'choice']);
  if (filled !== undefined || file === 'day') return filled;
  const key = `${path}\n${reading.text}`;
  const known = withoutValue.get(key);
  if (known !== undefined) return known ?? undefined;
  const removed = removeFromDesign(reading.document, path);
  const design = removed.ok ? readDesign(removed.text) : undefined;
  let found: Assumption | undefined;
  if (design?.ok && design.design !== undefined) {
    found = assumptionAt(completeDesign(design.design).assumptions, path, ['value', 'choice']);
  }
  if (withoutValue.size > 200) withoutValue.clear();
  withoutValue.set(key, found ?? null);
  return found;
}

const defaultWords = ({ kind, value, uncertainty }: Assumption): string =>
  kind === 'choice' || typeof value === 'string'
    ? String(value)
    : exactWords(formatQuantity({ value, sigma: uncertainty }, kind));

const about = (message: Message, path: string): boolean =>
  message.path === path || message.path.startsWith(`${path}.`) || message.path.startsWith(`${path}[`);

const rank = { error: 0, warning: 1, note: 2 } as const;

/** What is known of one value of a file; undefined where the file has no such key. */
export function fieldValue(file: 'design' | 'day', text: string, path: string): FieldValue | undefined {
  const description = describeField(file, path);
  if (description === undefined) return undefined;
  const reading = readingOf(file, text);
  const { kinds, units, choices, help } = description;
  const written = scalarAt(reading, path);
  const filled = written === undefined ? assumptionAt(reading.assumptions, path, ['value', 'choice']) : undefined;
  const spread = assumptionAt(reading.assumptions, path, ['uncertainty']);
  const own = written === undefined ? undefined : writtenValue(written, kinds);
  const value = own?.value ?? (typeof filled?.value === 'number' ? filled.value : undefined);
  const sigma = own?.sigma ?? (own === undefined ? filled?.uncertainty : spread?.uncertainty);
  const kind = own?.kind ?? (filled !== undefined && filled.kind !== 'choice' ? filled.kind : kinds[0]);
  const step = description.step === undefined ? undefined : parseQuantity(description.step, kinds);
  const filledSource: Source | 'none' =
    filled === undefined ? 'none' : filled.why === 'parts library' ? 'library' : 'assumed';
  return {
    file,
    path,
    label: description.label,
    name: fieldWords(file, path),
    text: written ?? '',
    written: written !== undefined,
    ...(value === undefined ? {} : { value }),
    ...(sigma === undefined ? {} : { sigma }),
    ...(kind === undefined ? {} : { kind }),
    source: own?.source ?? filledSource,
    ...(filled === undefined ? {} : { defaultText: defaultWords(filled), why: filled.why }),
    help,
    kinds,
    units,
    choices,
    ...(step?.ok ? { step: step.value, stepText: description.step! } : {}),
    ...(description.example === undefined ? {} : { example: description.example }),
    ...(description.bounds === undefined ? {} : { bounds: description.bounds }),
    ...(description.limits === undefined ? {} : { limits: description.limits }),
    ...(description.usual === undefined ? {} : { usual: description.usual }),
    messages: reading.messages
      .filter((message) => about(message, path))
      .sort((a, b) => rank[a.severity] - rank[b.severity]),
  };
}

/** A value of the active design or plan, with what was typed and not taken. */
export function valueAt(
  state: Pick<AppState, 'work'>,
  path: string,
  file: 'design' | 'day' = 'design',
): FieldValue | undefined {
  const active = activeOf(state);
  const [text, at] = file === 'design' ? [active.design, active.designPath] : [active.plan, active.planPath];
  if (text === undefined || at === undefined || active.project === undefined) return undefined;
  const found = fieldValue(file, text, path);
  const pending = state.work.pending[pendingKey(active.project.id, at, path)];
  return found === undefined || pending === undefined ? found : { ...found, pending: pending.text };
}

/** What the program would assume if a written value were taken away: for 'back to the default'. */
export function defaultFor(state: Pick<AppState, 'work'>, path: string, file: 'design' | 'day' = 'design') {
  const { design, plan } = activeOf(state);
  const reading =
    file === 'design'
      ? design === undefined
        ? undefined
        : readingOfDesign(design)
      : plan === undefined
        ? undefined
        : readingOfPlan(plan);
  const found = reading === undefined ? undefined : defaultOf(reading, file, path);
  return found === undefined ? undefined : { text: defaultWords(found), why: found.why };
}

/** The texts of keys of a group that the file has: 'surfaces' gives ['wing', 'tailplane', 'fin']; list entries as '[1]', '[2]'. */
export function keysAt(file: 'design' | 'day', text: string, path: string): readonly string[] {
  const node = nodeAt(readingOf(file, text).document, path === '' ? [] : parsePath(path)) as
    | { items?: readonly unknown[] }
    | undefined;
  return (node?.items ?? []).map((item, i) => {
    const key = (item as { key?: { value?: unknown } } | null)?.key;
    return key === undefined ? `[${i + 1}]` : String(key?.value ?? '');
  });
}

/** A value as a file should hold it: in the unit that the builder used before, with the word of its source. */
export function textFor(
  value: { readonly value: number; readonly sigma?: number | undefined },
  kind: QuantityKind,
  like: string,
  word = '',
): string {
  const { quantity } = splitSourceWord(like);
  const unit = /(?:^|[\d\s.,])((?:[A-Za-z°µΩ%"][A-Za-z0-9/°µΩ ]*))\s*(?:±|\+-|$)/.exec(quantity)?.[1]?.trim();
  let text: string;
  try {
    text = writeQuantity(value, kind, unit === undefined || unit === '' ? undefined : unit);
  } catch {
    text = writeQuantity(value, kind);
  }
  return word === '' ? text : `${text} ${word}`;
}
