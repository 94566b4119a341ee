import { editDesign, type Message, removeFromDesign } from '@noonwing/design';
import {
  type Applied,
  activePath,
  current,
  fine,
  noFile,
  refuse,
  withoutPending,
  withProject,
} from './command-work.js';
import type { Command, FileKind, ValueEdit } from './commands.js';
import { fileSpelling } from './field-text.js';
import { withFile } from './project.js';
import { readingOf } from './reading.js';
import { pendingKey, type Work } from './state.js';

interface Edited {
  readonly text?: string;
  readonly reason?: string;
  readonly remedy?: string;
}

function editedText(file: FileKind, text: string, edit: ValueEdit): Edited {
  const { document } = readingOf(file, text);
  const value = edit.text === undefined ? '' : fileSpelling(file, edit.path, edit.text);
  const wanted = value.trim() === '' ? removeFromDesign(document, edit.path) : editDesign(document, edit.path, value);
  if (wanted.ok) return { text: wanted.text };
  // A key that is not there need not be removed.
  if (value.trim() === '' && document.yaml !== undefined) return { text };
  return { reason: wanted.reason, remedy: wanted.remedy };
}

const isAbout = (message: Message, path: string): boolean =>
  message.path === path || message.path.startsWith(`${path}.`) || message.path.startsWith(`${path}[`);

/** Errors about a path that were not there before. */
function newErrors(before: readonly Message[], after: readonly Message[], path: string): readonly Message[] {
  const known = new Set(
    before.filter(({ severity }) => severity === 'error').map(({ path: p, found }) => `${p} ${found}`),
  );
  return after.filter(
    (message) =>
      message.severity === 'error' &&
      (message.path === '' || isAbout(message, path)) &&
      !known.has(`${message.path} ${message.found}`),
  );
}

const aboutFirst = (messages: readonly Message[], path: string): readonly Message[] => [
  ...messages.filter((message) => isAbout(message, path)),
  ...messages.filter((message) => !isAbout(message, path)),
];

/** One value of the active file; what cannot be taken is kept beside it as it was typed. */
export function setValue(work: Work, command: Extract<Command, { kind: 'set value' }>): Applied {
  const { file = 'design', path } = command;
  const project = current(work);
  const at = project === undefined ? undefined : activePath(project, file);
  if (project === undefined || at === undefined) return noFile(work);
  const before = project.files[at]!;
  const key = pendingKey(project.id, at, path);
  const keep = (reason: string, remedy: string, messages: readonly Message[]): Applied => ({
    work: {
      ...work,
      pending: { ...work.pending, [key]: { project: project.id, file: at, path, text: command.text } },
    },
    result: { ok: false, reason, remedy, pending: true, messages },
  });
  const edited = editedText(file, before, { path, text: command.text });
  if (edited.text === undefined) return keep(edited.reason!, edited.remedy!, []);
  const { messages } = readingOf(file, edited.text);
  const [error] = newErrors(readingOf(file, before).messages, messages, path);
  if (error !== undefined) {
    return keep(`found ${error.found}; expected ${error.expected}`, error.hint, aboutFirst(messages, path));
  }
  const changed = withProject(work, withFile(project, at, edited.text));
  return fine(
    withoutPending(changed, (one) => one.project === project.id && one.file === at && one.path === path),
    aboutFirst(messages, path),
  );
}

/** Several values of the active file, all or none. */
export function setValues(work: Work, command: Extract<Command, { kind: 'set values' }>): Applied {
  const { file = 'design', edits } = command;
  const project = current(work);
  const at = project === undefined ? undefined : activePath(project, file);
  if (project === undefined || at === undefined) return noFile(work);
  const before = project.files[at]!;
  let text = before;
  for (const edit of edits) {
    const edited = editedText(file, text, edit);
    if (edited.text === undefined) return refuse(work, `${edit.path}: ${edited.reason}`, edited.remedy!);
    text = edited.text;
  }
  const { messages } = readingOf(file, text);
  for (const { path } of edits) {
    const [error] = newErrors(readingOf(file, before).messages, messages, path);
    if (error !== undefined) {
      return refuse(work, `${path}: found ${error.found}; expected ${error.expected}`, error.hint);
    }
  }
  const paths = new Set(edits.map(({ path }) => path));
  const changed = withProject(work, withFile(project, at, text));
  return fine(
    withoutPending(changed, (one) => one.project === project.id && one.file === at && paths.has(one.path)),
    messages,
  );
}
