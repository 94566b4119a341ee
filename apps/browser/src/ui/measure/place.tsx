import { type ReactNode, useState } from 'react';
import { Button, Panel, sentence, useAppState } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { percentText } from '../shell/words.js';
import { RecordForm } from './form.js';
import { type RecordKind, recordKinds } from './kinds.js';
import { RecordList } from './list.js';
import styles from './measure.module.css';

/** Readings from bench and scales: what to measure next, forms, and what was measured. */
export default function Measure(): ReactNode {
  const has = useAppState((state) => state.work.projects[state.work.current]?.design !== undefined);
  if (!has) return <p>This project has no design file: open an example, or answer the questions under Choose.</p>;
  return (
    <div className={styles.measure}>
      <Next />
      <div className={styles.kinds}>
        {recordKinds.map((kind) => (
          <KindPanel key={kind.what} kind={kind} />
        ))}
      </div>
      <RecordList />
    </div>
  );
}

/** The measurements that take most of the doubt away for the least time. */
function Next(): ReactNode {
  const view = useVerdict();
  const found = (view?.measurements ?? []).slice(0, 3);
  if (found.length === 0) return null;
  return (
    <Panel title="What is worth measuring first" finding={sentence(found[0]!.what)}>
      <ol className={styles.next}>
        {found.map(({ what, minutes, share }) => (
          <li key={what}>
            {sentence(what)} About {Math.round(minutes)} min; takes away {percentText(share)} of the doubt.
          </li>
        ))}
      </ol>
    </Panel>
  );
}

function KindPanel({ kind }: { readonly kind: RecordKind }): ReactNode {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <div className={isOpen ? styles.open : undefined}>
      <Panel title={kind.title} level={3}>
        <p className={styles.say}>{kind.about}</p>
        {isOpen ? (
          <RecordForm kind={kind} onDone={() => setIsOpen(false)} />
        ) : (
          <Button label={`Write down a reading: ${kind.title}`} onPress={() => setIsOpen(true)}>
            Write down a reading
          </Button>
        )}
      </Panel>
    </div>
  );
}
