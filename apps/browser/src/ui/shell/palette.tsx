import { type KeyboardEvent, type ReactNode, useId, useState } from 'react';
import { Dialog } from '../kit/dialog.js';
import { type Command, shortcutText, useCommands } from './commands.js';
import { closeDialog } from './open-state.js';
import styles from './shell.module.css';

/** How well a command fits what was typed: every word must be in it; beginnings of words count more. Undefined: not at all. */
function fit({ label, group }: Command, typed: string): number | undefined {
  const text = `${label} ${group}`.toLowerCase();
  let score = 0;
  for (const word of typed.toLowerCase().split(/\s+/).filter(Boolean)) {
    const at = text.indexOf(word);
    if (at < 0) return undefined;
    score += at === 0 ? 3 : /[\s:]/.test(text[at - 1]!) ? 2 : 1;
  }
  return score;
}

/** All commands, found by typing. */
export function Palette(): ReactNode {
  const commands = useCommands();
  const [typed, setTyped] = useState('');
  const [at, setAt] = useState(0);
  const id = useId();
  const found = commands
    .filter((command) => command.id !== 'palette' && command.enabled)
    .map((command) => ({ command, score: fit(command, typed) }))
    .filter(({ score }) => score !== undefined)
    .sort((a, b) => b.score! - a.score!)
    .map(({ command }) => command);
  const chosen = found[Math.min(at, found.length - 1)];
  const run = (command: Command | undefined) => {
    if (command === undefined) return;
    closeDialog();
    // After the focus has returned to the page.
    setTimeout(command.run);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      setAt((at + (event.key === 'ArrowDown' ? 1 : found.length - 1)) % Math.max(1, found.length));
    } else if (event.key === 'Enter') {
      event.preventDefault();
      run(chosen);
    }
  };
  return (
    <Dialog title="Commands" onClose={closeDialog}>
      <input
        className={styles.paletteInput}
        type="text"
        role="combobox"
        aria-label="Find a command"
        aria-expanded="true"
        aria-controls={`${id}-list`}
        aria-activedescendant={chosen === undefined ? undefined : `${id}-${chosen.id.replace(/\W/g, '-')}`}
        autoComplete="off"
        autoFocus
        placeholder="undo, theme, balance …"
        value={typed}
        onChange={(event) => {
          setTyped(event.target.value);
          setAt(0);
        }}
        onKeyDown={onKeyDown}
      />
      <div id={`${id}-list`} role="listbox" aria-label="Commands" className={styles.palette}>
        {found.map((command) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the keys belong to the input, which names the chosen option
          // biome-ignore lint/a11y/useFocusableInteractive: as above
          <div
            key={command.id}
            id={`${id}-${command.id.replace(/\W/g, '-')}`}
            role="option"
            aria-selected={command === chosen}
            ref={(element) => {
              if (command === chosen) element?.scrollIntoView({ block: 'nearest' });
            }}
            onClick={() => run(command)}
          >
            <span>{command.label}</span>
            <span className={styles.soft}>
              {command.shortcut === undefined ? command.group : shortcutText(command.shortcut)}
            </span>
          </div>
        ))}
      </div>
      {found.length === 0 && <p role="status">No command has these words.</p>}
    </Dialog>
  );
}
