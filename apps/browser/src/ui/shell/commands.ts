import { useMemo } from 'react';
import { canOpenFolders } from '../../core/can-open-folders.js';
import { canRedo, canUndo, redoLabel, undoLabel } from '../../core/history.js';
import type { AppState } from '../../core/state.js';
import { activeOf } from '../../core/state.js';
import { type Services, useAppState, useServices } from '../kit/services.js';
import { openDialog, useOpen } from './open-state.js';
import { places } from './places.js';

/** Something that the user can do: menus, shortcuts and the palette all read the same list. */
export interface Command {
  readonly id: string;
  readonly label: string;
  readonly group: 'Edit' | 'Project' | 'Go to' | 'Show' | 'Help';
  /** 'mod+k': mod is Ctrl, or Cmd on Apple keyboards. */
  readonly shortcut?: string;
  readonly run: () => void;
  readonly enabled: boolean;
}

const files = () => import('./files.js');

const editCommands = ({ app }: Services, { history, save, ready }: AppState): Command[] => {
  const writable = ready && save.kind !== 'read only';
  const [undo, redo] = [undoLabel(history), redoLabel(history)];
  return [
    {
      id: 'undo',
      label: undo === undefined || !canUndo(history) ? 'Undo' : `Undo: ${undo}`,
      group: 'Edit',
      shortcut: 'mod+z',
      run: () => void app.undo(),
      enabled: writable && canUndo(history),
    },
    {
      id: 'redo',
      label: redo === undefined || !canRedo(history) ? 'Redo' : `Redo: ${redo}`,
      group: 'Edit',
      shortcut: 'mod+shift+z',
      run: () => void app.redo(),
      enabled: writable && canRedo(history),
    },
    { id: 'history', label: 'All steps', group: 'Edit', run: () => openDialog({ kind: 'history' }), enabled: true },
  ];
};

const projectCommands = (services: Services, state: AppState): Command[] => {
  const { app } = services;
  const { project, designPath, planPath } = activeOf(state);
  const has = project !== undefined;
  const of = (kind: 'rename' | 'delete') => () => project && openDialog({ kind, project: project.id });
  const one = (id: string, label: string, run: () => void, enabled = has, shortcut?: string): Command => ({
    id,
    label,
    group: 'Project',
    run,
    enabled,
    ...(shortcut === undefined ? {} : { shortcut }),
  });
  return [
    one('new', 'New aircraft', () => app.setUi({ place: 'choose', focus: { file: 'design', path: 'new' } }), true),
    ...(canOpenFolders()
      ? [
          one(
            'folder',
            'Open a folder in place',
            () => void import('./folders.js').then((m) => m.openFolder(services)),
            true,
          ),
        ]
      : []),
    one('import', 'Import files or a zip', () => void files().then((m) => m.importChosen(services)), true),
    one('zip', 'Save a copy as zip', () => void files().then((m) => m.exportZip(services)), has, 'mod+s'),
    one(
      'export design',
      'Save the design file',
      () => void files().then((m) => m.exportFile(services, 'design')),
      designPath !== undefined,
    ),
    one(
      'export plan',
      'Save the day plan',
      () => void files().then((m) => m.exportFile(services, 'plan')),
      planPath !== undefined,
    ),
    one('rename', 'Rename the project', of('rename')),
    one('duplicate', 'Duplicate the project', () => project && app.duplicateProject(project.id)),
    one('delete', 'Delete the project', of('delete')),
  ];
};

const placeCommands = ({ app }: Services): Command[] =>
  places.flatMap((place, i) => {
    const one = (id: string, label: string, shortcut?: string): Command => ({
      id: `place ${id}`,
      label,
      group: 'Go to',
      run: () => app.setUi({ place: id }),
      enabled: true,
      ...(shortcut === undefined ? {} : { shortcut }),
    });
    return [
      one(place.id, place.label, `alt+${i + 1}`),
      ...place.sections.map(({ id, label }) => one(`${place.id}/${id}`, `${place.label}: ${label}`)),
    ];
  });

