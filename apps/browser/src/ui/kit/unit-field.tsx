import { parseQuantity } from '@noonwing/quantities';
import { type KeyboardEvent, type ReactNode, useEffect, useId, useMemo, useRef, useState } from 'react';
import { localNumbers } from '../../core/decimal.js';
import {
  answered,
  type FieldInput,
  fieldInput,
  type InputEvent,
  type InputRules,
  isBare,
  nextInput,
  writtenUnit,
} from '../../core/field-input.js';
import { defaultFor, type FieldValue } from '../../core/fields.js';
import { sentenceOf } from '../../core/reading.js';
import { shownQuantity, unitFor } from '../../core/shown-quantity.js';
import { splitSourceWord } from '../../core/source-word.js';
import type { Preferences } from '../../core/state.js';
import { Button } from './button.js';
import { FieldFrame, Select } from './fields.js';
import { leadTo } from './hooks.js';
import styles from './kit.module.css';
import { SourceMark } from './marks.js';
import { useAppState, useServices } from './services.js';
import { useField } from './use-field.js';

export interface UnitFieldProps {
  /** As in the file: 'battery.x', 'surfaces.wing.stations[1].chord'. */
  readonly path: string;
  readonly file?: 'design' | 'day';
  /** In words; the last key of the path where absent. */
  readonly label?: string;
  /** Beside the input: what a change of it would bring. */
  readonly payoff?: ReactNode;
  /** Without the line of help below; it stays under 'about'. */
  readonly brief?: boolean;
}

/** For those who do not see where a field stands: 'stall factor; flight: stall factor', 'chord; surface "wing", station 2: chord, in mm'. */
const spokenName = (label: string, { name }: FieldValue, unit: string): string =>
  `${name === label ? label : name.endsWith(`: ${label}`) ? `${label} of ${name.slice(0, -label.length - 2)}` : `${label}; ${name}`}${unit === '' ? '' : `, in ${unit}`}`;

/** With the decimal mark of the person, where that is read back as the same: '1.500 kg' stays, as '1,500 kg' could be two things. */
function localQuantity(text: string, { kinds }: FieldValue): string {
  const local = localNumbers(text);
  if (local === text) return text;
  const [before, after] = [parseQuantity(text, kinds), parseQuantity(local, kinds)];
  return before.ok && after.ok && before.value === after.value && before.sigma === after.sigma ? local : text;
}

/** The value as the input shows it: in the person's unit where one is chosen, else as the file has it. */
function shownText(field: FieldValue, preferences: Preferences): string {
  if (field.pending !== undefined) return field.pending;
  if (!field.written) return '';
  const { kind, value, sigma } = field;
  if (kind === undefined || value === undefined) return splitSourceWord(field.text).quantity;
  if (preferences.units[kind] === undefined) return localQuantity(splitSourceWord(field.text).quantity, field);
  const hasSigma = /±|\+-|\+\/-/.test(field.text);
  return shownQuantity({ value, sigma: hasSigma ? sigma : undefined }, kind, preferences);
}

/** Unit of a bare number: the preferred one, else the one that the field shows, else the usual one of the size. */
function unitOf(field: FieldValue, preferences: Preferences): string {
  const { kind, value, text, written } = field;
  if (kind === undefined) return '';
  const shown = written && preferences.units[kind] === undefined ? writtenUnit(text, kind) : undefined;
  return shown ?? unitFor(kind, value ?? exampleValue(field), preferences.units);
}

/** So that a chord that is not written yet is asked for in mm, as in its example. */
const exampleValue = ({ example, kinds }: FieldValue): number => {
  const parsed = example === undefined ? undefined : parseQuantity(splitSourceWord(example).quantity, kinds);
  return parsed?.ok ? parsed.value : 0;
};

const assumedText = (field: FieldValue, preferences: Preferences): string | undefined => {
  if (field.written) return undefined;
  const { kind, value, sigma } = field;
  return kind === undefined || value === undefined
    ? field.defaultText
    : shownQuantity({ value, sigma }, kind, preferences);
};

const times = ({ shiftKey, altKey }: KeyboardEvent): number => (shiftKey ? 10 : altKey ? 0.1 : 1);

/** A value of the file with its unit: '15 in' is taken, arrows step, Escape restores, what is out of range is said. */
export function UnitField(props: UnitFieldProps): ReactNode {
  const { path, file = 'design' } = props;
  const field = useField(path, file);
  return field === undefined ? null : field.choices.length > 0 && field.kinds.length === 0 ? (
    <ChoiceField {...props} />
  ) : (
    <UnitInput key={`${file} ${path}`} {...props} field={field} file={file} />
  );
}

