import { type QuantityKind, suggestedUnits } from '@noonwing/quantities';
import type { Path } from '../document/message.js';
import { type AnyField, type Bounds, keyOf, keySpelling, propertiesBySpelling } from './field.js';
import { usualBounds } from './usual.js';
import { boundsText } from './words.js';

/** What a key holds, for help, unit-aware inputs and levers. */
export interface KeyDescription {
  readonly help: string;
  /** Name for people: the key, or more words where the key is short. */
  readonly label: string;
  /** Kinds of quantity that are accepted; empty where it is no quantity. */
  readonly kinds: readonly QuantityKind[];
  /** Units to offer, the usual ones first. */
  readonly units: readonly string[];
  /** Natural step of the lever, as written. */
  readonly step?: string;
  readonly example?: string;
  /** What the reader takes [SI]; absent where anything goes. */
  readonly bounds?: Bounds;
  /** The same in words: 'above 0', 'from 0 to 1'. */
  readonly limits?: string;
  /** What such a value usually is, in words; others are taken and said. */
  readonly usual?: string;
  /** Words to choose from; empty where there is no such choice. */
  readonly choices: readonly string[];
  /** Keys of a group; empty for a single value, and for groups whose names the builder chooses. */
  readonly keys: readonly string[];
}

/** Field one step further in; several where a value may be written in several ways. */
export function inside(field: AnyField, step: string | number): readonly AnyField[] {
  switch (field.tag) {
    case 'object': {
      const property = typeof step === 'string' ? propertiesBySpelling(field.fields).get(keySpelling(step)) : undefined;
      return property === undefined ? [] : [field.fields[property]!];
    }
    case 'list':
      return typeof step === 'number' ? [field.item] : [];
    case 'record':
      return typeof step === 'string' ? [field.item] : [];
    case 'short':
      return inside(field.full, step);
    case 'either':
      return field.options.flatMap((option) => inside(option, step));
    case 'variants':
      return Object.values(field.variants).flatMap((option) => inside(option, step));
    default:
      return [];
  }
}

/** The ways in which one value may be written. */
function ways(field: AnyField): readonly AnyField[] {
  if (field.tag === 'short') return [...ways(field.short), ...ways(field.full)];
  return field.tag === 'either' ? field.options.flatMap(ways) : [field];
}

const labelAt = (field: AnyField, step: string | number | undefined): string =>
  field.label ?? (step === undefined ? field.help : typeof step === 'number' ? `${step + 1}` : step);

/** Words of one step into the schema. `inner` - the field that the step leads to */
function stepWords(outer: AnyField | undefined, inner: AnyField, step: string | number): string {
  const holder = outer?.tag === 'short' ? outer.full : outer;
  if (typeof step === 'number') {
    return `${holder?.tag === 'list' && holder.entry !== undefined ? `${holder.entry} ` : ''}${step + 1}`;
  }
  return holder?.tag === 'record' ? `${holder.entry} "${step}"` : labelAt(inner, step);
}

/**
 * What a path is called by people: 'row of cells "top": number of cells', 'surface "wing", station 2: chord'.
 * Keys that only hold named entries are left out. Undefined where there is no such key.
 * root - schema of the file; path - keys and indices as in messages
 */
export function wordsOfKey(root: AnyField, path: Path): string | undefined {
  const words: string[] = [];
  let fields: readonly AnyField[] = [root];
  for (const [i, step] of path.entries()) {
    const next = fields.flatMap((field) => inside(field, step).map((to) => [field, to] as const));
    const [first] = next;
    if (first === undefined) return undefined;
    const [, to] = first;
    const isLast = i === path.length - 1;
    const isHolder = to.tag === 'record' || (to.tag === 'list' && to.entry !== undefined);
    // A name is enough without the group that it stands in: a row of cells is part of the array.
    const isNamed = first[0].tag === 'record';
    const isAbove = !isLast && !isNamed && holdsNames(to, path[i + 1]!, path.length > i + 2);
    if (isLast || !(isHolder || isAbove)) words.push(stepWords(holderOf(first[0], step), to, step));
    fields = next.map(([, field]) => field);
  }
  const last = words.pop();
  return last === undefined ? undefined : words.length === 0 ? last : `${words.join(', ')}: ${last}`;
}

/** Whether the next step leads to named entries, one of which the path goes into. */
const holdsNames = (field: AnyField, step: string | number, goesOn: boolean): boolean =>
  goesOn && inside(field, step).some(({ tag }) => tag === 'record');

/** The way of writing a field that has this step. */
const holderOf = (field: AnyField, step: string | number): AnyField =>
  field.tag === 'either' ? (field.options.find((option) => inside(option, step).length > 0) ?? field) : field;

/**
 * What the key at a path holds, or undefined where there is no such key.
 * root - schema of the file; path - keys and indices as in messages
 */
export function describeKey(root: AnyField, path: Path): KeyDescription | undefined {
  let fields: readonly AnyField[] = [root];
  for (const step of path) fields = fields.flatMap((field) => inside(field, step));
  const field = fields[0];
  if (field === undefined) return undefined;
  const all = ways(field);
  const quantity = all.find((way) => way.tag === 'quantity');
  const kinds = quantity?.kinds ?? [];
  const limits = quantity === undefined ? '' : boundsText(quantity.bounds, kinds[0]!);
  const usual = quantity === undefined ? undefined : usualBounds(quantity, kinds[0]!);
  return {
    help: field.help,
    label: labelAt(field, path.at(-1)),
    kinds,
    units: kinds.flatMap((kind) => suggestedUnits(kind)),
    ...(quantity?.step === undefined ? {} : { step: quantity.step }),
    ...(quantity?.example === undefined ? {} : { example: quantity.example }),
    ...(quantity === undefined || limits === '' ? {} : { bounds: quantity.bounds, limits }),
    ...(usual === undefined ? {} : { usual: boundsText(usual, kinds[0]!) }),
    choices: all.flatMap((way) => (way.tag === 'choice' ? way.choices : [])),
    keys: all.flatMap((way) => (way.tag === 'object' ? Object.keys(way.fields).map(keyOf) : [])),
  };
}