const showCommands = ({ app }: Services, state: AppState): Command[] => {
  const one = (id: string, label: string, run: () => void, shortcut?: string): Command => ({
    id,
    label,
    group: 'Show',
    run,
    enabled: true,
    ...(shortcut === undefined ? {} : { shortcut }),
  });
  const comparing = state.work.compare !== undefined;
  return [
    one('palette', 'All commands', () => openDialog({ kind: 'palette' }), 'mod+k'),
    one('levers', 'What would help most', () => useOpen.setState({ levers: !useOpen.getState().levers }), 'alt+l'),
    one('best hour', 'Show the best hour of the day', () => app.setUi({ hour: undefined })),
    one('remember', 'Compare with the aircraft as it is now', () => {
      app.remember();
      useOpen.setState({ compare: true });
    }),
    ...(comparing ? [one('stop comparing', 'Stop comparing', () => app.run({ kind: 'compare', slot: null }))] : []),
    one(
      'preferences',
      'Preferences: units, theme, motion, numbers',
      () => openDialog({ kind: 'preferences' }),
      'mod+,',
    ),
    ...(['light', 'dark', 'sunlight', 'system'] as const).map((theme) =>
      one(`theme ${theme}`, `Theme: ${theme === 'system' ? 'as the device' : theme}`, () =>
        app.setPreferences({ theme }),
      ),
    ),
    { ...one('cautions', 'Cautions', () => openDialog({ kind: 'cautions' })), group: 'Help' },
  ];
};

/** Everything that can be done now. */
export const commandsOf = (services: Services, state: AppState): readonly Command[] => [
  ...editCommands(services, state),
  ...projectCommands(services, state),
  ...placeCommands(services),
  ...showCommands(services, state),
];

export function useCommands(): readonly Command[] {
  const services = useServices();
  const work = useAppState((state) => state.work);
  const history = useAppState((state) => state.history);
  const readOnly = useAppState((state) => state.save.kind === 'read only');
  const ready = useAppState((state) => state.ready);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what the commands read of the state, and no more
  return useMemo(() => commandsOf(services, services.app.store.getState()), [services, work, history, readOnly, ready]);
}

const isApple = (): boolean => typeof navigator !== 'undefined' && /Mac|iPhone|iPad/.test(navigator.userAgent);

/** 'Ctrl+K', or '⌘K' on Apple keyboards. */
export function shortcutText(shortcut: string, apple = isApple()): string {
  const keys = shortcut.split('+').map((key) => (key.length === 1 ? key.toUpperCase() : key));
  const names: Readonly<Record<string, string>> = apple
    ? { mod: '⌘', shift: '⇧', alt: '⌥' }
    : { mod: 'Ctrl', shift: 'Shift', alt: 'Alt' };
  return keys.map((key) => names[key] ?? key).join(apple ? '' : '+');
}

/** Whether keys pressed are a shortcut. Letters by what they write, digits by their place, which Alt changes on some keyboards. */
export function matches(shortcut: string, event: KeyboardEvent): boolean {
  const keys = shortcut.split('+');
  const key = keys.at(-1)!;
  const mod = event.ctrlKey || event.metaKey;
  return (
    mod === keys.includes('mod') &&
    event.altKey === keys.includes('alt') &&
    event.shiftKey === keys.includes('shift') &&
    (event.key.toLowerCase() === key ||
      event.code === `Digit${key}` ||
      (event.altKey && event.code === `Key${key.toUpperCase()}`))
  );
}

/** Texts keep their own undo while they are being typed. */
const keepsOwnUndo = (target: EventTarget | null): boolean =>
  target !== null &&
  'matches' in target &&
  (target as Element).matches(
    'textarea, [contenteditable], [data-editing], input:not([data-path]):not([type="checkbox"]):not([type="radio"])',
  );

/** The command that keys pressed ask for. */
export function commandFor(commands: readonly Command[], event: KeyboardEvent): Command | undefined {
  const found = commands.find(({ shortcut }) => shortcut !== undefined && matches(shortcut, event));
  const second =
    (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'y'
      ? commands.find(({ id }) => id === 'redo')
      : undefined;
  const command = found ?? second;
  if (command === undefined) return undefined;
  return ['undo', 'redo'].includes(command.id) && keepsOwnUndo(event.target) ? undefined : command;
}
