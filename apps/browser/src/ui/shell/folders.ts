import { create } from 'zustand';
import {
  type Conflict,
  chooseFolder,
  type DirectoryHandle,
  type FolderAccess,
  type FolderState,
  folderOf,
  mayUse,
  outsideChanges,
  readFolder,
  writeFolder,
} from '../../core/folder.js';
import { folderMemory, type RememberedFolder } from '../../core/folder-memory.js';
import { acceptName } from '../../core/names.js';
import type { Services } from '../kit/services.js';

interface OpenFolder {
  readonly handle: DirectoryHandle;
  readonly access: FolderAccess;
  readonly state: FolderState;
}

/** Folders opened in place, by project, for as long as this tab lives; and files that changed on both sides. */
export const useFolders = create<{
  readonly open: Readonly<Record<string, OpenFolder>>;
  readonly conflicts: readonly (Conflict & { readonly project: string })[];
}>(() => ({ open: {}, conflicts: [] }));

function remember(project: string, folder: OpenFolder): void {
  useFolders.setState(({ open }) => ({ open: { ...open, [project]: folder } }));
  void folderMemory.keep({ project, handle: folder.handle, state: folder.state });
}

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

const folderNotice = (project: string): string => `folder ${project}`;

function sayOpen(services: Services, project: string, name: string, left = ''): void {
  services.app.notify({
    id: folderNotice(project),
    severity: 'note',
    text: `The folder ${name} is open in place: changes are written into it.${left}`,
    actions: ['dismiss'],
  });
}

/** A folder that was open before, with what changed in it and here since. */
function resume(services: Services, { project, handle, state }: RememberedFolder): void {
  remember(project, { handle, access: folderOf(handle), state });
  follow(services);
  inTurn(async () => {
    await look(services, project);
    await write(services, project);
    sayOpen(services, project, handle.name);
  }, services);
}

/** The project of this device that lies in a folder. */
async function knownFolder(services: Services, handle: DirectoryHandle): Promise<RememberedFolder | undefined> {
  const { projects } = services.app.store.getState().work;
  for (const folder of await folderMemory.all()) {
    if (folder.project in projects && (await handle.isSameEntry?.(folder.handle))) return folder;
  }
  return undefined;
}

/** Opens a folder of the device in place: its files are read, and changes are written back into it. */
export async function openFolder(services: Services): Promise<void> {
  const handle = await chooseFolder();
  if (handle === undefined) return;
  const known = await knownFolder(services, handle);
  if (known !== undefined) {
    services.app.run({ kind: 'select project', project: known.project });
    return resume(services, known);
  }
  const access = folderOf(handle);
  const { state, refused } = await readFolder(access);
  const files = Object.fromEntries(Object.entries(state.files).map(([path, { text }]) => [path, text]));
  const project = services.app.newProject(acceptName(access.name, 'project'), files);
  if (services.app.store.getState().work.projects[project] === undefined) return;
  remember(project, { handle, access, state });
  follow(services);
  const left =
    refused.length === 0
      ? ''
      : ` Left untouched, as no texts: ${refused.length === 1 ? 'one file' : `${refused.length} files`}.`;
  sayOpen(services, project, access.name, left);
}

/** After a reload: folders that the browser still lets us use go on, for the others one press is asked for. */
export async function offerFolders(services: Services): Promise<void> {
  const { work, save } = services.app.store.getState();
  // Another tab has the work, and its folders with it.
  if (save.kind === 'read only') return;
  const { projects } = work;
  for (const folder of await folderMemory.all()) {
    const { project, handle } = folder;
    if (!(project in projects)) await folderMemory.forget(project);
    else if (useFolders.getState().open[project] !== undefined) continue;
    else if (await mayUse(handle, false)) resume(services, folder);
    else {
      services.app.notify({
        id: folderNotice(project),
        severity: 'note',
        text: `The folder ${handle.name} was open in place. The browser asks before it is used again; until then changes stay on this device.`,
        actions: ['reopen folder', 'dismiss'],
      });
    }
  }
}

/** The press that lets the browser ask. notice - that offered it */
export async function reopenFolder(services: Services, notice: string): Promise<void> {
  const folder = (await folderMemory.all()).find(({ project }) => folderNotice(project) === notice);
  if (folder === undefined) return services.app.dismiss(notice);
  if (await mayUse(folder.handle, true)) resume(services, folder);
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
