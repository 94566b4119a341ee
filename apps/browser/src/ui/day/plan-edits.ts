import { nodeAt, parsePath } from '@noonwing/design';
import type { ValueEdit } from '../../core/commands.js';
import { fieldValue } from '../../core/fields.js';
import { coordinateEdits, distanceBetween } from '../../core/places.js';
import { readingOfPlan } from '../../core/reading.js';

/** The text of a single value at a path of the plan; undefined for a group or nothing. */
export function plainTextAt(plan: string, path: string): string | undefined {
  const node = nodeAt(readingOfPlan(plan).document, parsePath(path)) as
    | { items?: unknown; value?: unknown; source?: string }
    | undefined;
  if (node === undefined || node.items !== undefined || node.value === undefined || node.value === null)
    return undefined;
  return typeof node.value === 'string' ? node.value.trim() : (node.source ?? String(node.value));
}

export const isGroup = (plan: string, path: string): boolean =>
  (nodeAt(readingOfPlan(plan).document, parsePath(path)) as { items?: unknown } | undefined)?.items !== undefined;

/** Edits that write a short value ('wind: 3 m/s') as a group with that value under a key, so that more can be stated. */
export function asGroup(plan: string, path: string, key: string, otherwise = ''): readonly ValueEdit[] {
  if (isGroup(plan, path)) return [];
  const text = plainTextAt(plan, path) ?? otherwise;
  return [...(plainTextAt(plan, path) === undefined ? [] : [{ path }]), { path: `${path}.${key}`, text }];
}

/** Within this distance a new point is the same place: its name, ground and clock stay [m]. */
const samePlace = 20_000;

export interface PlaceChange {
  readonly edits: readonly ValueEdit[];
  /** What was taken besides the point, and what should be looked at. */
  readonly note: string;
}

/** Edits for a new point [rad]: near the old one only the point changes, otherwise name, altitude and clock follow. */
export function placeChange(plan: string, at: { readonly latitude: number; readonly longitude: number }): PlaceChange {
  const before = readingOfPlan(plan).plan?.place.at;
  const { edits, note } = coordinateEdits(at);
  const grouped = withGroup(plan, edits);
  if (before === undefined || distanceBetween(before, at) > samePlace) return { edits: grouped, note };
  return { edits: withGroup(plan, edits.slice(0, 1)), note: 'Name, altitude and time zone stay.' };
}

/** Edits of `place.at` and the like, also where the plan has its place in one line. */
export function withGroup(plan: string, edits: readonly ValueEdit[]): readonly ValueEdit[] {
  const isShort = plainTextAt(plan, 'place') !== undefined;
  if (!isShort || !edits.some(({ path }) => path.startsWith('place.'))) return edits;
  // What is not there need not be taken away.
  const needed = edits.filter(({ path, text }) => text !== undefined || !path.startsWith('place.'));
  const point = needed.some(({ path }) => path === 'place.at')
    ? []
    : [{ path: 'place.at', text: plainTextAt(plan, 'place')! }];
  return [{ path: 'place' }, ...point, ...needed];
}

/** One line of what an import would set. */
export interface SettingRow {
  readonly path: string;
  readonly before: string;
  readonly after: string;
  readonly isChange: boolean;
}

/** What edits would set, beside what the plan says now. */
export function settingRows(plan: string, edits: readonly ValueEdit[]): readonly SettingRow[] {
  return edits.map(({ path, text = '' }) => {
    const field = fieldValue('day', plan, path);
    const written = field?.text ?? '';
    const before =
      written !== '' ? written : field?.defaultText === undefined ? 'not stated' : `${field.defaultText} (assumed)`;
    return { path, before, after: text === '' ? 'not stated' : text, isChange: written !== text };
  });
}
