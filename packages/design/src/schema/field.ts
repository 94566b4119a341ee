import type { NotationError, QuantityKind } from '@noonwing/quantities';

/** Where a number comes from. */
export type Source = 'stated' | 'assumed' | 'measured' | 'library';

/** Words behind a number that say so. */
export const SOURCE_WORDS: Readonly<Record<string, Source>> = {
  assumed: 'assumed',
  guessed: 'assumed',
  estimated: 'assumed',
  measured: 'measured',
  weighed: 'measured',
  library: 'library',
};

/** A number of a design: SI value, SI standard uncertainty where known, and where it comes from. */
export interface Valued {
  readonly value: number;
  readonly sigma?: number | undefined;
  readonly source: Source;
}

/** A quantity whose unit decided between two kinds, such as a capacity in Ah or in Wh. */
export interface KindedValue extends Valued {
  readonly kind: QuantityKind;
}

/** What a field may hold, in SI; each bound with the words that a message needs. */
export interface Bounds {
  /** Greater than this [SI] */
  readonly above?: number;
  /** At least this [SI] */
  readonly from?: number;
  /** At most this [SI] */
  readonly to?: number;
}

interface Common {
  readonly help: string;
  /** Name for people, where the key alone says too little: 'aft of the datum (x)'. */
  readonly label?: string;
  readonly required?: boolean;
}

export interface QuantityField extends Common {
  readonly tag: 'quantity';
  readonly kinds: readonly QuantityKind[];
  readonly bounds: Bounds;
  /** What such a value usually is [SI]; others are taken and said. That of its kind where absent. */
  readonly usual?: Bounds;
  /** Natural step of a lever, as written: '10 mm'. */
  readonly step?: string;
  /** An example as written, for help and schema. */
  readonly example?: string;
}

export interface TextField extends Common {
  readonly tag: 'text';
}

export interface ChoiceField extends Common {
  readonly tag: 'choice';
  readonly choices: readonly string[];
}

export interface FlagField extends Common {
  readonly tag: 'flag';
}

/** A notation of the trade that a function reads from text: a date, a pack layout, a propeller size. */
export interface NotationField extends Common {
  readonly tag: 'notation';
  readonly parse: (text: string) => { readonly ok: true; readonly value: unknown } | NotationError;
  readonly write: (value: never) => string;
  readonly example: string;
}

/** A sequence of plain numbers without unit, such as one point of section coordinates in chords. */
export interface NumbersField extends Common {
  readonly tag: 'numbers';
  readonly count: number;
}

export interface ListField extends Common {
  readonly tag: 'list';
  readonly item: AnyField;
  readonly least: number;
  /** What one entry is called: 'station'. */
  readonly entry?: string;
}

/** Entries with names that the builder chooses: surfaces, masses, loads. */
export interface RecordField extends Common {
  readonly tag: 'record';
  readonly item: AnyField;
  /** What one entry is called: 'row of cells'. */
  readonly entry: string;
}

export interface ObjectField extends Common {
  readonly tag: 'object';
  readonly fields: Readonly<Record<string, AnyField>>;
}

/** A short form (one scalar) or the full mapping; `lift` and `lower` go from the short form to the mapping and back. */
export interface ShortField extends Common {
  readonly tag: 'short';
  readonly short: AnyField;
  readonly full: AnyField;
  readonly lift: (value: never) => unknown;
  readonly lower: (value: never) => unknown;
}

/** A mapping whose fields depend on the word under one key. */
export interface VariantsField extends Common {
  readonly tag: 'variants';
  readonly key: string;
  readonly variants: Readonly<Record<string, ObjectField>>;
}

/** One of several fields by what is written: the first whose reader takes the scalar. */
export interface EitherField extends Common {
  readonly tag: 'either';
  readonly options: readonly AnyField[];
}

export type AnyField =
  | QuantityField
  | TextField
  | ChoiceField
  | FlagField
  | NotationField
  | NumbersField
  | ListField
  | RecordField
  | ObjectField
  | ShortField
  | VariantsField
  | EitherField;

/** A field together with the type of what it reads as. The type exists for the compiler only. */
export type Field<T> = AnyField & { readonly reads?: T };
export type Required<T> = Field<T> & { readonly required: true };

/** Type of what a field reads as. */
export type Read<F> = F extends { readonly reads?: infer T } ? Exclude<T, undefined> : never;

// biome-ignore lint/suspicious/noExplicitAny: the value type of a field is contravariant in nothing here; any keeps inference simple
type Fields = Readonly<Record<string, Field<any>>>;
type RequiredKeys<S extends Fields> = { [K in keyof S]: S[K] extends { readonly required: true } ? K : never }[keyof S];
type Flat<T> = { readonly [K in keyof T]: T[K] };