function useUnitInput(field: FieldValue, path: string, file: 'design' | 'day') {
  const { app } = useServices();
  const preferences = useAppState((state) => state.preferences);
  const shown = shownText(field, preferences);
  const unit = unitOf(field, preferences);
  const kind = field.kind ?? field.kinds[0] ?? 'length';
  const [input, setInput] = useState<FieldInput>(() => fieldInput(shown, kind, unit));
  const rules = useMemo(
    () => ({ kinds: field.kinds, ...(field.step === undefined ? {} : { step: field.step }) }),
    [field.kinds, field.step],
  );
  /** Text was typed that is not in the file yet; stepping is in it at once. */
  const [typed, setTyped] = useState(false);
  useEffect(() => {
    setInput((before) => followed({ ...before, unit, kind }, shown, typed, rules));
  }, [shown, unit, kind, rules, typed]);

  const send = (event: InputEvent) => {
    const from =
      event.kind === 'step' && input.text.trim() === '' ? { ...input, text: assumedStart(field, unit) } : input;
    const { input: next, set } = nextInput(from, rules, event);
    setTyped(event.kind === 'type');
    if (set === undefined) {
      setInput(next);
      if (event.kind === 'escape') app.run({ kind: 'drop pending', file, path });
      return;
    }
    const word = event.kind === 'escape' ? splitSourceWord(field.text).word : '';
    const result = app.setValue(path, word === '' ? set : `${set} ${word}`, { file });
    setInput(answered(next, result));
    if (event.kind !== 'step') app.endStep();
  };
  return { input, send, preferences, typed };
}

/** The input after the file changed: by undo, by another part of the page, or by what was typed here and is kept beside it. */
function followed(before: FieldInput, shown: string, typed: boolean, rules: InputRules): FieldInput {
  if (before.text === shown) return before;
  return nextInput(typed ? before : { ...before, editing: false }, rules, { kind: 'changed', shown }).input;
}

/** Where stepping begins while nothing is written: at what is assumed. */
const assumedStart = (field: FieldValue, unit: string): string =>
  field.kind === undefined || field.value === undefined
    ? ''
    : shownQuantity({ value: field.value }, field.kind, { units: unit === '' ? {} : { [field.kind]: unit } });

function UnitInput(props: UnitFieldProps & { readonly field: FieldValue; readonly file: 'design' | 'day' }): ReactNode {
  const { path, file, field, payoff, label = field.label } = props;
  const id = useId();
  const element = useRef<HTMLInputElement>(null);
  const [about, setAbout] = useState(false);
  const { input, send, preferences, typed } = useUnitInput(field, path, file);
  useFocusRequest(path, file, element);
  const message = field.messages[0];
  const problem = input.problem ?? (message === undefined ? undefined : sentenceOf(message));
  const isError = input.problem !== undefined || message?.severity === 'error';

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      send({ kind: 'step', times: (event.key === 'ArrowUp' ? 1 : -1) * times(event) });
    } else if (event.key === 'PageUp' || event.key === 'PageDown') {
      event.preventDefault();
      send({ kind: 'step', times: event.key === 'PageUp' ? 10 : -10 });
    } else if (event.key === 'Escape' && (input.editing || field.pending !== undefined)) {
      event.stopPropagation();
      event.preventDefault();
      send({ kind: 'escape' });
    } else if (event.key === 'Enter') send({ kind: 'commit' });
  };

  return (
    <FieldFrame
      id={id}
      label={label}
      problem={problem}
      description={props.brief ? undefined : (unwrittenWords(field, preferences) ?? spreadWords(field, preferences))}
      beside={<SourceMark source={field.source} />}
    >
      <div className={styles.inputRow}>
        <input
          ref={element}
          id={id}
          className={styles.input}
          data-path={path}
          data-file={file}
          data-editing={typed || undefined}
          aria-label={spokenName(label, field, input.unit)}
          inputMode="text"
          autoComplete="off"
          spellCheck={false}
          value={input.text}
          placeholder={assumedText(field, preferences) ?? (field.example && `such as ${field.example}`)}
          aria-invalid={isError || undefined}
          aria-describedby={`${id}-about${problem === undefined ? '' : ` ${id}-problem`}`}
          onChange={(event) => send({ kind: 'type', text: event.target.value })}
          onKeyDown={onKeyDown}
          onBlur={() => send({ kind: 'commit' })}
        />
        {input.unit !== '' && isBare(input.text) && (
          <span className={styles.inputUnit} aria-hidden="true">
            {input.unit}
          </span>
        )}
        <Button
          kind="quiet"
          icon="more"
          compact
          expanded={about}
          label={`About ${label}`}
          onPress={() => setAbout(!about)}
        >
          {''}
        </Button>
      </div>
      {payoff !== undefined && <div className={styles.payoff}>{payoff}</div>}
      {about && <AboutField field={field} label={label} />}
    </FieldFrame>
  );
}

