import { isMap, isScalar, isSeq, type Node } from 'yaml';
import type { FileDocument } from '../document/document.js';
import { type Message, type Path, pathText, type Severity } from '../document/message.js';
import type { AnyField } from './field.js';
import { expectedOf } from './words.js';

/** What a reader needs beside the node: the file, and where messages go. */
export interface Reading {
  readonly document: FileDocument;
  readonly messages: Message[];
}

interface Finding {
  readonly found: string;
  readonly expected: string;
  readonly hint?: string;
  readonly severity?: Severity;
  /** Index in the text, where it is not the node's start. */
  readonly offset?: number;
}

export function report(reading: Reading, node: Node | undefined | null, path: Path, finding: Finding): undefined {
  const offset = finding.offset ?? node?.range?.[0] ?? 0;
  reading.messages.push({
    severity: finding.severity ?? 'error',
    ...reading.document.position(offset),
    path: pathText(path),
    found: finding.found,
    expected: finding.expected,
    hint: finding.hint ?? '',
  });
  return undefined;
}

const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);
export const quoted = (text: string): string => `"${shortened(text.replace(/\s+/g, ' ').trim())}"`;

/** How a node looks to the person who wrote it. */
export function looks(node: unknown): string {
  if (node === undefined || node === null) return 'nothing';
  if (isMap(node)) return 'a group of keys';
  if (isSeq(node)) return 'a list';
  if (isScalar(node)) return node.value === null || node.value === '' ? 'nothing' : quoted(scalarText(node));
  return 'something else';
}

/** A scalar as it was written: 1.50 stays 1.50, and yes stays yes. */
export function scalarText(node: { source?: string; value: unknown }): string {
  return typeof node.value === 'string' ? node.value : (node.source ?? String(node.value));
}

/** Text of a scalar; undefined, after reporting, where there is none. */
export function textOf(
  node: Node | null | undefined,
  field: AnyField,
  path: Path,
  reading: Reading,
): string | undefined {
  if (isScalar(node) && node.value !== null && node.value !== '') return scalarText(node);
  return report(reading, node, path, { found: looks(node), expected: expectedOf(field) });
}
