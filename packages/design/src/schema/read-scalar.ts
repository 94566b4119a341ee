import { nearest, parseQuantity, type QuantityKind } from '@noonwing/quantities';
import { isScalar, isSeq, type Node } from 'yaml';
import type { Path } from '../document/message.js';
import type { AnyField, Bounds, NotationField, NumbersField, QuantityField, Source } from './field.js';
import { keySpelling, SOURCE_WORDS } from './field.js';
import { looks, quoted, type Reading, report, textOf } from './report.js';
import { usualBounds } from './usual.js';
import { boundsText, expectedOf, quantityLimit } from './words.js';

/** '420 g weighed' or '60 mohm (assumed)': the quantity and the word that says where it comes from. */
export function splitSource(text: string): { readonly quantity: string; readonly source: Source } {
  const found = /^(.*\S)\s*[\s(](assumed|guessed|estimated|measured|weighed|library)\)?\s*$/i.exec(text);
  if (found === null) return { quantity: text, source: 'stated' };
  return { quantity: found[1]!.trim(), source: SOURCE_WORDS[found[2]!.toLowerCase()]! };
}

const outside = (value: number, bounds: Bounds): boolean =>
  (bounds.above !== undefined && !(value > bounds.above)) ||
  (bounds.from !== undefined && !(value >= bounds.from - 1e-12)) ||
  (bounds.to !== undefined && !(value <= bounds.to + 1e-12));

/** A value that hardly any such aircraft has is kept, and said at its field. */
function sayUnusual(
  field: QuantityField,
  { value, kind }: { readonly value: number; readonly kind: QuantityKind },
  found: string,
  node: Node | null | undefined,
  path: Path,
  reading: Reading,
): void {
  const usual = usualBounds(field, kind);
  if (usual === undefined || !outside(value, usual)) return;
  report(reading, node, path, {
    severity: 'warning',
    found,
    expected: `usually a value ${boundsText(usual, kind)}`,
    hint: 'it is taken as written; look at its unit and its digits',
  });
}

export function readQuantity(
  field: QuantityField,
  node: Node | null | undefined,
  path: Path,
  reading: Reading,
): unknown {
  const written = textOf(node, field, path, reading);
  if (written === undefined) return undefined;
  const { quantity, source } = splitSource(written);
  const parsed = parseQuantity(quantity, field.kinds);
  if (!parsed.ok) {
    const start = node?.range?.[0] ?? 0;
    // Inside quotes the text starts one character later.
    const inner = isScalar(node) && (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE') ? 1 : 0;
    return report(reading, node, path, {
      found: quoted(written),
      expected: expectedOf(field),
      hint: parsed.hint,
      offset: start + inner + parsed.position,
    });
  }
  if (outside(parsed.value, field.bounds)) {
    return report(reading, node, path, {
      found: quoted(written),
      expected: expectedOf(field),
      hint: quantityLimit(field, parsed.kind),
    });
  }
  sayUnusual(field, parsed, quoted(written), node, path, reading);
  const base =
    parsed.sigma === undefined ? { value: parsed.value, source } : { value: parsed.value, sigma: parsed.sigma, source };
  return field.kinds.length === 1 ? base : { ...base, kind: parsed.kind };
}

const FLAGS: Readonly<Record<string, boolean>> = {
  yes: true,
  true: true,
  on: true,
  no: false,
  false: false,
  off: false,
};

export function readFlag(
  field: AnyField,
  node: Node | null | undefined,
  path: Path,
  reading: Reading,
): boolean | undefined {
  const written = textOf(node, field, path, reading);
  if (written === undefined) return undefined;
  const value = FLAGS[written.trim().toLowerCase()];
  return value ?? report(reading, node, path, { found: quoted(written), expected: 'yes or no' });
}

export function readChoice(
  field: AnyField & { choices: readonly string[] },
  node: Node | null | undefined,
  path: Path,
  reading: Reading,
) {
  const written = textOf(node, field, path, reading);
  if (written === undefined) return undefined;
  const spelling = keySpelling(written);
  const found = field.choices.find((candidate) => candidate === written || keySpelling(candidate) === spelling);
  if (found !== undefined) return found;
  const near = nearest(written.trim(), field.choices);
  const hint = near === undefined ? '' : `did you mean "${near}"?`;
  return report(reading, node, path, { found: quoted(written), expected: expectedOf(field), hint });
}

export function readNotation(
  field: NotationField,
  node: Node | null | undefined,
  path: Path,
  reading: Reading,
): unknown {
  const written = textOf(node, field, path, reading);
  if (written === undefined) return undefined;
  const parsed = field.parse(written);
  if (parsed.ok) return parsed.value;
  return report(reading, node, path, { found: quoted(written), expected: parsed.expected, hint: parsed.hint });
}

export function readNumbers(field: NumbersField, node: Node | null | undefined, path: Path, reading: Reading): unknown {
  const items = isSeq(node)
    ? node.items.map((item) => (isScalar(item) ? Number(item.value ?? Number.NaN) : Number.NaN))
    : [];
  const fits = items.length === field.count && items.every((item) => Number.isFinite(item));
  return fits
    ? items
    : report(reading, node, path, { found: looks(node), expected: expectedOf(field), hint: field.help });
}
