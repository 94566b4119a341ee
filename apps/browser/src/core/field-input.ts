import { convert, findUnit, parseQuantity, preferredUnit, type QuantityKind, UNITS } from '@noonwing/quantities';
import { splitSourceWord } from './source-word.js';

/** What one input shows and does; a pure state machine, so that it can be tested without a page. */
export interface FieldInput {
  /** As shown in the input. */
  readonly text: string;
  /** What Escape brings back. */
  readonly restore: string;
  /** Unit of a bare number, and of stepping. */
  readonly unit: string;
  readonly kind: QuantityKind;
  readonly editing: boolean;
  /** Said beside the input; the text stays as typed. */
  readonly problem?: string;
}

export interface InputRules {
  readonly kinds: readonly QuantityKind[];
  /** Natural step [SI]; one of the unit where absent. */
  readonly step?: number;
}

export type InputEvent =
  | { readonly kind: 'type'; readonly text: string }
  /** Arrow up 1, down -1; with shift 10, with alt 0.1. */
  | { readonly kind: 'step'; readonly times: number }
  | { readonly kind: 'escape' }
  /** Enter or leaving the field. */
  | { readonly kind: 'commit' }
  /** The file changed elsewhere: taken over unless the builder is typing. */
  | { readonly kind: 'changed'; readonly shown: string };

export interface InputStep {
  readonly input: FieldInput;
  /** Text to set in the file, with unit: for `setValue`. */
  readonly set?: string;
}

export const fieldInput = (shown: string, kind: QuantityKind, unit: string): FieldInput => ({
  text: shown,
  restore: shown,
  unit,
  kind,
  editing: false,
});

const bareNumber = /^\s*[-+−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)\s*(?:(?:±|\+-|\+\/-)\s*(?:\d+(?:[.,]\d*)?|[.,]\d+)\s*)?$/;

/** A number without unit, with or without uncertainty. */
export const isBare = (text: string): boolean => bareNumber.test(text);

/** A typed text with the unit that the field shows, where none was typed: '15 in' stays, '380' becomes '380 mm'. */
export function withUnit(text: string, unit: string): string {
  const plain = text.trim();
  if (unit === '' || !bareNumber.test(plain)) return plain;
  const [value, sigma] = plain.split(/±|\+\/-|\+-/);
  return sigma === undefined ? `${value!.trim()} ${unit}` : `${value!.trim()} ${unit} ± ${sigma.trim()} ${unit}`;
}

const differenceKind = (kind: QuantityKind): QuantityKind => (kind === 'temperature' ? 'temperature difference' : kind);

/** One step up or down from what is typed; the number of decimals stays what the step needs. */
function stepped(input: FieldInput, rules: InputRules, times: number): InputStep {
  const parsed = parseQuantity(withUnit(input.text, input.unit), rules.kinds);
  if (!parsed.ok) return { input: { ...input, problem: parsed.hint || 'not a number with a unit' } };
  const kind = parsed.kind;
  // The unit that was typed stays: '15 in' steps in inches.
  const typed = typedUnit(input.text, kind) ?? input.unit;
  const unit = findUnit(typed, kind) === undefined ? preferredUnit(kind, parsed.value) : typed;
  const difference = differenceKind(kind);
  const stepUnit = findUnit(unit, difference) === undefined ? UNITS[difference][0]!.names[0]! : unit;
  const step =
    rules.step === undefined ? 1 : convert(rules.step, difference, UNITS[difference][0]!.names[0]!, stepUnit);
  const written = convert(parsed.value, kind, UNITS[kind][0]!.names[0]!, unit);
  const round = niceStep(step);
  const next = Number(((Math.round(written / round) + times) * round).toPrecision(12));
  // From between two steps the first press goes to the next one in that direction only.
  const exact = Math.abs(written / round - Math.round(written / round)) < 1e-9;
  const value =
    exact || Math.abs(times) !== 1
      ? next
      : (times > 0 ? Math.ceil(written / round) : Math.floor(written / round)) * round;
  const shown = `${Number(value.toPrecision(12))}`;
  const sigma = /(?:±|\+\/-|\+-)\s*(.*)$/.exec(input.text)?.[1];
  const text = `${shown}${unit === '' ? '' : ` ${unit}`}${sigma === undefined ? '' : ` ± ${withUnit(sigma, unit)}`}`;
  const { problem: _, ...rest } = input;
  return { input: { ...rest, text, editing: true }, set: text };
}

/** A step in another unit, such as 10 mm in inches, becomes the nearest round one there. */
function niceStep(step: number): number {
  const order = 10 ** Math.floor(Math.log10(Math.abs(step)));
  const lead = Math.abs(step) / order;
  const nice = [1, 2, 2.5, 5, 10].reduce((best, one) => (Math.abs(one - lead) < Math.abs(best - lead) ? one : best));
  return Math.abs(lead - Math.round(lead * 100) / 100) < 1e-9 ? Math.abs(step) : nice * order;
}

function typedUnit(text: string, kind: QuantityKind): string | undefined {
  const after = /^\s*[-+−]?[\d.,\s]*([^\d\s±+-].*?)?\s*(?:(?:±|\+\/-|\+-).*)?$/.exec(text)?.[1]?.trim();
  if (after === undefined || after === '') return undefined;
  return findUnit(after, kind)?.names[0];
}

/** Unit in which a text is written: 'in' of '15 in ± 0.5 in'; undefined where it has none. */
export function writtenUnit(text: string, kind: QuantityKind): string | undefined {
  const { quantity } = splitSourceWord(text);
  const found = /^\s*[-+−]?[\d.,\s]*(?:e[-+]?\d+)?\s*([^\d\s±+-][^±]*?)?\s*(?:(?:±|\+\/-|\+-).*)?$/i.exec(
    quantity,
  )?.[1];
  return found === undefined ? undefined : findUnit(found.trim(), kind)?.names[0];
}

/** The next state of an input. Nothing is clamped: what is out of range is for `setValue` to refuse in words. */
export function nextInput(input: FieldInput, rules: InputRules, event: InputEvent): InputStep {
  const { problem: _, ...clean } = input;
  switch (event.kind) {
    case 'type':
      return { input: { ...clean, text: event.text, editing: true } };
    case 'step':
      return stepped(input, rules, event.times);
    case 'escape':
      return input.text === input.restore
        ? { input: { ...clean, editing: false } }
        : { input: { ...clean, text: input.restore, editing: false }, set: withUnit(input.restore, input.unit) };
    case 'commit': {
      if (!input.editing) return { input: clean };
      const set = withUnit(input.text, input.unit);
      return { input: { ...clean, editing: false }, set };
    }
    case 'changed':
      return input.editing ? { input } : { input: { ...clean, text: event.shown, restore: event.shown } };
  }
}

/** After `setValue`: what was refused is said and stays as typed; what was taken is the new state to restore. */
export function answered(
  input: FieldInput,
  result: { readonly ok: true } | { readonly ok: false; readonly reason: string; readonly remedy: string },
): FieldInput {
  const { problem: _, ...clean } = input;
  if (!result.ok)
    return { ...clean, problem: result.remedy === '' ? result.reason : `${result.reason}; ${result.remedy}` };
  return input.editing ? clean : { ...clean, restore: input.text };
}
