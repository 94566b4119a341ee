import { type Document, isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseAllDocuments, visit } from 'yaml';
import { keySpelling } from '../schema/field.js';
import { type Message, type Path, pathText } from './message.js';

/** A file as opened: its text and, where YAML could be read, its nodes with their places in the text. */
export interface FileDocument {
  readonly text: string;
  readonly yaml: Document | undefined;
  /** Line and column (from 1) of an index of the text. */
  readonly position: (offset: number) => { readonly line: number; readonly column: number };
}

/** A design file is a few kB; what is larger is another file. */
const GREATEST_LENGTH = 4_000_000;

interface Fault {
  readonly offset?: number;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

const messageOf = (fault: Fault, document: FileDocument): Message => ({
  severity: 'error',
  ...document.position(fault.offset ?? 0),
  path: '',
  found: fault.found,
  expected: fault.expected,
  hint: fault.hint,
});

function unreadable(text: string): Fault | undefined {
  const expected = 'a text file in YAML that starts with "noonwing: design 1" or "noonwing: day 1"';
  if (text.trim() === '') return { found: 'an empty file', expected, hint: 'start one with: noonwing new' };
  if (text.length > GREATEST_LENGTH) {
    return { found: `${text.length} characters`, expected, hint: 'this is too long to be a design file or day plan' };
  }
  const control = [...text.slice(0, 4096)].filter((letter) => {
    const code = letter.codePointAt(0)!;
    return code === 0 || code === 0xfffd || (code < 32 && code !== 9 && code !== 10 && code !== 13);
  }).length;
  // One odd character may be a slip of an editor, which YAML itself reports; several are not text.
  if (control > 2 || text.includes('\0')) return { found: 'a binary file', expected, hint: 'choose the text file' };
  return undefined;
}

/** Tags that say of a value what it is anyway. */
const plainTag = /^tag:yaml\.org,2002:(str|int|float|bool|null|map|seq)$/;

/** What YAML can express but these files do not use: it would hide where a value stands. */
function unused(yaml: Document, text: string): Fault | undefined {
  // Each of them begins with one of these letters; most files hold none, and need not be walked through.
  if (!/[&*!]/.test(text)) return undefined;
  let fault: Fault | undefined;
  visit(yaml, {
    Alias(_key, node) {
      fault ??= {
        offset: node.range?.[0] ?? 0,
        found: `*${node.source}`,
        expected: 'the value written out',
        hint: 'anchors and aliases are not used here',
      };
      return visit.BREAK;
    },
    Node(_key, node) {
      const tag = (node as { tag?: string }).tag;
      const anchor = (node as { anchor?: string }).anchor;
      if (anchor !== undefined) {
        fault ??= {
          offset: node.range?.[0] ?? 0,
          found: `&${anchor}`,
          expected: 'the value alone',
          hint: 'anchors and aliases are not used here',
        };
        return visit.BREAK;
      }
      if (tag !== undefined && !plainTag.test(tag)) {
        fault ??= {
          offset: node.range?.[0] ?? 0,
          found: tag,
          expected: 'the value alone',
          hint: 'YAML tags are not used here',
        };
        return visit.BREAK;
      }
      return undefined;
    },
  });
  return fault;
}

/** YAML's own wording names its inner tokens; these are the slips that people make. */
function syntaxHint(code: string): string {
  if (code === 'DUPLICATE_KEY') return 'each key may stand once in its group: remove or rename one';
  if (code === 'TAB_AS_INDENT') return 'indent with spaces, not with tabs';
  if (code === 'BAD_INDENT') return 'keys of one group start in the same column';
  if (code === 'MISSING_CHAR') return 'a quote, bracket or comma is missing; text with ": " in it needs quotes';
  return 'write "key: value", one per line, groups indented by two spaces';
}

function syntaxFault(error: { readonly pos: readonly number[]; readonly code: string }, text: string): Fault {
  const offset = error.pos[0]!;
  const found = text
    .slice(offset, offset + 40)
    .split('\n')[0]!
    .trim();
  const shown = found === '' ? 'the end of a line' : `"${found}"`;
  return { offset, found: shown, expected: 'YAML that can be read', hint: syntaxHint(error.code) };
}

/** What hinders using the documents of a file, if anything. */
function documentFault(documents: readonly Document[], text: string): Fault | undefined {
  const [yaml, second] = documents;
  if (yaml === undefined) return { found: 'no values', expected: 'keys with values', hint: '' };
  const error = yaml.errors[0];
  if (error !== undefined) return syntaxFault(error, text);
  if (second === undefined) return unused(yaml, text);
  const offset = second.range?.[0] ?? 0;
  return {
    offset,
    found: 'a second document',
    expected: 'one document in a file',
    hint: 'remove the line "---" between them',
  };
}

interface Parsed {
  readonly yaml: Document | undefined;
  readonly counter: LineCounter;
  readonly fault: Fault | undefined;
}

function parse(text: string): Parsed {
  const counter = new LineCounter();
  try {
    const options = {
      lineCounter: counter,
      prettyErrors: false,
      version: '1.2',
      // Also where a file names another version, whose dates and sets would be read as something else than what is written.
      schema: 'core',
      resolveKnownTags: false,
      logLevel: 'silent',
    } as const;
    const documents = parseAllDocuments(text, options);
    const all: readonly Document[] = 'empty' in documents ? [] : documents;
    const yaml = all[0] !== undefined && all[0].errors.length === 0 ? all[0] : undefined;
    return { yaml, counter, fault: documentFault(all, text) };
  } catch (error) {
    // The parser recurses; only a nesting far beyond any design makes it run out of stack.
    const found = error instanceof RangeError ? 'brackets nested too deep' : 'text that YAML cannot read';
    const fault = { found, expected: 'YAML that can be read', hint: 'look for unclosed brackets' };
    return { yaml: undefined, counter, fault };
  }
}

interface Opened {
  readonly document: FileDocument;
  readonly messages: readonly Message[];
}

/** The text opened last: an edit opens its own result to look whether it reads back, and the page reads it right after. */
let last: { readonly original: string; readonly opened: Opened } | undefined;

/** Opens the text of a file: the document, and messages where it cannot be read as YAML. Never throws. */
export function openDocument(original: string): Opened {
  if (last?.original === original) return last.opened;
  const opened = open(original);
  last = { original, opened };
  return opened;
}

function open(original: string): Opened {
  const source = original.startsWith('\ufeff') ? original.slice(1) : original;
  const first = { text: source, yaml: undefined, position: () => ({ line: 1, column: 1 }) };
  const bad = unreadable(source);
  if (bad !== undefined) return { document: first, messages: [messageOf(bad, first)] };
  const { yaml, counter, fault } = parse(source);
  const document: FileDocument = {
    text: source,
    yaml,
    position: (offset) => {
      const { line, col } = counter.linePos(Math.max(0, Math.min(offset, source.length)));
      return { line: Math.max(1, line), column: Math.max(1, col) };
    },
  };
  return { document, messages: fault === undefined ? [] : [messageOf(fault, document)] };
}

/** The pair of a mapping whose key is spelt so, capitals and hyphens aside. */
export function pairOf(node: unknown, key: string) {
  if (!isMap(node)) return undefined;
  const wanted = keySpelling(key);
  const name = (item: { key: unknown }) => (isScalar(item.key) ? String(item.key.value) : '');
  return node.items.find((item) => name(item) === key) ?? node.items.find((item) => keySpelling(name(item)) === wanted);
}

/** Node at a path, or undefined. */
export function nodeAt(document: FileDocument, path: Path): Node | undefined {
  let node: unknown = document.yaml?.contents ?? undefined;
  for (const step of path) {
    if (isAlias(node)) return undefined;
    if (typeof step === 'number') node = isSeq(node) ? node.items[step] : undefined;
    else node = pairOf(node, step)?.value ?? undefined;
  }
  return (node as Node | undefined) ?? undefined;
}

/**
 * Line and column of the value at a path; where it is not written, of the nearest part above it that is.
 * Lets a later stage (balance, strings) report at the place in the file that caused it.
 */
export function locate(
  document: FileDocument,
  path: Path,
): { readonly line: number; readonly column: number; readonly path: string } {
  for (let length = path.length; length >= 0; length--) {
    const node = nodeAt(document, path.slice(0, length));
    if (node?.range) return { ...document.position(node.range[0]), path: pathText(path) };
  }
  return { line: 1, column: 1, path: pathText(path) };
}
