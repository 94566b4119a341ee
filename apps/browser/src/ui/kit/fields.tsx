import { type ReactNode, useId } from 'react';
import type { FieldAddress } from '../../core/field-place.js';
import { classes } from './classes.js';
import styles from './kit.module.css';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (text: string) => void;
  /** Enter or leaving the field. */
  readonly onCommit?: () => void;
  readonly description?: string;
  readonly problem?: string;
  readonly placeholder?: string;
  readonly type?: 'text' | 'search' | 'date' | 'time';
  /** Rows of a field for several lines. */
  readonly rows?: number;
  readonly id?: string;
  readonly readOnly?: boolean;
  readonly autoFocus?: boolean;
}

/** What belongs to an input: its name above, what it is for and what is wrong with it below. */
export function FieldFrame(props: {
  readonly id: string;
  readonly label: ReactNode;
  readonly description?: ReactNode;
  readonly problem?: string | undefined;
  readonly children: ReactNode;
  readonly beside?: ReactNode;
}): ReactNode {
  const { id, label, description, problem, children, beside } = props;
  return (
    <div className={classes(styles.field, problem !== undefined && styles.faulty)}>
      <div className={styles.fieldHead}>
        <label htmlFor={id}>{label}</label>
        {beside}
      </div>
      {children}
      {description !== undefined && (
        <p id={`${id}-about`} className={styles.about}>
          {description}
        </p>
      )}
      {problem !== undefined && (
        <p id={`${id}-problem`} className={styles.problem}>
          {problem}
        </p>
      )}
    </div>
  );
}

/** Ids of what describes a field, for aria-describedby. */
export const describedBy = (id: string, description: unknown, problem: unknown): string | undefined =>
  [description !== undefined && `${id}-about`, problem !== undefined && `${id}-problem`].filter(Boolean).join(' ') ||
  undefined;

export function TextField(props: TextFieldProps): ReactNode {
  const own = useId();
  const { label, value, onChange, onCommit, description, problem, type = 'text', rows, id = own } = props;
  const common = {
    id,
    value,
    placeholder: props.placeholder,
    readOnly: props.readOnly,
    'aria-invalid': problem !== undefined || undefined,
    'aria-describedby': describedBy(id, description, problem),
    onBlur: onCommit,
    className: styles.input,
  };
  return (
    <FieldFrame id={id} label={label} description={description} problem={problem}>
      {rows === undefined ? (
        <input
          {...common}
          type={type}
          // biome-ignore lint/a11y/noAutofocus: only where a dialog asks for one text
          autoFocus={props.autoFocus}
          autoComplete="off"
          onChange={(event) => onChange(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') onCommit?.();
          }}
        />
      ) : (
        <textarea {...common} rows={rows} onChange={(event) => onChange(event.target.value)} />
      )}
    </FieldFrame>
  );
}

export interface Choice {
  readonly value: string;
  readonly label: string;
}

export interface SelectProps {
  readonly label: ReactNode;
  readonly value: string;
  readonly choices: readonly Choice[];
  readonly onChange: (value: string) => void;
  readonly description?: string;
  readonly problem?: string | undefined;
  readonly id?: string;
  readonly beside?: ReactNode;
  /** The key of a file that it is. */
  readonly at?: FieldAddress;
}

/** One of a few words. */
export function Select({ label, value, choices, onChange, description, problem, beside, ...rest }: SelectProps) {
  const own = useId();
  const id = rest.id ?? own;
  return (
    <FieldFrame id={id} label={label} description={description} problem={problem} beside={beside}>
      <select
        id={id}
        className={styles.input}
        data-path={rest.at?.path}
        data-file={rest.at?.file}
        value={value}
        aria-invalid={problem !== undefined || undefined}
        aria-describedby={describedBy(id, description, problem)}
        onChange={(event) => onChange(event.target.value)}
      >
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}

/** On or off, with the words of what is on. */
export function Switch(props: {
  readonly label: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  readonly description?: string;
}): ReactNode {
  const id = useId();
  return (
    <div className={styles.switch}>
      <input
        id={id}
        type="checkbox"
        role="switch"
        aria-checked={props.checked}
        checked={props.checked}
        aria-describedby={describedBy(id, props.description, undefined)}
        onChange={(event) => props.onChange(event.target.checked)}
      />
      <label htmlFor={id}>{props.label}</label>
      {props.description !== undefined && (
        <p id={`${id}-about`} className={styles.about}>
          {props.description}
        </p>
      )}
    </div>
  );
}
