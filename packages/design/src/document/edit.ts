import { Document, isMap, isScalar, isSeq, type Node, parseDocument, type Scalar } from 'yaml';
import { type FileDocument, nodeAt, openDocument, pairOf } from './document.js';
import { keepLines } from './keep-lines.js';
import { type Path, pathText } from './message.js';

export type EditResult =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly reason: string; readonly where: string; readonly remedy: string };

const refuse = (reason: string, path: Path, remedy: string): EditResult => ({
  ok: false,
  reason,
  where: pathText(path),
  remedy,
});

/** The new text as YAML holds it: plain where it reads back as itself, on a line of its own or in braces; otherwise in quotes. */
function scalarSource(value: string, indented: number, inBraces = false): string {
  const plain = parseDocument(inBraces ? `{k: ${value}}` : `k: ${value}`, { logLevel: 'silent' });
  const node =
    plain.errors.length === 0 && isMap(plain.contents) ? (plain.contents.items[0]?.value as Node | null) : null;
  const reads = isScalar(node) && (typeof node.value === 'string' ? node.value : node.source) === value;
  if (reads && !node.comment && !value.includes('\n')) return value;
  if (value.includes('\n')) {
    const pad = ' '.repeat(indented + 2);
    return `|\n${value
      .replace(/\s+$/, '')
      .split('\n')
      .map((line) => (line === '' ? '' : pad + line))
      .join('\n')}`;
  }
  return JSON.stringify(value);
}

/** Whether a group on the way is written in braces, where a comma would end the value. */
const isInBraces = (document: FileDocument, path: Path): boolean =>
  path.some((_, length) => {
    const node = nodeAt(document, path.slice(0, length));
    return (isMap(node) || isSeq(node)) && node.flow === true;
  });

function replaced(document: FileDocument, node: Scalar, path: Path, value: string): string {
  const [start, end] = node.range!;
  const block = node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED';
  const { column } = document.position(start);
  const indent = Math.max(0, (path.length - 1) * 2);
  const source = scalarSource(value, block ? indent : Math.min(indent, column), isInBraces(document, path));
  const tail = block && !source.endsWith('\n') ? '\n' : '';
  return document.text.slice(0, start) + source + tail + document.text.slice(end);
}

/** A value under a key that is not there yet: the parts on the way are made; what is written stays as it is. */
function added(document: FileDocument, path: Path, value: string): EditResult {
  const copy = (document.yaml as Document).clone() as Document;
  return addIn(copy, document, path, value) ?? { ok: true, text: writtenLike(document.text, copy) };
}

/** Adds a value to a copy of a document; what refuses it, or undefined. */
function addIn(copy: Document, document: FileDocument, path: Path, value: string): EditResult | undefined {
  const steps = path.map((step, index) => writtenStep(document, path.slice(0, index), step));
  const parentLength =
    [...steps.keys()].reverse().find((length) => copy.hasIn(steps.slice(0, length)) || length === 0) ?? 0;
  const parent = parentLength === 0 ? copy.contents : copy.getIn(steps.slice(0, parentLength), true);
  const fits = typeof steps[parentLength] === 'number' ? isSeq(parent) : isMap(parent);
  if (!fits)
    return refuse(
      'there is a single value where a group is needed',
      path.slice(0, parentLength),
      'edit that value to a group in the text first',
    );
  const source = parseDocument(scalarSource(value, 0), { logLevel: 'silent' }).contents;
  copy.setIn(steps, source);
  return undefined;
}

/** The key as the file spells it, so that 'no-load current' is not written a second time as 'no load current'. */
function writtenStep(document: FileDocument, above: Path, step: string | number): string | number {
  if (typeof step === 'number') return step;
  const pair = pairOf(nodeAt(document, above), step);
  return pair !== undefined && isScalar(pair.key) ? String(pair.key.value) : step;
}

/**
 * Sets the value at a path and returns the new text. An existing value is replaced in place, so that every other
 * character of the file, comments included, stays; a new key is added to its group.
 * document - opened file; path - keys and indices; value - as a person would write it, such as '420 mm'
 */
