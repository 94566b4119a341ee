/** Top-level keys of the design file by the part of the design place that shows them. Each key belongs to one. */
export const partKeys = {
  airframe: ['surfaces', 'bodies', 'extra drag', 'flight', 'level power', 'name', 'notes', 'datum', 'noonwing'],
  balance: ['masses', 'glue wire and paint', 'growth allowance', 'all up mass'],
  array: ['array'],
  drive: ['drive', 'loads', 'regulator efficiency', 'regulator drop out', 'receiver brown out'],
  battery: ['battery'],
  /** What carries load stands in each surface. */
  structure: ['launch'],
  /** No key of its own at the top: that of the flow about the section, which stands in each surface and is shown with it as well. */
  section: [],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type DesignPart = keyof typeof partKeys;

/** Keys of records that belong to the place where one measures. */
export const measuredKeys: readonly string[] = ['measured'];

const headOf = (path: string): string =>
  path
    .split(/[.[]/, 1)[0]!
    .replace(/[-_\s]+/g, ' ')
    .toLowerCase()
    .trim();

/** What carries load in a surface: a part of its own, though it stands in the surface. */
const structurePath = /^surfaces\.[^.]+\.structure(\.|\[|$)/;

/** The part of the design place that shows the field of a path. */
export function partOfPath(path: string): DesignPart | undefined {
  if (structurePath.test(path)) return 'structure';
  const head = headOf(path);
  for (const [part, keys] of Object.entries(partKeys)) {
    if ((keys as readonly string[]).includes(head)) return part as DesignPart;
  }
  return undefined;
}

/** A field of the design file or of the day plan. */
export interface FieldAddress {
  readonly file: 'design' | 'day';
  readonly path: string;
}

/** Place of the application where the field of a path is edited. */
export function placeOfField({ file, path }: FieldAddress): string {
  if (file === 'day') return 'day/plan';
  if (measuredKeys.includes(headOf(path))) return 'measure';
  return `design/${partOfPath(path) ?? 'airframe'}`;
}
