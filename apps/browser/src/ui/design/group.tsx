import { Fragment, type ReactNode } from 'react';
import { partOfPath } from '../../core/field-place.js';
import { Button, useServices } from '../kit/index.js';
import styles from './design.module.css';
import { DesignField } from './field.js';
import { PayoffsOf } from './payoffs.js';
import { childPath, formAt, labelAt, lastKey } from './schema.js';
import { keysElsewhere, usualKeys } from './sections.js';
import { useEdit, useFold, useKeys } from './use-design.js';

export interface FieldGroupProps {
  readonly path: string;
  /** Heading above the fields. */
  readonly title?: string;
  /** Shown only when wanted, under these words. */
  readonly folded?: string;
  /** Keys that are shown elsewhere. */
  readonly without?: readonly string[];
}

const isLeaf = (path: string): boolean => {
  const form = formAt(path)?.form;
  return form === 'value' || form === 'words' || form === 'flag' || form === 'text';
};

const same = (a: string, b: string): boolean =>
  a.replace(/[-_\s]+/g, ' ').toLowerCase() === b.replace(/[-_\s]+/g, ' ').toLowerCase();

/** All keys of a group: the usual ones and those that are written, then the others when wanted, then groups of their own. */
export function FieldGroup({ path, title, folded, without = [] }: FieldGroupProps): ReactNode {
  const form = formAt(path);
  const written = useKeys(path);
  const [open, setOpen] = useFold(path, undefined, false);
  if (form === undefined) return null;
  const elsewhere = keysElsewhere(path);
  const keys = form.keys.filter((key) => !without.includes(key) && !elsewhere.includes(key));
  const isWritten = (key: string) => written.some((one) => same(one, key));
  const usual = usualKeys(path) ?? keys;
  const shown = keys.filter((key) => usual.includes(key) || isWritten(key) || formAt(childPath(path, key))?.required);
  const others = keys.filter((key) => !shown.includes(key));
  const first = shown.filter((key) => isLeaf(childPath(path, key)));
  const inner = shown.filter((key) => !isLeaf(childPath(path, key)));
  const body = (
    <>
      <div className={styles.fields}>
        {first.map((key) => (
          <DesignField key={key} path={childPath(path, key)} brief />
        ))}
      </div>
      <OtherKeys path={path} keys={others} />
      {inner.map((key) => (
        <Fragment key={key}>
          <DesignField path={childPath(path, key)} />
        </Fragment>
      ))}
      {elsewhere.map((key) => (
        <ToKey key={key} path={childPath(path, key)} />
      ))}
      <PayoffsOf path={path} />
    </>
  );
  if (folded !== undefined) {
    return (
      <details className={styles.fold} open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>{folded}</summary>
        {open && body}
      </details>
    );
  }
  return (
    <fieldset className={styles.group} data-path={path} tabIndex={-1}>
      {title !== undefined && <legend>{title}</legend>}
      {body}
      <Instead path={path} words={form.instead} />
    </fieldset>
  );
}

/** Leads to a key that another part of the place shows. */
function ToKey({ path }: { readonly path: string }): ReactNode {
  const { app } = useServices();
  const written = useKeys(path);
  const key = lastKey(path);
  return (
    <div>
      <Button
        kind="quiet"
        onPress={() => app.setUi({ place: `design/${partOfPath(path)}`, focus: { file: 'design', path } })}
      >
        {written.length > 0
          ? `To the ${key} of ${path.split('.').at(-2)}`
          : `Describe the ${key} of ${path.split('.').at(-2)}`}
      </Button>
    </div>
  );
}

/** Keys that few need: nothing is hidden, they are one step away. */
export function OtherKeys({ path, keys }: { readonly path: string; readonly keys: readonly string[] }): ReactNode {
  const [open, setOpen] = useFold(path, keys, false);
  if (keys.length === 0) return null;
  return (
    <details className={styles.fold} open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {keys.length} more: {keys.map((key) => labelAt(childPath(path, key))).join(', ')}
      </summary>
      {open && (
        <div className={styles.fields}>
          {keys.map((key) => (
            <DesignField key={key} path={childPath(path, key)} />
          ))}
        </div>
      )}
    </details>
  );
}

/** A word in place of the whole group: 'none' for an aircraft without battery. */
function Instead({ path, words }: { readonly path: string; readonly words: readonly string[] }): ReactNode {
  const { setValues } = useEdit();
  const written = useKeys(path);
  if (words.length === 0) return null;
  return (
    <div>
      {words.map((word) => (
        <Button
          key={word}
          kind="quiet"
          onPress={() =>
            setValues([...(written.length > 0 ? [{ path }] : []), { path, text: word }], `${lastKey(path)}: ${word}`)
          }
        >
          {`${lastKey(path)}: ${word}`}
        </Button>
      ))}
    </div>
  );
}
