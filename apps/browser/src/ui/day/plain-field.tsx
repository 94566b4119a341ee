import { type ReactNode, useEffect, useId, useState } from 'react';
import { sentenceOf } from '../../core/reading.js';
import { leadTo, SourceMark, TextField, useAppState, useField, useServices } from '../kit/index.js';
import styles from './day.module.css';

export interface PlainFieldProps {
  readonly path: string;
  readonly label: string;
  readonly file?: 'design' | 'day';
  readonly description?: string;
  readonly placeholder?: string;
  /** Rows of a field for several lines. */
  readonly rows?: number;
}

/** A key of the file that is no quantity: a name, a clock time, a note. Kept in the file when the field is left. */
export function PlainField({ path, label, file = 'day', rows, ...texts }: PlainFieldProps): ReactNode {
  const { app } = useServices();
  const field = useField(path, file);
  const id = useId();
  const shown = field?.pending ?? field?.text ?? '';
  const [draft, setDraft] = useState<string>();
  const focus = useAppState((state) => state.ui.focus);
  useEffect(() => {
    if (focus?.file !== file || focus.path !== path) return;
    const element = document.getElementById(id);
    if (element !== null) leadTo(element);
    app.setUi({ focus: undefined });
  }, [focus, file, path, id, app]);
  if (field === undefined) return null;
  const commit = () => {
    if (draft !== undefined && draft !== shown) app.setValue(path, draft, { file, capture: 'new step' });
    setDraft(undefined);
  };
  const message = field.messages[0];
  const assumed = field.written || field.defaultText === undefined ? undefined : `taken as ${field.defaultText}`;
  const description = texts.description ?? assumed;
  const problem =
    message !== undefined
      ? sentenceOf(message)
      : field.pending === undefined
        ? undefined
        : 'The file cannot take this; what it had before still counts.';
  return (
    <div className={styles.marked}>
      <TextField
        id={id}
        label={label}
        value={draft ?? shown}
        onChange={setDraft}
        onCommit={commit}
        {...(rows === undefined ? {} : { rows })}
        {...(description === undefined ? {} : { description })}
        {...(problem === undefined ? {} : { problem })}
        {...(texts.placeholder === undefined ? {} : { placeholder: texts.placeholder })}
      />
      <SourceMark source={field.source} />
    </div>
  );
}