/** Required fields present, the others optional. */
export type ReadObject<S extends Fields> = Flat<
  { readonly [K in RequiredKeys<S>]: Read<S[K]> } & {
    readonly [K in Exclude<keyof S, RequiredKeys<S>>]?: Read<S[K]> | undefined;
  }
>;

interface QuantityOptions {
  readonly bounds?: Bounds;
  readonly usual?: Bounds;
  readonly step?: string;
  readonly example?: string;
}

export const POSITIVE: Bounds = { above: 0 };
export const NOT_NEGATIVE: Bounds = { from: 0 };
export const SHARE: Bounds = { from: 0, to: 1 };
/** Above sea level, where such aircraft fly. */
export const ALTITUDE: Bounds = { from: -430, to: 20_000 };

const quantityField = (kinds: readonly QuantityKind[], help: string, options: QuantityOptions): QuantityField => ({
  tag: 'quantity',
  kinds,
  help,
  bounds: options.bounds ?? {},
  ...(options.usual === undefined ? {} : { usual: options.usual }),
  ...(options.step === undefined ? {} : { step: options.step }),
  ...(options.example === undefined ? {} : { example: options.example }),
});

export const quantity = (kind: QuantityKind, help: string, options: QuantityOptions = {}): Field<Valued> =>
  quantityField([kind], help, options);

export const quantityOf = (
  kinds: readonly QuantityKind[],
  help: string,
  options: QuantityOptions = {},
): Field<KindedValue> => quantityField(kinds, help, options);

export const text = (help: string): Field<string> => ({ tag: 'text', help });

export const choice = <const T extends string>(choices: readonly T[], help: string): Field<T> => ({
  tag: 'choice',
  choices,
  help,
});

export const flag = (help: string): Field<boolean> => ({ tag: 'flag', help });

export const notation = <T>(
  help: string,
  example: string,
  parse: (text: string) => { readonly ok: true; readonly value: T } | NotationError,
  write: (value: T) => string,
): Field<T> => ({ tag: 'notation', help, example, parse, write: write as (value: never) => string });

export const numbers = (count: number, help: string): Field<readonly number[]> => ({ tag: 'numbers', count, help });

export const list = <T>(item: Field<T>, help: string, least = 0, entry?: string): Field<readonly T[]> => ({
  tag: 'list',
  item,
  help,
  least,
  ...(entry === undefined ? {} : { entry }),
});

/** entry - what one of them is called: 'row of cells' */
export const record = <T>(item: Field<T>, help: string, entry: string): Field<Readonly<Record<string, T>>> => ({
  tag: 'record',
  item,
  help,
  entry,
});

export const object = <const S extends Fields>(
  help: string,
  fields: S,
): ObjectField & { readonly reads?: ReadObject<S> } => ({ tag: 'object', help, fields });

export const shortForm = <A, B>(
  help: string,
  short: Field<A>,
  full: Field<B>,
  lift: (value: A) => NoInfer<B>,
  lower: (value: NoInfer<B>) => NoInfer<A> | undefined = () => undefined,
): Field<B> => ({
  tag: 'short',
  help,
  short,
  full,
  lift: lift as (value: never) => unknown,
  lower: lower as (value: never) => unknown,
});

type VariantValue<K extends string, V extends Readonly<Record<string, ObjectField>>> = {
  readonly [W in keyof V]: Flat<{ readonly [P in K]: W } & Read<V[W]>>;
}[keyof V];

export const variants = <const K extends string, const V extends Readonly<Record<string, ObjectField>>>(
  key: K,
  help: string,
  choices: V,
): Field<VariantValue<K, V>> => ({ tag: 'variants', key, help, variants: choices });

export const either = <A, B>(help: string, first: Field<A>, second: Field<B>): Field<A | B> => ({
  tag: 'either',
  help,
  options: [first, second],
});

/** With a name for people, where the key is too short to be understood alone. */
export const labelled = <F extends AnyField>(label: string, field: F): F => ({ ...field, label });

export const required = <F extends AnyField>(field: F): F & { readonly required: true } => ({
  ...field,
  required: true,
});

/** Property name to the key of the file: 'noLoadCurrent' is written 'no load current'. */
export const keyOf = (property: string): string => property.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** Spelling of a key without what people vary: capitals, hyphens, underscores, doubled spaces. */
export const keySpelling = (key: string): string =>
  key
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .replace(/[-_\s]+/g, ' ')
    .toLowerCase()
    .trim();

const spellings = new WeakMap<object, ReadonlyMap<string, string>>();

/** Property of each key of a group, by the spelling of the key; made once for a group, as every edit of a file reads by it. */
export function propertiesBySpelling(fields: Readonly<Record<string, unknown>>): ReadonlyMap<string, string> {
  const known = spellings.get(fields);
  if (known !== undefined) return known;
  const made = new Map(Object.keys(fields).map((property) => [keySpelling(property), property]));
  spellings.set(fields, made);
  return made;
}
