import type { ReactNode } from 'react';
import { localNumbers } from '../../core/decimal.js';
import { type FieldAddress, placeOfField } from '../../core/field-place.js';
import { Button } from './button.js';
import styles from './kit.module.css';
import { useServices } from './services.js';

export interface NoticeItem {
  readonly severity: 'error' | 'problem' | 'warning' | 'note';
  readonly text: string;
  /** In the words of the file. */
  readonly where?: string;
  readonly remedy?: string;
  /** Field that it leads to. */
  readonly field?: FieldAddress;
  /** What people call it. */
  readonly fieldName?: string;
  readonly actions?: readonly { readonly label: string; readonly run: () => void }[];
}

const heads = { error: 'Error', problem: 'Problem', warning: 'Warning', note: 'Note' } as const;

/** A name of a file at the start stays as it is: 'mine.yaml was not written'. */
const startsWithFile = /^\S*[\w-]\.[a-z]\w{0,7}(?=[\s:,;]|$)/i;

export const sentence = (text: string): string => {
  if (text === '') return '';
  const start = startsWithFile.test(text) ? text : `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
  return `${start}${/[.!?]$/.test(text) ? '' : '.'}`;
};

/** Findings in words, worst first, each with the way to its field. */
export function NoticeList({
  items,
  label,
}: {
  readonly items: readonly NoticeItem[];
  readonly label: string;
}): ReactNode {
  const { app } = useServices();
  if (items.length === 0) return null;
  return (
    <ul className={styles.notices} aria-label={label}>
      {items.map(({ severity, text, where, remedy, field, fieldName, actions }) => (
        <li key={`${severity} ${text} ${where}`} className={styles.notice} data-severity={severity}>
          <p>
            <b>{heads[severity]}:</b> {localNumbers(sentence(text))}
            {where !== undefined && where !== '' && where !== fieldName && <> Where: {where}.</>}
            {remedy !== undefined && remedy !== '' && <> Remedy: {localNumbers(sentence(remedy))}</>}
          </p>
          {(field !== undefined || actions !== undefined) && (
            <div className={styles.actions}>
              {field !== undefined && (
                <Button onPress={() => app.setUi({ place: placeOfField(field), focus: field })}>
                  Go to {fieldName ?? field.path}
                </Button>
              )}
              {actions?.map((action) => (
                <Button key={action.label} onPress={action.run}>
                  {action.label}
                </Button>
              ))}
            </div>
          )}
        </li>
      ))}
    </ul>
  );
}
