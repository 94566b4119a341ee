import { type FormEvent, type ReactNode, useCallback, useMemo, useRef, useState } from 'react';
import { type Active, activeOf } from '../../core/state.js';
import type { VerdictView } from '../../core/view.js';
import { Button, Disclosure, sentence, useAppState, useServices } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { BenchFindings } from './bench.js';
import { DraftField } from './draft-field.js';
import { isStiffness, type RecordKey, type RecordKind } from './kinds.js';
import styles from './measure.module.css';
import { changeWords, outcomeOf } from './outcome.js';
import {
  type Draft,
  type FileRecord,
  readDraft,
  recordEdits,
  recordLines,
  recordsOf,
  withoutRecord,
  withRecord,
} from './record.js';
import { StiffnessExpected } from './stiffness.js';
import { type Tried, useTrialInput, useTried } from './tried.js';

/** Volts and amps of the array itself tell a converter apart from cells: they must not be overlooked. */
const moreOfArray = 'How the cells lie, volts and amps of the array itself, conditions, notes';

const two = (value: number): string => String(value).padStart(2, '0');

/** Now by a clock that is so far from UTC [s], for a field that takes a date and time with offset. */
export function nowText(now: Date, utcOffset: number): string {
  const local = new Date(now.getTime() + utcOffset * 1000);
  const minutes = Math.round(Math.abs(utcOffset) / 60);
  const offset = `${utcOffset < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
  return `${local.toISOString().slice(0, 16)}${offset}`;
}

function firstDraft(kind: RecordKind, utcOffset: number): Draft {
  const now = nowText(new Date(), utcOffset);
  return Object.fromEntries(
    kind.keys.flatMap(({ key, notation }) =>
      notation === 'instant' ? [[key, now]] : notation === 'date' ? [[key, now.slice(0, 10)]] : [],
    ),
  );
}

interface FormProps {
  readonly kind: RecordKind;
  /** To be changed; a new one where absent. */
  readonly record?: FileRecord;
  readonly onDone: () => void;
}

/** A reading: what was read, what the model expects of it at once, and adding it to the design file. */
export function RecordForm({ kind, record, onDone }: FormProps): ReactNode {
  const { app, announce } = useServices();
  const units = useAppState((state) => state.preferences.units);
  const work = useAppState((state) => state.work);
  const active = useMemo(() => activeOf({ work }), [work]);
  const offset = useVerdict()?.plan.utcOffset ?? 0;
  const [draft, setDraft] = useState<Draft>(() => record?.values ?? firstDraft(kind, offset));
  const [isTold, setIsTold] = useState(false);
  const [refused, setRefused] = useState('');
  const form = useRef<HTMLFormElement>(null);
  const unitOf = useCallback(
    ({ kinds, unit = '' }: RecordKey) => (kinds === undefined ? '' : (units[kinds[0]!] ?? unit)),
    [units],
  );
  const read = useMemo(() => readDraft(kind, draft, unitOf), [kind, draft, unitOf]);
  const design = active.design ?? '';
  const trial = useMemo(
    () => (read.ok ? trialText(design, kind, read.values, record) : undefined),
    [design, kind, read, record],
  );

  const keep = (event: FormEvent) => {
    event.preventDefault();
    setIsTold(true);
    if (!read.ok) {
      const first = kind.keys.find(({ key }) => read.problems[key] !== undefined);
      form.current?.querySelectorAll<HTMLElement>('input, select')[kind.keys.indexOf(first!)]?.focus();
      return;
    }
    const reason = record === undefined ? addTo(read.values) : change(record, read.values);
    if (reason !== undefined) return setRefused(reason);
    announce(`${kind.title} ${record === undefined ? 'added to' : 'changed in'} the design file. Undo takes it back.`);
    onDone();
  };
  const addTo = (values: Draft): string | undefined => {
    const added = withRecord(design, recordLines(kind.what, values, kind.keys));
    if (!added.ok) return added.reason;
    const path = active.designPath ?? '';
    const result = app.run(
      { kind: 'set text', path, text: added.text, label: `add ${kind.title.toLowerCase()}` },
      'new step',
    );
    return result.ok ? undefined : `${result.reason}; ${result.remedy}`;
  };
  const change = (of: FileRecord, values: Draft): string | undefined => {
    const edits = recordEdits(of, values, kind.keys);
    if (edits.length === 0) return undefined;
    const result = app.run({ kind: 'set values', edits, label: `change ${kind.title.toLowerCase()}` }, 'new step');
    return result.ok ? undefined : `${result.reason}; ${result.remedy}`;
  };

  const field = (key: RecordKey) => {
    const text = draft[key.key] ?? '';
    // What is still missing is only said after the attempt to keep it.
    const problem = isTold || text.trim() !== '' ? read.problems[key.key] : undefined;
    return (
      <DraftField
        key={key.key}
        of={key}
        unit={unitOf(key)}
        value={text}
        problem={problem}
        onChange={(value) => setDraft({ ...draft, [key.key]: value })}
      />
    );
  };
  const needed = kind.keys.filter((key) => key.needed);
  const more = kind.keys.filter((key) => !key.needed);
  return (
    <form ref={form} onSubmit={keep} className={styles.form} aria-label={kind.title} noValidate>
      {kind.cautions.length > 0 && (
        <ul className={styles.cautions} aria-label="Cautions">
          {kind.cautions.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
      <div className={styles.fields}>{needed.map(field)}</div>
      <Disclosure
        title={kind.what === 'array reading' ? moreOfArray : 'Conditions, instrument, notes'}
        open={record !== undefined}
      >
        <div className={styles.fields}>{more.map(field)}</div>
      </Disclosure>
      {isStiffness(kind.what) ? (
        <StiffnessExpected what={kind.what} trial={trial} active={active} />
      ) : (
        <Expected trial={trial} active={active} />
      )}
      {kind.what === 'array reading' && <BenchFindings trial={trial} active={active} />}
      {refused !== '' && <p role="alert">{sentence(refused)}</p>}
      <div className={styles.row}>
        <Button kind="main" submits>
          {record === undefined ? 'Add to the design file' : 'Keep the change'}
        </Button>
        <Button kind="quiet" onPress={onDone}>
          {record === undefined ? 'Leave it' : 'Leave it as it was'}
        </Button>
      </div>
    </form>
  );
}

/** The design as it would be, the reading last, so that it is the one that counts. */
function trialText(
  design: string,
  kind: RecordKind,
  values: Draft,
  record: FileRecord | undefined,
): string | undefined {
  const base = record === undefined ? { ok: true as const, text: design } : withoutRecord(design, record.index);
  if (!base.ok) return undefined;
  const added = withRecord(base.text, recordLines(kind.what, values, kind.keys));
  return added.ok ? added.text : undefined;
}

/** What the model expects of the reading, before it is kept. */
function Expected({ trial, active }: { readonly trial: string | undefined; readonly active: Active }): ReactNode {
  const preferences = useAppState((state) => state.preferences);
  const shown = useVerdict();
  const input = useTrialInput(trial, active);
  const tried = useTried('reading', input);
  if (trial === undefined)
    return <p className={styles.soft}>As soon as the readings are there, what the model expects stands here.</p>;
  if (tried.kind !== 'done') return <p className={styles.soft}>{triedWords(tried)}</p>;
  const record = recordsOf(trial).at(-1);
  const outcome = record === undefined ? undefined : outcomeOf(trial, record, tried.view, shown, preferences);
  return (
    <div role="status" className={styles.expected}>
      {outcome === undefined ? (
        <p>{problemOf(tried.view)}</p>
      ) : (
        <p>
          {sentence(outcome.words)} {outcome.difference !== undefined && <b>Difference {outcome.difference}.</b>}
        </p>
      )}
      {shown !== undefined && <Changes without={shown} withIt={tried.view} />}
    </div>
  );
}

export const triedWords = (tried: Tried): string =>
  tried.kind === 'refused'
    ? `This cannot be computed with: ${tried.refusal.reason}; ${tried.refusal.remedy}.`
    : tried.kind === 'failed'
      ? `This could not be computed: ${tried.reason}.`
      : 'The model is being asked …';

const problemOf = (view: VerdictView): string => {
  const found = view.findings.find(({ where }) => /^measured/.test(where));
  return found === undefined
    ? 'The model has nothing to compare this with.'
    : `${sentence(found.text)} ${sentence(found.remedy)}`;
};

export function Changes({
  without,
  withIt,
}: {
  readonly without: VerdictView;
  readonly withIt: VerdictView;
}): ReactNode {
  const lines = changeWords(without, withIt);
  return lines.length === 0 ? (
    <p>The verdict stays as it is.</p>
  ) : (
    <ul className={styles.changes}>
      {lines.map((line) => (
        <li key={line}>{sentence(line)}</li>
      ))}
    </ul>
  );
}
