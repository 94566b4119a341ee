import { nearest } from '@noonwing/quantities';
import { isMap, isScalar, isSeq, type Node, type YAMLMap } from 'yaml';
import { type Message, type Path, pathText } from '../document/message.js';
import {
  type AnyField,
  type EitherField,
  keyOf,
  keySpelling,
  type ListField,
  type ObjectField,
  propertiesBySpelling,
  type RecordField,
  type ShortField,
  type VariantsField,
} from './field.js';
import { readChoice, readFlag, readNotation, readNumbers, readQuantity } from './read-scalar.js';
import { looks, quoted, type Reading, report, scalarText, textOf } from './report.js';
import { expectedOf } from './words.js';

function readList(field: ListField, node: Node | null | undefined, path: Path, reading: Reading): unknown {
  if (!isSeq(node))
    return report(reading, node, path, {
      found: looks(node),
      expected: expectedOf(field),
      hint: 'start each entry with "- "',
    });
  if (node.items.length < field.least) {
    return report(reading, node, path, { found: `${node.items.length} entries`, expected: `at least ${field.least}` });
  }
  return node.items
    .map((item, index) => readField(field.item, item as Node | null, [...path, index], reading))
    .filter((item) => item !== undefined);
}

/** Key of a pair as text; a key that is itself a group or empty is reported. */
function keyText(item: YAMLMap['items'][number], path: Path, reading: Reading): string | undefined {
  const key = item.key as unknown;
  if (isScalar(key) && key.value !== null && key.value !== '') return scalarText(key).trim();
  return report(reading, key as Node, path, { found: looks(key), expected: 'a key in words' });
}

/** Names that would not be plain data on an object. */
const RESERVED = new Set(['__proto__', 'constructor', 'prototype']);

function readRecord(field: RecordField, node: Node | null | undefined, path: Path, reading: Reading): unknown {
  if (!isMap(node)) {
    return report(reading, node, path, {
      found: looks(node),
      expected: expectedOf(field),
      hint: 'write one "name: value" per line, indented',
    });
  }
  const entries: [string, unknown][] = [];
  for (const item of node.items) {
    const name = keyText(item, path, reading);
    if (name === undefined) continue;
    if (RESERVED.has(name)) {
      report(reading, item.key as Node, path, { found: quoted(name), expected: 'another name' });
      continue;
    }
    const value = readField(
      field.item,
      (item.value ?? item.key) as Node,
      [...path, name],
      reading,
      item.value === null,
    );
    if (value !== undefined) entries.push([name, value]);
  }
  return Object.fromEntries(entries);
}

function unknownKey(
  field: ObjectField,
  name: string,
  item: YAMLMap['items'][number],
  path: Path,
  reading: Reading,
): void {
  const keys = Object.keys(field.fields).map(keyOf);
  const near = nearest(name, keys);
  // {mass: 1,5 kg} is to YAML a key "mass" and a key "5 kg" without value.
  const comma = item.value === null && /^\d/.test(name);
  const meant = near === undefined ? '' : `did you mean "${near}"?`;
  report(reading, item.key as Node, [...path, name], {
    found: comma ? `a decimal comma inside brackets, before ${quoted(name)}` : `the key ${quoted(name)}`,
    expected: comma ? 'a decimal point inside brackets' : `one of: ${keys.join(', ')}`,
    hint: comma ? 'inside { } a comma separates keys: write 1.5 kg, or "1,5 kg" in quotes' : meant,
  });
}

export function readObject(field: ObjectField, node: Node | null | undefined, path: Path, reading: Reading): unknown {
  if (!isMap(node)) {
    const keys = Object.keys(field.fields).map(keyOf);
    return report(reading, node, path, {
      found: looks(node),
      expected: `${field.help}: a group with ${keys.slice(0, 6).join(', ')}`,
    });
  }
  const properties = propertiesBySpelling(field.fields);
  const value: Record<string, unknown> = {};
  const seen = new Set<string>();
  for (const item of node.items) {
    const name = keyText(item, path, reading);
    if (name === undefined) continue;
    const property = properties.get(keySpelling(name));
    if (property === undefined) {
      unknownKey(field, name, item, path, reading);
      continue;
    }
    if (seen.has(property)) {
      report(reading, item.key as Node, [...path, name], { found: `${quoted(name)} twice`, expected: 'each key once' });
      continue;
    }
    seen.add(property);
    const place = (item.value ?? item.key) as Node;
    const read = readField(field.fields[property]!, place, [...path, keyOf(property)], reading, item.value === null);
    if (read !== undefined) value[property] = read;
  }
  return missing(field, seen, node, path, reading) ? undefined : value;
}

