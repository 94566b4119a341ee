import { type ReactNode, useEffect, useState } from 'react';
import { undoLabel } from '../../core/history.js';
import { recentProjects, type SaveStatus, usualUi } from '../../core/state.js';
import { IconButton } from '../kit/button.js';
import { Menu, type MenuItem } from '../kit/menu.js';
import { useAppState, useServices } from '../kit/services.js';
import { type Command, shortcutText, useCommands } from './commands.js';
import { openDialog } from './open-state.js';
import styles from './shell.module.css';

const item = (command: Command): MenuItem => ({
  id: command.id,
  label: command.label,
  group: command.group,
  run: command.run,
  disabled: !command.enabled,
  ...(command.shortcut === undefined ? {} : { shortcut: shortcutText(command.shortcut) }),
});

/** Name, project, undo, where the work stands, and everything else behind one menu. */
export function Header(): ReactNode {
  const commands = useCommands();
  const find = (id: string) => commands.find((command) => command.id === id)!;
  const [undo, redo] = [find('undo'), find('redo')];
  return (
    <header className={styles.header}>
      <h1 className={styles.name}>noonwing</h1>
      <ProjectMenu commands={commands} />
      <SaveWords />
      <div className={styles.tools}>
        <IconButton
          icon="undo"
          compact
          kind="quiet"
          disabled={!undo.enabled}
          hint={undo.label}
          label={undo.label}
          onPress={undo.run}
        >
          Undo
        </IconButton>
        <IconButton
          icon="redo"
          compact
          kind="quiet"
          disabled={!redo.enabled}
          hint={redo.label}
          label={redo.label}
          onPress={redo.run}
        >
          Redo
        </IconButton>
        <span className={styles.paletteButton}>
          <IconButton
            icon="search"
            compact
            kind="quiet"
            popup="dialog"
            hint={`All commands (${shortcutText('mod+k')})`}
            onPress={() => openDialog({ kind: 'palette' })}
          >
            Commands
          </IconButton>
        </span>
        <Menu
          label="Menu"
          icon="menu"
          kind="quiet"
          compact
          items={commands.filter(({ group }) => group === 'Show' || group === 'Edit' || group === 'Help').map(item)}
        />
      </div>
    </header>
  );
}

function ProjectMenu({ commands }: { readonly commands: readonly Command[] }): ReactNode {
  const { app } = useServices();
  const work = useAppState((state) => state.work);
  const recent = useAppState((state) => state.ui.recent);
  const { projects, current } = work;
  const others = recentProjects({ work, ui: { ...usualUi, ...(recent === undefined ? {} : { recent }) } }).map(
    (project) => ({
      id: `open ${project.id}`,
      label: project.id === current ? `${project.name} (open)` : project.name,
      group: 'Projects',
      run: () => void app.run({ kind: 'select project', project: project.id }),
    }),
  );
  const own = commands.filter(({ group }) => group === 'Project').map(item);
  return (
    <div className={styles.project}>
      <Menu label={projects[current]?.name ?? 'No project'} name="Project" icon="down" items={[...own, ...others]} />
    </div>
  );
}

const saveText = (save: SaveStatus): string => {
  if (save.kind === 'saved') return 'Saved on this device';
  if (save.kind === 'saving') return 'Saving …';
  return save.kind === 'read only' ? 'Open in another tab: read only' : 'Not saved';
};

/** A write that takes no longer is not worth a word [ms]; common practice, no source. */
const patience = 500;

function SaveWords(): ReactNode {
  const save = useAppState((state) => state.save);
  const history = useAppState((state) => state.history);
  const [slow, setSlow] = useState(false);
  useEffect(() => {
    setSlow(false);
    if (save.kind !== 'saving') return;
    const timer = setTimeout(() => setSlow(true), patience);
    return () => clearTimeout(timer);
  }, [save.kind]);
  const shown: SaveStatus = save.kind === 'saving' && !slow ? { kind: 'saved' } : save;
  const last = undoLabel(history);
  return (
    <p className={styles.save} data-kind={shown.kind} title={last === undefined ? undefined : `Last change: ${last}`}>
      {saveText(shown)}
    </p>
  );
}
