import { create } from 'zustand';
import {
  type Conflict,
  chooseFolder,
  type FolderAccess,
  type FolderState,
  outsideChanges,
  readFolder,
  writeFolder,
} from '../../core/folder.js';
import { acceptName } from '../../core/names.js';
import type { Services } from '../kit/services.js';

interface OpenFolder {
  readonly access: FolderAccess;
  readonly state: FolderState;
}

/** Folders opened in place, by project, for as long as this tab lives; and files that changed on both sides. */
export const useFolders = create<{
  readonly open: Readonly<Record<string, OpenFolder>>;
  readonly conflicts: readonly (Conflict & { readonly project: string })[];
}>(() => ({ open: {}, conflicts: [] }));

const remember = (project: string, folder: OpenFolder): void =>
  useFolders.setState(({ open }) => ({ open: { ...open, [project]: folder } }));

/** Pause after a change before the folder is written [ms]; common practice, no source. */
const pause = 800;

/** One folder is written or read at a time. */
let busy: Promise<void> = Promise.resolve();
const inTurn = (action: () => Promise<void>, services: Services): void => {
  busy = busy.then(action).catch((error: unknown) => {
    const reason = error instanceof Error ? error.message : String(error);
    services.app.notify({
      id: 'folder',
      severity: 'error',
      text: `The folder cannot be reached: ${reason}. The work is kept on this device; export it, or open the folder again.`,
      actions: ['export', 'dismiss'],
    });
  });
};

function addConflicts(project: string, found: readonly Conflict[]): void {
  if (found.length === 0) return;
  useFolders.setState(({ conflicts }) => ({
    conflicts: [
      ...conflicts.filter((one) => one.project !== project || !found.some(({ path }) => path === one.path)),
      ...found.map((one) => ({ ...one, project })),
    ],
  }));
}

async function write(services: Services, project: string, keep?: ReadonlySet<string>): Promise<void> {
  const folder = useFolders.getState().open[project];
  const here = services.app.store.getState().work.projects[project]?.files;
  if (folder === undefined || here === undefined) return;
  const { state, conflicts, failed } = await writeFolder(folder.access, folder.state, here, keep);
  remember(project, { ...folder, state });
  addConflicts(project, conflicts);
  for (const { path, reason } of failed) {
    services.app.notify({
      severity: 'error',
      text: `${path} was not written into the folder: ${reason}.`,
      actions: ['export', 'dismiss'],
    });
  }
}

async function look(services: Services, project: string): Promise<void> {
  const folder = useFolders.getState().open[project];
  const here = services.app.store.getState().work.projects[project]?.files;
  if (folder === undefined || here === undefined) return;
  const { taken, conflicts, state } = await outsideChanges(folder.access, folder.state, here);
  remember(project, { ...folder, state });
  if (Object.keys(taken).length > 0) services.app.run({ kind: 'take from outside', project, files: taken });
  addConflicts(project, conflicts);
}

let following = false;

/** From now on changes go into open folders, and changes from outside are noticed when the window is looked at again. */
function follow(services: Services): void {
  if (following) return;
  following = true;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let work = services.app.store.getState().work;
  services.app.store.subscribe((state) => {
    if (state.work === work) return;
    work = state.work;
    clearTimeout(timer);
    timer = setTimeout(() => {
      for (const project of Object.keys(useFolders.getState().open)) inTurn(() => write(services, project), services);
    }, pause);
  });
  window.addEventListener('focus', () => {
    for (const project of Object.keys(useFolders.getState().open)) inTurn(() => look(services, project), services);
  });
}

/** Opens a folder of the device in place: its files are read, and changes are written back into it. */
export async function openFolder(services: Services): Promise<void> {
  const access = await chooseFolder();
  if (access === undefined) return;
  const { state, refused } = await readFolder(access);
  const files = Object.fromEntries(Object.entries(state.files).map(([path, { text }]) => [path, text]));
  const project = services.app.newProject(acceptName(access.name, 'project'), files);
  if (services.app.store.getState().work.projects[project] === undefined) return;
  remember(project, { access, state });
  follow(services);
  const left =
    refused.length === 0
      ? ''
      : ` Left untouched, as no texts: ${refused.length === 1 ? 'one file' : `${refused.length} files`}.`;
  services.app.notify({
    id: `folder ${project}`,
    severity: 'note',
    text: `The folder ${access.name} is open in place: changes are written into it.${left} After a reload, open it again.`,
    actions: ['dismiss'],
  });
}

/** Settles a file that changed on both sides. */
export function settleConflict(
  services: Services,
  conflict: Conflict & { readonly project: string },
  keepHere: boolean,
): void {
  useFolders.setState(({ conflicts }) => ({ conflicts: conflicts.filter((one) => one !== conflict) }));
  const { project, path, outside } = conflict;
  if (keepHere) inTurn(() => write(services, project, new Set([path])), services);
  else services.app.run({ kind: 'take from outside', project, files: { [path]: outside } });
}
