import type { Message } from '@noonwing/design';
import type { CommandResult, FileKind } from './commands.js';
import type { Project } from './project.js';
import type { Pending, Work } from './state.js';

export interface Applied {
  readonly work: Work;
  readonly result: CommandResult;
}

export const fine = (work: Work, messages: readonly Message[] = []): Applied => ({
  work,
  result: { ok: true, messages },
});

export const refuse = (work: Work, reason: string, remedy: string): Applied => ({
  work,
  result: { ok: false, reason, remedy, pending: false, messages: [] },
});

export const noFile = (work: Work) => refuse(work, 'there is no such file', 'choose a file of this project');
export const noProject = (work: Work) => refuse(work, 'there is no such project', 'open a project first');

export const current = (work: Work): Project | undefined =>
  Object.hasOwn(work.projects, work.current) ? work.projects[work.current] : undefined;

export const withProject = (work: Work, project: Project): Work =>
  work.projects[project.id] === project ? work : { ...work, projects: { ...work.projects, [project.id]: project } };

/** Without what was typed into fields of files that match. */
export function withoutPending(work: Work, matches: (pending: Pending) => boolean): Work {
  const kept = Object.entries(work.pending).filter(([, pending]) => !matches(pending));
  return kept.length === Object.keys(work.pending).length ? work : { ...work, pending: Object.fromEntries(kept) };
}

export const activePath = (project: Project, file: FileKind): string | undefined =>
  file === 'design' ? project.design : project.plan;
