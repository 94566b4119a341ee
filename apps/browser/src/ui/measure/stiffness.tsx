import type { ReactNode } from 'react';
import { localNumbers } from '../../core/decimal.js';
import type { Active } from '../../core/state.js';
import type { StiffnessReadingView } from '../../core/view-limits-types.js';
import { sentence, useAppState, useComputeState } from '../kit/index.js';
import type { StiffnessWhat } from './kinds.js';
import styles from './measure.module.css';
import type { FileRecord } from './record.js';
import { limitChangeWords, readingsOf, readingWords } from './stiffness-words.js';
import { useLimitsOf, useTrialInput } from './tried.js';

const Readings = ({ readings }: { readonly readings: readonly StiffnessReadingView[] }): ReactNode =>
  readings.map((reading) => (
    <p key={reading.of}>
      <b>{localNumbers(sentence(`${readingWords(reading)}.`))}</b>
    </p>
  ));

/** What the model expects of a reading of stiffness and what it leaves of the limit speed, before it is kept. */
export function StiffnessExpected(props: {
  readonly what: StiffnessWhat;
  readonly trial: string | undefined;
  readonly active: Active;
}): ReactNode {
  const { what, trial, active } = props;
  const said = useAppState((state) => state.preferences);
  const now = useComputeState(({ channels }) => (channels.limits.stale ? undefined : channels.limits.view));
  const found = useLimitsOf(useTrialInput(trial, active));
  if (trial === undefined)
    return <p className={styles.soft}>As soon as the readings are there, what the model expects stands here.</p>;
  if (found === undefined) return <p className={styles.soft}>The model is being asked …</p>;
  if ('kind' in found)
    return (
      <p>
        {sentence(found.reason)} {sentence(found.remedy)}
      </p>
    );
  const readings = readingsOf(found, what);
  // Of strips the new one is the last.
  const shown = what === 'strip bend' ? readings.slice(-1) : readings;
  return (
    <div role="status" className={styles.expected}>
      {shown.length === 0 ? <p>The model has nothing to compare this with.</p> : <Readings readings={shown} />}
      <p>{localNumbers(limitChangeWords(now, found, said))}</p>
    </div>
  );
}

/** What a kept reading of stiffness says. */
export function StiffnessOutcome({ record }: { readonly record: FileRecord }): ReactNode {
  const { view, stale } = useComputeState(({ channels }) => channels.limits);
  if (!record.counts) return null;
  if (view === undefined || stale) return <p className={styles.soft}>The model is being asked …</p>;
  const what = record.what as StiffnessWhat;
  const readings = readingsOf(view, what, what === 'strip bend' ? record.values.material : undefined);
  return readings.length === 0 ? <p>The model has nothing to compare this with.</p> : <Readings readings={readings} />;
}
