import { type ReactNode, useMemo, useState } from 'react';
import type { ComputeInput } from '../../core/messages.js';
import { type Active, activeOf } from '../../core/state.js';
import { sectionsOf } from '../../core/store.js';
import { Button, Panel, Switch, sentence, useAppState, useComputeState, useServices } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { Changes, RecordForm, triedWords } from './form.js';
import { isStiffness, kindOf } from './kinds.js';
import styles from './measure.module.css';
import { outcomeOf } from './outcome.js';
import { type FileRecord, recordsOf, switchEdit, withoutRecord } from './record.js';
import { StiffnessOutcome } from './stiffness.js';
import { useTried } from './tried.js';

/** Every record of the design file, what the model had expected of it, and what it changes. */
export function RecordList(): ReactNode {
  const work = useAppState((state) => state.work);
  const active = useMemo(() => activeOf({ work }), [work]);
  const records = useMemo(() => recordsOf(active.design ?? ''), [active.design]);
  const counting = records.filter(({ counts }) => counts).length;
  const finding =
    records.length === 0
      ? 'No reading is in the design file yet: drive, cells and drag are as the model computes them.'
      : `${records.length} ${records.length === 1 ? 'record' : 'records'} in the design file, ${counting} of them computed with.`;
  return (
    <Panel title="What was measured" finding={finding}>
      <ol className={styles.records}>
        {records.map((record) => (
          <RecordRow key={record.index} record={record} active={active} />
        ))}
      </ol>
    </Panel>
  );
}

function RecordRow({ record, active }: { readonly record: FileRecord; readonly active: Active }): ReactNode {
  const { app, announce } = useServices();
  const [isEditing, setIsEditing] = useState(false);
  const [problem, setProblem] = useState('');
  const kind = kindOf(record.what);
  const title = kind?.title ?? record.what;
  const name = `${title}, record ${record.index + 1}`;
  const remove = () => {
    const removed = withoutRecord(active.design ?? '', record.index);
    if (!removed.ok) return setProblem(removed.reason);
    const result = app.run(
      {
        kind: 'set text',
        path: active.designPath ?? '',
        text: removed.text,
        label: `take ${title.toLowerCase()} away`,
      },
      'new step',
    );
    setProblem(result.ok ? '' : result.reason);
    if (result.ok) announce(`${name} is taken away. Undo brings it back.`);
  };
  const toggle = () => {
    const label = `${record.isUsed ? 'compute without' : 'compute with'} ${title.toLowerCase()}`;
    const result = app.run({ kind: 'set values', edits: [switchEdit(record)], label }, 'new step');
    setProblem(result.ok ? '' : `${result.reason}; ${result.remedy}`);
  };
  return (
    <li className={styles.record} data-counts={record.counts || undefined}>
      <div className={styles.recordHead}>
        <h3>{title}</h3>
        <Switch label="computed with" checked={record.isUsed} onChange={toggle} />
      </div>
      <p>{valuesText(record)}</p>
      {record.isUsed && !record.counts && <p className={styles.soft}>A later record of this kind counts instead.</p>}
      {problem !== '' && <p role="alert">{sentence(problem)}</p>}
      {isStiffness(record.what) ? <StiffnessOutcome record={record} /> : <WhatItDoes record={record} active={active} />}
      {isEditing && kind !== undefined ? (
        <RecordForm kind={kind} record={record} onDone={() => setIsEditing(false)} />
      ) : (
        <div className={styles.row}>
          {kind !== undefined && (
            <Button label={`Edit ${name}`} onPress={() => setIsEditing(true)}>
              Edit
            </Button>
          )}
          <Button kind="danger" label={`Take away ${name}`} onPress={remove}>
            Take away
          </Button>
        </div>
      )}
    </li>
  );
}

const valuesText = ({ what, values }: FileRecord): string => {
  const kind = kindOf(what);
  return Object.entries(values)
    .map(([key, text]) => `${(kind?.keys.find((one) => one.key === key)?.label ?? key).toLowerCase()} ${text}`)
    .join(', ');
};

/** The texts with this record switched over. */
function switchedInput(record: FileRecord, active: Active, polars: string | undefined): ComputeInput | undefined {
  const { design, plan, project } = active;
  if (design === undefined || plan === undefined || project === undefined) return undefined;
  const removed = withoutRecord(design, record.index);
  if (!removed.ok) return undefined;
  const input = { design: removed.text, plan, sections: sectionsOf(project) };
  return polars === undefined ? input : { ...input, polars };
}

function WhatItDoes({ record, active }: { readonly record: FileRecord; readonly active: Active }): ReactNode {
  const preferences = useAppState((state) => state.preferences);
  const shown = useVerdict();
  const isStale = useComputeState(({ channels }) => channels.verdict.stale);
  const polars = useComputeState((state) => state.polars);
  const input = useMemo(
    () => (record.counts ? switchedInput(record, active, polars) : undefined),
    [record, active, polars],
  );
  const tried = useTried(`record ${record.index}`, input);
  if (!record.counts || shown === undefined || isStale) return null;
  const without = tried.kind === 'done' ? tried.view : undefined;
  const outcome = outcomeOf(active.design ?? '', record, shown, without, preferences);
  return (
    <>
      {outcome !== undefined && (
        <p>
          {sentence(outcome.words)} {outcome.difference !== undefined && <b>Difference {outcome.difference}.</b>}
        </p>
      )}
      {without === undefined ? (
        <p className={styles.soft}>{input === undefined ? '' : triedWords(tried)}</p>
      ) : (
        <Changes without={without} withIt={shown} />
      )}
    </>
  );
}
