import { isScalar } from 'yaml';
import { type FileDocument, nodeAt } from './document/document.js';
import type { Message } from './document/message.js';
import { scalarText } from './schema/report.js';

export type FileKind = 'design' | 'day';

/** Newest version of each format that this program reads. */
export const FORMAT_VERSIONS: Readonly<Record<FileKind, number>> = { design: 1, day: 1 };

const TITLES: Readonly<Record<FileKind, string>> = { design: 'a design file', day: 'a day plan' };

/** Whether the file says that it is of this kind and of a version that can be read; the message otherwise. */
export function versionMessage(document: FileDocument, kind: FileKind): Message | undefined {
  const wanted = `${kind} ${FORMAT_VERSIONS[kind]}`;
  const node = nodeAt(document, ['noonwing']);
  const written = isScalar(node) ? scalarText(node).trim() : '';
  if (written === wanted) return undefined;
  const expected = `${TITLES[kind]}: "noonwing: ${wanted}"`;
  const place = document.position(node?.range?.[0] ?? 0);
  const message = (found: string, hint: string): Message => ({
    severity: 'error',
    ...place,
    path: 'noonwing',
    found,
    expected,
    hint,
  });
  if (node === undefined)
    return message('no line that says what the file is', `write "noonwing: ${wanted}" in the first line`);
  const parts = /^(\w+)\s+(\d+)$/.exec(written);
  const other = parts?.[1] as FileKind | undefined;
  if (parts === null || !(other! in FORMAT_VERSIONS))
    return message(`"${written.slice(0, 40)}"`, `write "noonwing: ${wanted}"`);
  if (other !== kind) return message(TITLES[other!], `give ${TITLES[kind]} here`);
  const newer = Number(parts[2]) > FORMAT_VERSIONS[kind];
  return message(
    `version ${parts[2]}`,
    newer ? 'the file was written by a newer noonwing: update the program' : 'there is no such version',
  );
}
