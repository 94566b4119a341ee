import { aircraftField, inside, keyOf, parsePath } from '@noonwing/design';
import { describeField } from '../../core/field-text.js';

/** One field of the schema of design files. */
type AnyField = (typeof aircraftField)['fields'][string];

/** How a key of the design file is written, as far as its input differs. */
export type Form =
  /** A quantity, or a word of a list. */
  | 'value'
  /** A notation or a word of a list: typed, with the words offered. */
  | 'words'
  | 'text'
  | 'flag'
  /** Keys of its own. */
  | 'group'
  /** A single value, or keys of its own. */
  | 'short'
  /** Named by the builder. */
  | 'entries'
  | 'list'
  /** Lists of plain numbers: written in the text only. */
  | 'numbers';

export interface KeyForm {
  readonly form: Form;
  /** Keys of a group, as written. */
  readonly keys: readonly string[];
  readonly required: boolean;
  /** Name for people. */
  readonly label: string;
  /** Words that stand for the whole group, such as 'none'. */
  readonly instead: readonly string[];
  /** Words beside a quantity, such as 'least power'. */
  readonly words: readonly string[];
  readonly help: string;
}

const options = (field: AnyField): readonly AnyField[] =>
  field.tag === 'either' ? field.options.flatMap(options) : [field];

const choicesOf = (fields: readonly AnyField[]): readonly string[] =>
  fields.flatMap((field) => (field.tag === 'choice' ? field.choices : []));

function formOf(field: AnyField): Pick<KeyForm, 'form' | 'keys' | 'instead' | 'words'> {
  const ways = options(field);
  const none = { keys: [], instead: [], words: [] };
  const object = ways.find((way) => way.tag === 'object');
  if (object?.tag === 'object') {
    return { form: 'group', keys: Object.keys(object.fields).map(keyOf), instead: choicesOf(ways), words: [] };
  }
  const [first] = ways;
  switch (first?.tag) {
    case 'short': {
      const full = first.full.tag === 'object' ? Object.keys(first.full.fields).map(keyOf) : [];
      return { form: 'short', keys: full, instead: [], words: [] };
    }
    case 'record':
      return { ...none, form: 'entries' };
    case 'list':
      return { ...none, form: first.item.tag === 'numbers' ? 'numbers' : 'list' };
    case 'flag':
      return { ...none, form: 'flag' };
    case 'text':
      return { ...none, form: 'text' };
    case 'variants':
      return { ...none, form: 'group' };
    default:
  }
  const words = choicesOf(ways);
  if (ways.some(({ tag }) => tag === 'notation')) return { ...none, form: 'words', words };
  return { ...none, form: 'value', words: ways.some(({ tag }) => tag === 'quantity') ? words : [] };
}

const known = new Map<string, KeyForm | undefined>();

/** How the key at a path is written; undefined where the schema has no such key. */
export function formAt(path: string): KeyForm | undefined {
  if (known.has(path)) return known.get(path);
  let fields: readonly AnyField[] = [aircraftField as AnyField];
  for (const step of parsePath(path)) fields = fields.flatMap((field) => inside(field, step));
  const [field] = fields;
  const found =
    field === undefined
      ? undefined
      : {
          ...formOf(field),
          required: field.required === true,
          label: describeField('design', path)?.label ?? lastKey(path),
          help: field.help,
        };
  known.set(path, found);
  return found;
}

/** How the single value of a short form is written. */
export function shortFormAt(path: string): Pick<KeyForm, 'form' | 'words'> | undefined {
  let fields: readonly AnyField[] = [aircraftField as AnyField];
  for (const step of parsePath(path)) fields = fields.flatMap((field) => inside(field, step));
  const [field] = fields;
  return field?.tag === 'short' ? formOf(field.short) : undefined;
}

/** Key that holds the single value of a short form once it is written in full. */
export const FULL_KEYS: Readonly<Record<string, (text: string) => string>> = {
  mass: () => 'mass',
  power: () => 'power',
  area: () => 'area',
  material: () => 'material',
  like: (text) => (/^\d/.test(text.trim()) ? 'size' : 'like'),
};

export const childPath = (path: string, key: string): string => (path === '' ? key : `${path}.${key}`);

/** What people call the last key of a path. */
export const labelAt = (path: string): string => formAt(path)?.label ?? lastKey(path);

/** Last key of a path, without the number of a list entry. */
export const lastKey = (path: string): string => path.slice(path.lastIndexOf('.') + 1).replace(/\[\d+\]$/, '');
