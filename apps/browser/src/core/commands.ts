import type { Message } from '@noonwing/design';
import { setValue, setValues } from './command-values.js';
import {
  type Applied,
  activePath,
  current,
  fine,
  noFile,
  noProject,
  refuse,
  withoutPending,
  withProject,
} from './command-work.js';
import { acceptName } from './names.js';
import { fileRole, freePath, type Project, renamedFile, settled, withFile, withoutFile } from './project.js';
import { readingOf } from './reading.js';
import { type CompareSlot, pendingKey, type Work } from './state.js';

export { labelOf } from './command-labels.js';
export type { Applied } from './command-work.js';

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