export function editDocument(document: FileDocument, path: Path, value: string): EditResult {
  if (document.yaml === undefined) return refuse('the file cannot be read as YAML', path, 'correct the file first');
  if (path.length === 0) return refuse('no key is named', path, 'name the key to change');
  const node = nodeAt(document, path);
  if (node !== undefined && !isScalar(node)) {
    return refuse('there is a group here, not a single value', path, 'name one of its keys');
  }
  const result: EditResult = node?.range
    ? { ok: true, text: replaced(document, node as Scalar, path, value) }
    : added(document, path, value);
  if (!result.ok) return result;
  return readsBack(result.text, path, value)
    ? result
    : refuse('the value cannot stand there', path, 'edit the text of the file');
}

function readsBack(text: string, path: Path, value: string): boolean {
  const { document, messages } = openDocument(text);
  const node = messages.length === 0 ? nodeAt(document, path) : undefined;
  if (!isScalar(node)) return false;
  const written = typeof node.value === 'string' ? node.value : (node.source ?? '');
  return written.trim() === value.trim();
}

/** Removes the value at a path, with its key. Comments elsewhere stay. */
export function removeFromDocument(document: FileDocument, path: Path): EditResult {
  if (document.yaml === undefined) return refuse('the file cannot be read as YAML', path, 'correct the file first');
  if (nodeAt(document, path) === undefined || path.length === 0)
    return refuse('there is nothing here', path, 'name a key that is written');
  const copy = document.yaml.clone() as Document;
  copy.deleteIn(path.map((step, index) => writtenStep(document, path.slice(0, index), step)));
  return { ok: true, text: writtenLike(document.text, copy) };
}

/** One of several changes of a file: a value, or the removal of what stands at the path. */
export interface DocumentEdit {
  readonly path: Path;
  readonly text?: string;
}

/**
 * Several edits one after the other, as `editDocument` and `removeFromDocument` make them, but written once wherever keys are
 * added or removed in a row.
 * @returns the text with all of them, or what the first refused one says
 */
export function editDocumentBy(document: FileDocument, edits: readonly DocumentEdit[]): EditResult {
  let opened = document;
  let pending: Document | undefined;
  let fresh: Path[] = [];
  const flush = (): void => {
    if (pending === undefined) return;
    opened = openDocument(writtenLike(opened.text, pending)).document;
    pending = undefined;
    fresh = [];
  };
  for (const { path, text } of edits) {
    if (opened.yaml === undefined || path.length === 0) return editDocument(opened, path, text ?? '');
    // What was only just added is looked up in the text that it makes.
    if (fresh.some((one) => startsWith(one, path))) flush();
    const seen: FileDocument = pending === undefined ? opened : { ...opened, yaml: pending };
    const node = nodeAt(seen, path);
    if (text !== undefined && node !== undefined) {
      flush();
      const result = editDocument(opened, path, text);
      if (!result.ok) return result;
      opened = openDocument(result.text).document;
      continue;
    }
    if (text === undefined && node === undefined) return removeFromDocument(seen, path);
    const copy: Document = pending ?? (opened.yaml.clone() as Document);
    const before: FileDocument = { ...opened, yaml: copy };
    if (text === undefined) copy.deleteIn(path.map((step, index) => writtenStep(before, path.slice(0, index), step)));
    else {
      const refused = addIn(copy, before, path, text);
      if (refused !== undefined) return refused;
      fresh.push(path);
    }
    pending = copy;
  }
  flush();
  return allReadBack(opened, edits);
}

const startsWith = (path: Path, start: Path): boolean => start.every((step, i) => path[i] === step);

/** The text where every value that no later edit changes or removes reads back as it was given. */
function allReadBack(document: FileDocument, edits: readonly DocumentEdit[]): EditResult {
  const { text } = document;
  for (const [k, edit] of edits.entries()) {
    const isTouched = edits.slice(k + 1).some(({ path }) => startsWith(edit.path, path) || startsWith(path, edit.path));
    if (edit.text === undefined || isTouched) continue;
    if (!readsBack(text, edit.path, edit.text))
      return refuse('the value cannot stand there', edit.path, 'edit the text of the file');
  }
  return { ok: true, text };
}

/** The text of a changed document; lines that were not changed stay as they stood. */
export const writtenLike = (before: string, changed: Document): string =>
  keepLines(before, changed.toString({ lineWidth: 0, flowCollectionPadding: false }));

/** Plain data as YAML text, long lines unbroken, with lines of comment on top. */
export function yamlText(data: unknown, comment?: string): string {
  const document = new Document(data);
  if (comment !== undefined) document.commentBefore = comment;
  return document.toString({ lineWidth: 0, flowCollectionPadding: false });
}
