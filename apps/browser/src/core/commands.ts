import { editDesign, type Message, removeFromDesign } from '@noonwing/design';
import { fileSpelling } from './field-text.js';
import { acceptName } from './names.js';
import { fileRole, freePath, type Project, renamedFile, settled, withFile, withoutFile } from './project.js';
import { readingOf } from './reading.js';
import { type CompareSlot, type Pending, pendingKey, type Work } from './state.js';

export type FileKind = 'design' | 'day';

/** One value by its path; no text takes the key away. */
export interface ValueEdit {
  readonly path: string;
  readonly text?: string;
}

/** Everything that changes the work. Files are those of the current project unless `project` is given. */
export type Command =
  /** As typed; an empty text takes the key away. */
  | { readonly kind: 'set value'; readonly file?: FileKind; readonly path: string; readonly text: string }
  /** Several values in one step: a lever, a drag of two coordinates. All or none. */
  | {
      readonly kind: 'set values';
      readonly file?: FileKind;
      readonly edits: readonly ValueEdit[];
      readonly label?: string;
    }
  | { readonly kind: 'drop pending'; readonly file?: FileKind; readonly path: string }
  /** A whole file by its path, as the text editor has it. */
  | { readonly kind: 'set text'; readonly path: string; readonly text: string; readonly label?: string }
  /** Under free names where a name is taken; the first design and plan among them become active. */
  | { readonly kind: 'add files'; readonly files: Readonly<Record<string, string>>; readonly label?: string }
  | { readonly kind: 'rename file'; readonly from: string; readonly to: string }
  | { readonly kind: 'duplicate file'; readonly path: string }
  | { readonly kind: 'delete file'; readonly path: string }
  | {
      readonly kind: 'new project';
      readonly id: string;
      readonly name: string;
      readonly files: Readonly<Record<string, string>>;
    }
  | { readonly kind: 'rename project'; readonly project: string; readonly name: string }
  | { readonly kind: 'duplicate project'; readonly project: string; readonly id: string }
  | { readonly kind: 'delete project'; readonly project: string }
  | { readonly kind: 'select project'; readonly project: string }
  | { readonly kind: 'select design'; readonly path: string }
  | { readonly kind: 'select plan'; readonly path: string }
  | { readonly kind: 'compare'; readonly slot: CompareSlot | null }
  /** The folder changed outside; null: the file is gone. */
  | {
      readonly kind: 'take from outside';
      readonly project: string;
      readonly files: Readonly<Record<string, string | null>>;
    };

/** What became of a command. `messages`: of the file after it, about the path first. */
export type CommandResult =
  | { readonly ok: true; readonly messages: readonly Message[] }
  | {
      readonly ok: false;
      readonly reason: string;
      readonly remedy: string;
      /** The typed text is kept beside the file (`valueAt(path).pending`). */
      readonly pending: boolean;
      readonly messages: readonly Message[];
    };

export interface Applied {
  readonly work: Work;
  readonly result: CommandResult;
}

const fine = (work: Work, messages: readonly Message[] = []): Applied => ({ work, result: { ok: true, messages } });

const refuse = (work: Work, reason: string, remedy: string): Applied => ({
  work,
  result: { ok: false, reason, remedy, pending: false, messages: [] },
});

const noFile = (work: Work) => refuse(work, 'there is no such file', 'choose a file of this project');
const noProject = (work: Work) => refuse(work, 'there is no such project', 'open a project first');

const shortened = (text: string): string => {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > 40 ? `${line.slice(0, 37)}...` : line;
};

/** In words, for the undo menu. */
export function labelOf(command: Command): string {
  switch (command.kind) {
    case 'set value':
      return command.text.trim() === '' ? `remove ${command.path}` : `${command.path} to ${shortened(command.text)}`;
    case 'set values': {
      const [first] = command.edits;
      return command.label ?? (first === undefined ? 'nothing' : `${first.path} to ${shortened(first.text ?? '')}`);
    }
    case 'drop pending':
      return `restore ${command.path}`;
    case 'set text':
      return command.label ?? `text of ${command.path}`;
    case 'add files':
      return command.label ?? `add ${shortened(Object.keys(command.files).join(', '))}`;
    case 'rename file':
      return `rename ${command.from} to ${command.to}`;
    case 'duplicate file':
      return `duplicate ${command.path}`;
    case 'delete file':
      return `delete ${command.path}`;
    case 'new project':
      return `new project ${shortened(command.name)}`;
    case 'rename project':
      return `rename project to ${shortened(command.name)}`;
    case 'duplicate project':
      return 'duplicate project';
    case 'delete project':
      return 'delete project';
    case 'select project':
      return 'open project';
    case 'select design':
    case 'select plan':
      return `look at ${command.path}`;
    case 'compare':
      return command.slot === null ? 'end the comparison' : 'compare';
    case 'take from outside':
      return 'changes from outside';
  }
}

