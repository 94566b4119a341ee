import { type KeyboardEvent, type ReactNode, useId } from 'react';
import { nextInput } from '../../core/field-input.js';
import { FieldFrame } from '../kit/index.js';
import type { RecordKey } from './kinds.js';
import styles from './measure.module.css';

const times = ({ shiftKey, altKey }: KeyboardEvent): number => (shiftKey ? 10 : altKey ? 0.1 : 1);

/** A value that is not in the file yet: typed with or without its unit, arrows step. */
export function DraftField(props: {
  readonly of: RecordKey;
  readonly unit: string;
  readonly value: string;
  readonly problem: string | undefined;
  readonly onChange: (text: string) => void;
}): ReactNode {
  const { of, unit, value, problem, onChange } = props;
  const id = useId();
  const kind = of.kinds?.[0];
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const up = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (up === undefined || kind === undefined || of.kinds === undefined) return;
    event.preventDefault();
    const input = { text: value.trim() === '' ? `0 ${unit}` : value, restore: value, unit, kind, editing: true };
    const rules = { kinds: of.kinds, ...(of.step === undefined ? {} : { step: of.step }) };
    onChange(nextInput(input, rules, { kind: 'step', times: up * times(event) }).input.text);
  };
  const about = [of.help, unit === '' ? '' : `a number alone is in ${unit}`].filter((text) => text !== '').join('; ');
  return (
    <FieldFrame
      id={id}
      label={of.label}
      description={about}
      problem={problem}
      beside={<span className={styles.needed}>{of.needed ? 'needed' : 'if known'}</span>}
    >
      {of.choices === undefined ? (
        <input
          id={id}
          className={styles.input}
          autoComplete="off"
          spellCheck={false}
          value={value}
          placeholder={of.example}
          aria-required={of.needed || undefined}
          aria-invalid={problem !== undefined || undefined}
          aria-describedby={`${id}-about${problem === undefined ? '' : ` ${id}-problem`}`}
          onChange={(event) => onChange(event.target.value)}
          onKeyDown={onKeyDown}
        />
      ) : (
        <select
          id={id}
          className={styles.input}
          value={value}
          aria-required={of.needed || undefined}
          aria-invalid={problem !== undefined || undefined}
          aria-describedby={`${id}-about${problem === undefined ? '' : ` ${id}-problem`}`}
          onChange={(event) => onChange(event.target.value)}
        >
          <option value="">not given</option>
          {of.choices.map((choice) => (
            <option key={choice} value={choice}>
              {choice}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  );
}
