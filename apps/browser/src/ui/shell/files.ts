import { importFiles, zipName, zipProject } from '../../core/archive.js';
import { acceptName } from '../../core/names.js';
import { fileRole } from '../../core/project.js';
import { activeOf } from '../../core/state.js';
import { saveBlob } from '../kit/save.js';
import type { Services } from '../kit/services.js';

type Chosen = readonly { readonly name: string; readonly bytes: Uint8Array }[];

export const bytesOf = async (files: readonly File[]): Promise<Chosen> =>
  Promise.all(files.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })));

/** Lets the person choose files; empty where none were chosen. */
export const chooseFiles = (accept: string): Promise<readonly File[]> =>
  new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.multiple = true;
    input.accept = accept;
    input.addEventListener('change', () => resolve([...(input.files ?? [])]));
    input.addEventListener('cancel', () => resolve([]));
    input.click();
  });

const withoutExtension = (name: string): string => name.replace(/(\.day)?\.[A-Za-z0-9]+$/, '');

/**
 * Takes chosen or dropped files: a new project where there is a design among them (or nothing is open), otherwise they join
 * the project that is open. What was refused is said.
 */
export async function takeFiles({ app, announce }: Services, chosen: readonly File[]): Promise<void> {
  if (chosen.length === 0) return;
  const { files, refused } = importFiles(await bytesOf(chosen));
  for (const { name, reason, remedy } of refused) {
    app.notify({
      severity: 'warning',
      text: `The file ${name} was not taken: ${reason}; ${remedy}.`,
      actions: ['dismiss'],
    });
  }
  const paths = Object.keys(files);
  if (paths.length === 0) return;
  const design = paths.find((path) => fileRole(path, files[path]!) === 'design');
  const { project } = activeOf(app.store.getState());
  if (design !== undefined || project === undefined) {
    const name = acceptName(withoutExtension(chosen[0]!.name), 'project');
    const plan = activeOf(app.store.getState()).plan;
    const hasPlan = paths.some((path) => fileRole(path, files[path]!) === 'plan');
    // A design without a day is answered for the day that was open.
    app.newProject(name, hasPlan || plan === undefined ? files : { ...files, 'day.day.yaml': plan });
    announce(`${name} is open`);
  } else {
    const result = app.run({ kind: 'add files', files });
    announce(result.ok ? `${paths.length} files added` : result.reason);
  }
}

export async function importChosen(services: Services): Promise<void> {
  await takeFiles(services, await chooseFiles('.yaml,.yml,.zip,.dat,.cor,.txt,.epw,.csv,.tsv,.json,.md'));
}

export function exportZip({ app }: Services): void {
  const { project } = activeOf(app.store.getState());
  if (project !== undefined) saveBlob(zipName(project), 'application/zip', zipProject(project));
}

/** Every project in one archive, each in its folder: for when the device does not keep the work. */
export function exportEverything({ app }: Services): void {
  const files: Record<string, string> = {};
  for (const project of Object.values(app.store.getState().work.projects)) {
    const folder = acceptName(project.name, 'project');
    for (const [path, text] of Object.entries(project.files)) {
      const name = `${folder}/${path}`;
      files[name in files ? `${folder} ${project.id}/${path}` : name] = text;
    }
  }
  saveBlob('noonwing work.zip', 'application/zip', zipProject({ files }));
}

/** The active design or day plan as it is. */
export function exportFile({ app }: Services, what: 'design' | 'plan'): void {
  const active = activeOf(app.store.getState());
  const [path, text] = what === 'design' ? [active.designPath, active.design] : [active.planPath, active.plan];
  if (path !== undefined && text !== undefined) saveBlob(path.slice(path.lastIndexOf('/') + 1), 'text/yaml', text);
}