/** What 'same step' joins by: the same field, the same file. */
export function keyOf(command: Command, work: Work): string {
  const at = work.current;
  switch (command.kind) {
    case 'set value':
    case 'drop pending':
      return `${at} ${command.file ?? 'design'} ${command.path}`;
    case 'set values':
      return `${at} ${command.file ?? 'design'} ${command.edits.map(({ path }) => path).join(' ')}`;
    case 'set text':
      return `${at} text ${command.path}`;
    default:
      return '';
  }
}

export const isSelection = ({ kind }: Command): boolean =>
  kind === 'select project' || kind === 'select design' || kind === 'select plan';

const current = (work: Work): Project | undefined =>
  Object.hasOwn(work.projects, work.current) ? work.projects[work.current] : undefined;

const withProject = (work: Work, project: Project): Work =>
  work.projects[project.id] === project ? work : { ...work, projects: { ...work.projects, [project.id]: project } };

/** Without what was typed into fields of files that match. */
function withoutPending(work: Work, matches: (pending: Pending) => boolean): Work {
  const kept = Object.entries(work.pending).filter(([, pending]) => !matches(pending));
  return kept.length === Object.keys(work.pending).length ? work : { ...work, pending: Object.fromEntries(kept) };
}

const activePath = (project: Project, file: FileKind): string | undefined =>
  file === 'design' ? project.design : project.plan;

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