function missing(field: ObjectField, seen: ReadonlySet<string>, node: Node, path: Path, reading: Reading): boolean {
  const lacking = Object.keys(field.fields).filter(
    (property) => field.fields[property]!.required && !seen.has(property),
  );
  for (const property of lacking) {
    const wanted = field.fields[property]!;
    report(reading, node, [...path, keyOf(property)], {
      found: 'nothing',
      expected: expectedOf(wanted),
      hint: `add "${keyOf(property)}: ..."`,
    });
  }
  return lacking.length > 0;
}

function readShort(field: ShortField, node: Node | null | undefined, path: Path, reading: Reading): unknown {
  if (isMap(node)) return readField(field.full, node, path, reading);
  const value = readField(field.short, node, path, reading);
  return value === undefined ? undefined : field.lift(value as never);
}

function readVariants(field: VariantsField, node: Node | null | undefined, path: Path, reading: Reading): unknown {
  const words = Object.keys(field.variants);
  if (!isMap(node))
    return report(reading, node, path, {
      found: looks(node),
      expected: `a group with "${field.key}: ${words.join(' | ')}"`,
    });
  const item = node.items.find(
    (pair) => isScalar(pair.key) && keySpelling(String(pair.key.value)) === keySpelling(field.key),
  );
  const word = isScalar(item?.value) ? scalarText(item.value) : '';
  const match = words.find((candidate) => keySpelling(candidate) === keySpelling(word));
  if (item === undefined || match === undefined) {
    const near = nearest(word, words);
    return report(reading, (item?.value as Node) ?? node, [...path, field.key], {
      found: word === '' ? 'nothing' : quoted(word),
      expected: `one of: ${words.join(', ')}`,
      hint: near === undefined ? '' : `did you mean "${near}"?`,
    });
  }
  const chosen = field.variants[match]!;
  const marker: AnyField = { tag: 'text', help: field.help };
  const whole: ObjectField = { ...chosen, fields: { [field.key]: marker, ...chosen.fields } };
  const value = readObject(whole, node, path, reading);
  return value === undefined ? undefined : { ...(value as object), [field.key]: match };
}

/** Tries each option quietly; where none fits, the messages of the one that came nearest (fewest, latest) are kept. */
function readEither(field: EitherField, node: Node | null | undefined, path: Path, reading: Reading): unknown {
  let kept: Message[] | undefined;
  for (const option of field.options) {
    const messages: Message[] = [];
    const value = readField(option, node, path, { document: reading.document, messages });
    if (value !== undefined && messages.every((message) => message.severity !== 'error')) {
      reading.messages.push(...messages);
      return value;
    }
    const takes = isMap(node) === (option.tag === 'object' || option.tag === 'record' || option.tag === 'variants');
    if (kept === undefined || takes) kept = messages;
  }
  // A message about the alternative itself names all options; one about a part inside it is already precise.
  const here = pathText(path);
  for (const message of kept ?? []) {
    reading.messages.push(message.path === here ? { ...message, expected: expectedOf(field) } : message);
  }
  return undefined;
}

/**
 * Reads one node by its field. Returns undefined where it cannot be used, after reporting why.
 * empty - the key stands without a value; node is then the key, for the position
 */
export function readField(
  field: AnyField,
  node: Node | null | undefined,
  path: Path,
  reading: Reading,
  empty = false,
): unknown {
  if (empty || (isScalar(node) && node.value === null && field.tag !== 'text')) {
    return report(reading, node, path, {
      found: 'nothing',
      expected: expectedOf(field),
      hint: 'write a value or remove the key',
    });
  }
  switch (field.tag) {
    case 'quantity':
      return readQuantity(field, node, path, reading);
    case 'text':
      return textOf(node, field, path, reading)?.trim();
    case 'choice':
      return readChoice(field, node, path, reading);
    case 'flag':
      return readFlag(field, node, path, reading);
    case 'notation':
      return readNotation(field, node, path, reading);
    case 'numbers':
      return readNumbers(field, node, path, reading);
    case 'list':
      return readList(field, node, path, reading);
    case 'record':
      return readRecord(field, node, path, reading);
    case 'object':
      return readObject(field, node, path, reading);
    case 'short':
      return readShort(field, node, path, reading);
    case 'variants':
      return readVariants(field, node, path, reading);
    case 'either':
      return readEither(field, node, path, reading);
  }
}
