/** The text files of one aircraft. Everything a builder changes is an edit of these texts. */
export interface Project {
  readonly id: string;
  readonly name: string;
  /** Text by path, '/' between folders: designs '*.yaml', day plans '*.day.yaml', coordinates, weather, records, notes. */
  readonly files: Readonly<Record<string, string>>;
  /** Paths of the design and the plan that are looked at; absent where the project has none. */
  readonly design?: string;
  readonly plan?: string;
}

/** A project that comes with the program. */
export interface Example {
  readonly key: string;
  readonly name: string;
  readonly about: string;
  readonly files: Readonly<Record<string, string>>;
}

export type FileRole = 'design' | 'plan' | 'section' | 'weather' | 'table' | 'record' | 'note';

const EXTENSION_ROLES: Readonly<Record<string, FileRole>> = {
  yaml: 'design',
  yml: 'design',
  dat: 'section',
  epw: 'weather',
  csv: 'table',
  tsv: 'table',
  txt: 'note',
  md: 'note',
  json: 'record',
};

/** What a file is, by its name; a text that says "noonwing: day" or "noonwing: design" decides between the two. */
export function fileRole(path: string, text = ''): FileRole {
  const name = path.toLowerCase();
  const role = EXTENSION_ROLES[name.slice(name.lastIndexOf('.') + 1)] ?? 'note';
  if (role !== 'design') return role;
  const said = /^\s*noonwing\s*:\s*["']?(design|day)\b/m.exec(text.slice(0, 4000))?.[1];
  if (said !== undefined) return said === 'day' ? 'plan' : 'design';
  return /\.day\.ya?ml$/.test(name) ? 'plan' : 'design';
}

export const pathsOfRole = (project: Project, role: FileRole): readonly string[] =>
  Object.keys(project.files)
    .filter((path) => fileRole(path, project.files[path]!) === role)
    .sort();

const without = <T>(record: Readonly<Record<string, T>>, key: string): Record<string, T> =>
  Object.fromEntries(Object.entries(record).filter(([name]) => name !== key));

/** The project with its design and plan pointing at files that exist. */
export function settled(project: Project): Project {
  const choose = (wanted: string | undefined, role: FileRole) =>
    wanted !== undefined && wanted in project.files ? wanted : pathsOfRole(project, role)[0];
  const design = choose(project.design, 'design');
  const plan = choose(project.plan, 'plan');
  if (design === project.design && plan === project.plan) return project;
  const { design: _, plan: __, ...rest } = project;
  return { ...rest, ...(design === undefined ? {} : { design }), ...(plan === undefined ? {} : { plan }) };
}

export const withFile = (project: Project, path: string, text: string): Project =>
  project.files[path] === text ? project : settled({ ...project, files: { ...project.files, [path]: text } });

export const withoutFile = (project: Project, path: string): Project =>
  settled({ ...project, files: without(project.files, path) });

/** A file under another name; design and plan follow it. */
export function renamedFile(project: Project, from: string, to: string): Project {
  const files = { ...without(project.files, from), [to]: project.files[from]! };
  const moved = (path: string | undefined) => (path === from ? to : path);
  const [design, plan] = [moved(project.design), moved(project.plan)];
  return settled({
    ...project,
    files,
    ...(design === undefined ? {} : { design }),
    ...(plan === undefined ? {} : { plan }),
  });
}

/** A file name that is free: 'name 2.yaml' beside 'name.yaml'; '.day.yaml' stays whole. */
export function freePath(files: Readonly<Record<string, string>>, wanted: string): string {
  if (!(wanted in files)) return wanted;
  const parts = /^(.*?)((?:\.day)?\.[A-Za-z0-9]+)?$/.exec(wanted)!;
  const stem = parts[1]!.replace(/ \d+$/, '');
  for (let number = 2; ; number++) {
    const path = `${stem} ${number}${parts[2] ?? ''}`;
    if (!(path in files)) return path;
  }
}

export function projectFromExample(example: Example, id: string): Project {
  return settled({ id, name: example.name, files: example.files });
}
