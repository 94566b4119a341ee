import { type ReactNode, useState } from 'react';
import { keysAt } from '../../core/fields.js';
import { Button, Dialog, Menu, TextField, useServices } from '../kit/index.js';
import styles from './design.module.css';
import { addEntry, entryBrief, entryWord, freeName, nameProblem, removeEntry, renameEntry } from './entries.js';
import { DesignField } from './field.js';
import { childPath, formAt, lastKey } from './schema.js';
import { useDesignText, useEdit, useFold, useKeys } from './use-design.js';

/** Entries with many keys fold; of those the first is open. */
const FOLDED = /^(surfaces|array\.converters)$/;

/** More entries than this are a list of lines, each opened by itself. */
const mostOpen = 4;

const article = (word: string): string => (/^[aeiou]/.test(word) ? `an ${word}` : `a ${word}`);

/** Entries that the builder names: each with its keys, to rename, to take away, and a way to add one. */
export function Entries({ path, title }: { readonly path: string; readonly title?: string }): ReactNode {
  const names = useKeys(path);
  const { text } = useDesignText();
  const { app } = useServices();
  const { setValues, problem, say } = useEdit();
  const word = entryWord(path);
  const add = () => {
    const name = freeName(names, word);
    const edits = addEntry(text, path, name);
    if (edits.length === 0) return say(`every row is in a string already: add a row of cells first`);
    if (setValues(edits, `add ${word} "${name}"`)) app.setUi({ focus: { file: 'design', path: edits.at(-1)!.path } });
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be the grid that it is
    <div className={styles.entries} data-path={path} role="group" aria-label={lastKey(path)} tabIndex={-1}>
      {title !== '' && <h4 className={styles.entriesTitle}>{title ?? lastKey(path)}</h4>}
      {names.map((name, i) => (
        <Entry
          key={name}
          group={path}
          name={name}
          isFirst={i === 0}
          folds={FOLDED.test(path) || names.length > mostOpen}
          heading={title === '' ? 'h4' : 'h5'}
        />
      ))}
      {problem !== undefined && <p className={styles.problem}>{problem}</p>}
      <div>
        <Button onPress={add}>{`Add ${article(word)}`}</Button>
      </div>
    </div>
  );
}

interface EntryProps {
  readonly group: string;
  readonly name: string;
  readonly isFirst: boolean;
  readonly folds: boolean;
  /** So that headings follow each other. */
  readonly heading: 'h4' | 'h5';
}

function Entry({ group, name, isFirst, folds, heading: Heading }: EntryProps): ReactNode {
  const path = childPath(group, name);
  const [open, setOpen] = useFold(path, undefined, isFirst && FOLDED.test(group));
  const { text } = useDesignText();
  const form = formAt(path);
  const body = <DesignField path={path} label={form?.form === 'short' ? (form.keys[0] ?? name) : name} untitled />;
  if (folds) {
    return (
      <details className={styles.entryFold} open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary data-path={path}>
          <span>
            {name} <small>{entryBrief(text, group, name)}</small>
          </span>
        </summary>
        {open && (
          <>
            <EntryMenu group={group} name={name} />
            {body}
          </>
        )}
      </details>
    );
  }
  return (
    <div className={styles.entry}>
      <div className={styles.entryHead}>
        <Heading>{name}</Heading>
        <EntryMenu group={group} name={name} />
      </div>
      {body}
    </div>
  );
}

function EntryMenu({ group, name }: { readonly group: string; readonly name: string }): ReactNode {
  const { text } = useDesignText();
  const { setValues, problem, say } = useEdit();
  const [renaming, setRenaming] = useState(false);
  const remove = () => {
    const removed = removeEntry(text, group, name);
    if (removed.ok) setValues(removed.edits, `remove ${entryWord(group)} "${name}"`);
    else say(removed.reason);
  };
  return (
    <div>
      <Menu
        label="Change"
        kind="quiet"
        icon="more"
        name={`Change ${name}`}
        items={[
          { id: 'rename', label: `Rename ${name}`, run: () => setRenaming(true) },
          { id: 'remove', label: `Remove ${name}`, run: remove },
        ]}
      />
      {problem !== undefined && <p className={styles.problem}>{problem}</p>}
      {renaming && <RenameDialog group={group} name={name} onClose={() => setRenaming(false)} />}
    </div>
  );
}

function RenameDialog(props: {
  readonly group: string;
  readonly name: string;
  readonly onClose: () => void;
}): ReactNode {
  const { group, name, onClose } = props;
  const { text } = useDesignText();
  const { setText } = useEdit();
  const [wanted, setWanted] = useState(name);
  const taken = keysAt('design', text, group).filter((key) => key !== name);
  const problem = wanted === name ? undefined : nameProblem(wanted, taken);
  const rename = () => {
    if (problem !== undefined) return;
    if (setText(renameEntry(text, group, name, wanted), `rename ${name} to ${wanted.trim()}`)) onClose();
  };
  return (
    <Dialog
      title={`Rename ${name}`}
      onClose={onClose}
      actions={
        <Button kind="main" onPress={rename}>
          Rename
        </Button>
      }
    >
      <TextField
        label="New name"
        value={wanted}
        autoFocus
        onChange={setWanted}
        description="It changes wherever it is named in the file."
        {...(problem === undefined ? {} : { problem })}
      />
    </Dialog>
  );
}