const unwrittenWords = (field: FieldValue, preferences: Preferences): string | undefined => {
  const text = assumedText(field, preferences);
  if (field.written) return undefined;
  return text === undefined ? field.help : `taken as ${text}${field.why === undefined ? '' : `: ${field.why}`}`;
};

/** An uncertainty that the file does not say. */
const spreadWords = (field: FieldValue, preferences: Preferences): string | undefined =>
  field.kind === undefined || field.sigma === undefined || /±|\+-|\+\/-/.test(field.text)
    ? undefined
    : `${shownQuantity({ value: field.value ?? 0, sigma: field.sigma }, field.kind, preferences)} counts: usual spread`;

/** What the field is, its limits, and the ways to say where its value comes from. */
function AboutField({ field, label }: { readonly field: FieldValue; readonly label: string }): ReactNode {
  const { app } = useServices();
  const work = useAppState((state) => state.work);
  const { path, file, text } = field;
  const fallback = useMemo(() => defaultFor({ work }, path, file), [work, path, file]);
  const { quantity, word } = splitSourceWord(text);
  const mark = (next: string) =>
    app.setValue(path, next === '' ? quantity : `${quantity} ${next}`, { file, capture: 'new step' });
  const facts = [
    field.help,
    field.limits === undefined ? '' : `takes ${field.limits}`,
    field.usual === undefined ? '' : `usually ${field.usual}`,
    field.stepText === undefined ? '' : `steps of ${field.stepText}`,
    field.example === undefined ? '' : `for instance ${field.example}`,
  ].filter((fact) => fact !== '');
  return (
    <div className={styles.aboutField}>
      <p>{facts.join('; ')}.</p>
      {field.units.length > 1 && <p>Units: {field.units.join(', ')}.</p>}
      {field.written && field.kinds.length > 0 && (
        <Select
          label={`Where ${label} comes from`}
          value={word === 'weighed' ? 'measured' : word}
          choices={[
            { value: '', label: 'stated' },
            { value: 'measured', label: 'measured' },
            { value: 'assumed', label: 'assumed' },
          ]}
          onChange={mark}
        />
      )}
      {field.written && (
        <Button onPress={() => app.setValue(path, '', { file, capture: 'new step' })}>
          {fallback === undefined ? 'Take the value away' : `Back to what is assumed: ${fallback.text}`}
        </Button>
      )}
    </div>
  );
}

/** A warning that leads here puts its path in the state; the field takes the focus once. */
function useFocusRequest(path: string, file: string, element: { readonly current: HTMLElement | null }): void {
  const { app } = useServices();
  const focus = useAppState((state) => state.ui.focus);
  useEffect(() => {
    if (focus === undefined || focus.path !== path || focus.file !== file || element.current === null) return;
    leadTo(element.current);
    app.setUi({ focus: undefined });
  }, [focus, path, file, element, app]);
}

/** A key of the file that takes one of a few words. */
export function ChoiceField({ path, file = 'design', label, payoff, brief }: UnitFieldProps): ReactNode {
  const { app } = useServices();
  const field = useField(path, file);
  const id = useId();
  const element = useMemo(
    () => ({
      get current() {
        return document.getElementById(id);
      },
    }),
    [id],
  );
  useFocusRequest(path, file, element);
  if (field === undefined) return null;
  const message = field.messages[0];
  const fallback = field.defaultText === undefined ? 'not given' : `${field.defaultText} (assumed)`;
  const known = field.choices.includes(field.text) || field.text === '';
  return (
    <>
      <Select
        id={id}
        at={{ file, path }}
        label={label ?? field.label}
        value={field.text}
        choices={[
          { value: '', label: fallback },
          ...(known ? [] : [{ value: field.text, label: field.text }]),
          ...field.choices.map((choice) => ({ value: choice, label: choice })),
        ]}
        problem={message === undefined ? undefined : sentenceOf(message)}
        beside={<SourceMark source={field.source} />}
        onChange={(text) => app.setValue(path, text, { file, capture: 'new step' })}
        {...(brief || field.help === '' ? {} : { description: field.help })}
      />
      {payoff !== undefined && <div className={styles.payoff}>{payoff}</div>}
    </>
  );
}