function setValue(work: Work, command: Extract<Command, { kind: 'set value' }>): Applied {
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

function setValues(work: Work, command: Extract<Command, { kind: 'set values' }>): Applied {
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

function addFiles(work: Work, project: Project, files: Readonly<Record<string, string>>): Applied {
  let next = project;
  let [design, plan]: (string | undefined)[] = [];
  for (const [wanted, text] of Object.entries(files)) {
    const name = acceptName(wanted);
    const path = freePath(next.files, name);
    next = { ...next, files: { ...next.files, [path]: text } };
    const role = fileRole(path, text);
    if (role === 'design') design ??= path;
    if (role === 'plan') plan ??= path;
  }
  next = settled({
    ...next,
    ...(design === undefined ? {} : { design }),
    ...(plan === undefined ? {} : { plan }),
  });
  return fine(withProject(work, next));
}

function renameFile(work: Work, project: Project, from: string, to: string): Applied {
  if (!(from in project.files)) return noFile(work);
  const name = acceptName(to);
  if (name === from) return fine(work);
  if (name in project.files) return refuse(work, `there is a file "${name}" already`, 'choose another name');
  const moved = withProject(work, renamedFile(project, from, name));
  const pending = Object.values(moved.pending).map((one) =>
    one.project === project.id && one.file === from ? { ...one, file: name } : one,
  );
  return fine({
    ...moved,
    pending: Object.fromEntries(pending.map((one) => [pendingKey(one.project, one.file, one.path), one])),
  });
}

function duplicateFile(work: Work, project: Project, path: string): Applied {
  const text = project.files[path];
  if (text === undefined) return noFile(work);
  const copy = freePath(project.files, path);
  const role = fileRole(path, text);
  const next = withFile(project, copy, text);
  return fine(
    withProject(work, { ...next, ...(role === 'design' ? { design: copy } : role === 'plan' ? { plan: copy } : {}) }),
  );
}

/** A name that no other project has. */
function freeName(work: Work, wanted: string): string {
  const taken = new Set(Object.values(work.projects).map(({ name }) => name));
  if (!taken.has(wanted)) return wanted;
  const stem = wanted.replace(/ \d+$/, '');
  for (let number = 2; ; number++) if (!taken.has(`${stem} ${number}`)) return `${stem} ${number}`;
}

function newProject(work: Work, id: string, name: string, files: Readonly<Record<string, string>>): Applied {
  if (id in work.projects) return refuse(work, 'there is such a project already', 'open it');
  const empty: Project = { id, name: freeName(work, acceptName(name, 'project')), files: {} };
  const added = addFiles({ ...work, projects: { ...work.projects, [id]: empty } }, empty, files).work;
  return fine({ ...added, current: id });
}

function deleteProject(work: Work, id: string): Applied {
  if (!(id in work.projects)) return noProject(work);
  const projects = Object.fromEntries(Object.entries(work.projects).filter(([key]) => key !== id));
  const current = work.current === id ? (Object.keys(projects)[0] ?? '') : work.current;
  return fine(withoutCompare(withoutPending({ ...work, projects, current }, (one) => one.project === id)));
}

/** Without a comparison whose file is gone. */
function withoutCompare(work: Work): Work {
  const { compare, ...rest } = work;
  if (compare === undefined || compare.kind === 'remembered') return work;
  return work.projects[compare.project]?.files[compare.design] === undefined ? rest : work;
}

function select(work: Work, role: 'design' | 'plan', path: string): Applied {
  const project = current(work);
  if (project === undefined || !(path in project.files)) return noFile(work);
  return fine(project[role] === path ? work : withProject(work, { ...project, [role]: path }));
}

function takeFromOutside(work: Work, id: string, files: Readonly<Record<string, string | null>>): Applied {
  let project = work.projects[id];
  if (project === undefined) return noProject(work);
  for (const [path, text] of Object.entries(files)) {
    project = text === null ? withoutFile(project, path) : withFile(project, path, text);
  }
  const { projects } = withProject(work, project);
  return fine(withoutCompare(withoutPending({ ...work, projects }, (one) => one.project === id && one.file in files)));
}

/** The work after a command; unchanged (the same object) where it was refused or changes nothing. Pure. */
export function apply(work: Work, command: Command): Applied {
  const project = current(work);
  switch (command.kind) {
    case 'set value':
      return setValue(work, command);
    case 'set values':
      return setValues(work, command);
    case 'drop pending': {
      const file = project === undefined ? undefined : activePath(project, command.file ?? 'design');
      return fine(
        withoutPending(work, (one) => one.project === work.current && one.file === file && one.path === command.path),
      );
    }
    case 'new project':
      return newProject(work, command.id, command.name, command.files);
    case 'delete project':
      return deleteProject(work, command.project);
    case 'select project':
      if (!Object.hasOwn(work.projects, command.project)) return noProject(work);
      return fine(work.current === command.project ? work : { ...work, current: command.project });
    case 'rename project': {
      const named = work.projects[command.project];
      const name = acceptName(command.name, 'project');
      if (named === undefined) return noProject(work);
      return fine(named.name === name ? work : withProject(work, { ...named, name: freeName(work, name) }));
    }
    case 'duplicate project': {
      const copied = work.projects[command.project];
      if (copied === undefined || command.id in work.projects) return noProject(work);
      const copy = { ...copied, id: command.id, name: freeName(work, copied.name) };
      return fine({ ...withProject(work, copy), current: command.id });
    }
    case 'compare': {
      const { compare: _, ...rest } = work;
      return fine(
        command.slot === null ? (work.compare === undefined ? work : rest) : { ...rest, compare: command.slot },
      );
    }
    case 'take from outside':
      return takeFromOutside(work, command.project, command.files);
    default:
      return project === undefined ? noProject(work) : applyToFiles(work, project, command);
  }
}

type FileCommand = Extract<
  Command,
  {
    kind: 'set text' | 'add files' | 'rename file' | 'duplicate file' | 'delete file' | 'select design' | 'select plan';
  }
>;

function applyToFiles(work: Work, project: Project, command: FileCommand): Applied {
  switch (command.kind) {
    case 'set text': {
      if (!Object.hasOwn(project.files, command.path)) return noFile(work);
      const changed = withProject(work, withFile(project, command.path, command.text));
      const role = fileRole(command.path, command.text);
      const messages =
        role === 'design' || role === 'plan'
          ? readingOf(role === 'plan' ? 'day' : 'design', command.text).messages
          : [];
      return fine(changed, messages);
    }
    case 'add files':
      return addFiles(work, project, command.files);
    case 'rename file':
      return renameFile(work, project, command.from, command.to);
    case 'duplicate file':
      return duplicateFile(work, project, command.path);
    case 'delete file': {
      if (!Object.hasOwn(project.files, command.path)) return noFile(work);
      const removed = withProject(work, withoutFile(project, command.path));
      return fine(
        withoutCompare(withoutPending(removed, (one) => one.project === project.id && one.file === command.path)),
      );
    }
    case 'select design':
      return select(work, 'design', command.path);
    case 'select plan':
      return select(work, 'plan', command.path);
  }
}
