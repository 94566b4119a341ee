import { describeField, fieldWords } from './field-text.js';
import type { Finding } from './view.js';

/**
 * Fields for the places that findings name in words of their own. What reads as a path of the file is that path.
 */
const FIELDS: readonly (readonly [words: RegExp, file: 'design' | 'day', path: string])[] = [
  [/^day plan: ?(.+)$/, 'day', '$1'],
  [/^balance point$|^ballast$/, 'design', 'battery.x'],
  [/^cell data sheet/, 'design', 'array.cell'],
  [/^strings?$/, 'design', 'array.strings'],
  [/^converter efficiency/, 'design', 'array.converters'],
  [/^propeller/, 'design', 'drive.propeller'],
  [/^motor/, 'design', 'drive.motor'],
  [/^speed controller/, 'design', 'drive.speed controller'],
  [/^drive$/, 'design', 'drive'],
  [/^battery$/, 'design', 'battery'],
  [/^flight: ?(.+)$/, 'design', 'flight.$1'],
  [/^measured/, 'design', 'measured'],
  [/^airframe|^lifting surfaces|^span and aspect ratio|^wing$/, 'design', 'surfaces'],
];

/** The field that a finding is about, where its words lead to one. */
export function fieldOf(where: string): Finding['field'] {
  for (const [words, file, path] of FIELDS) {
    const found = words.exec(where.trim());
    if (found === null) continue;
    const named = path.replace('$1', found[1] ?? '');
    if (describeField(file, named) !== undefined) return { file, path: named };
  }
  const path = where.trim();
  // Names that a builder chose are not keys: a path needs a group that the file knows.
  if (/^[a-z][\w .[\]-]*$/i.test(path)) {
    if (describeField('design', path) !== undefined) return { file: 'design', path };
    if (describeField('day', path) !== undefined) return { file: 'day', path };
  }
  return undefined;
}

export function findingOf(
  severity: Finding['severity'],
  of: { readonly code: string; readonly text: string; readonly where: string; readonly remedy: string },
): Finding {
  const field = fieldOf(of.where);
  if (field === undefined) return { severity, ...of };
  const fieldName = fieldWords(field.file, field.path);
  // A bare path is no word: it is said as what it is. 'balance point' and the like stay.
  const isPath = of.where.replace(/^day plan: ?/, '').trim() === field.path && fieldName !== field.path;
  const where = isPath ? `${field.file === 'day' ? 'day plan, ' : ''}${fieldName}` : of.where;
  return { severity, ...of, where, field, fieldName };
}
