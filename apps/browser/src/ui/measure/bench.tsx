import { type ReactNode, useState } from 'react';
import type { Active } from '../../core/state.js';
import type { BenchView } from '../../core/view-bench.js';
import { Button, Disclosure, FileButton, sentence } from '../kit/index.js';
import { chanceWords } from './chance-words.js';
import styles from './measure.module.css';
import { useBench, useTrialInput } from './tried.js';

/** First line about the causes. */
export function benchFinding({ causes, isBlamed }: BenchView): string {
  const first = causes[0];
  if (first === undefined) return 'Nothing can be said.';
  if (first.name === 'healthy') return 'Nothing points to a fault.';
  return `${isBlamed ? 'Most likely' : 'Not clear yet, first suspicion'}: ${first.words}.`;
}

const traceWords = 'Current-voltage trace taken with it (CSV, optional)';

interface BenchProps {
  /** Text of the design with the reading as its last record; undefined while it is not complete. */
  readonly trial: string | undefined;
  readonly active: Active;
}

/** Likely causes of what was read, each with the measurement that tells it from the others; takes a trace too. */
export function BenchFindings({ trial, active }: BenchProps): ReactNode {
  const [trace, setTrace] = useState<{ readonly name: string; readonly text: string }>();
  const [refused, setRefused] = useState('');
  const input = useTrialInput(trial, active);
  const found = useBench(input, trace?.text ?? '');
  return (
    <>
      <div className={styles.row}>
        <FileButton
          what={traceWords}
          accept=".csv,.txt,.tsv,text/*"
          onText={(name, text) => {
            setRefused('');
            setTrace({ name, text });
          }}
          onTooLong={(name) => setRefused(`${name} is too large for a trace.`)}
        >
          Choose a trace
        </FileButton>
        <span>{trace === undefined ? traceWords : `${trace.name} is read with it.`}</span>
        {trace !== undefined && (
          <Button kind="quiet" onPress={() => setTrace(undefined)}>
            Without the trace
          </Button>
        )}
      </div>
      {refused !== '' && <p role="alert">{refused}</p>}
      {trial === undefined ? null : (
        <div role="status" className={styles.expected}>
          {found === undefined ? (
            <p className={styles.soft}>Causes are being weighed …</p>
          ) : 'kind' in found ? (
            <p>
              {sentence(found.reason)} {sentence(found.remedy)}
            </p>
          ) : (
            <Causes view={found} />
          )}
        </div>
      )}
    </>
  );
}

function Causes({ view }: { readonly view: BenchView }): ReactNode {
  const { causes, next, budget, trace, readings } = view;
  const first = next[0];
  return (
    <>
      <p>
        <b>{benchFinding(view)}</b> {readings > 1 && `${readings} readings of these hours taken together.`}
      </p>
      {trace?.map((line) => (
        <p key={line}>{sentence(line)}</p>
      ))}
      {first !== undefined && (
        <p>
          Measure next: {first.what} ({first.minutes} min).
        </p>
      )}
      <Disclosure title="All likely causes">
        <ol className={styles.next}>
          {causes.map(({ name, words, probability, next: told }) => (
            <li key={name}>
              {sentence(`${chanceWords(probability)}: ${words}`)}
              {told !== undefined && ` What tells it apart: ${told.what} (${told.minutes} min).`}
            </li>
          ))}
        </ol>
        <p className={styles.soft}>
          The uncertainty comes from{' '}
          {budget
            .filter(({ share }) => share > 0.005)
            .slice(0, 4)
            .map(({ what, share }) => `${what} ${(100 * share).toFixed(1)} %`)
            .join('; ')}
          .
        </p>
      </Disclosure>
    </>
  );
}
