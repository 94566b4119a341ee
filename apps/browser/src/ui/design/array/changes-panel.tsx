import { type ReactNode, useMemo } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import { Panel, useAppState, useComputeState } from '../../kit/index.js';
import { incomeOverNeedHint } from '../../shell/words.js';
import styles from '../design.module.css';
import { Pending } from '../pending.js';
import { useDesignReading } from '../use-design.js';
import { Ranking } from './ranking.js';
import { arrayChanges, changesWords, rankedRows } from './ranking-data.js';

/** What to change about cells, strings, diodes, converters and fins, by the energy of the day, with its price. */
export function ChangesPanel(): ReactNode {
  const { view, stale } = useComputeState(({ channels }) => channels.levers);
  const said = useAppState((state) => state.preferences);
  const { aircraft } = useDesignReading();
  const found = useMemo(() => {
    const fins = (aircraft?.surfaces ?? []).flatMap(({ name, role }) => (role === 'fin' ? [name] : []));
    return view === undefined ? undefined : arrayChanges(view, fins);
  }, [view, aircraft]);
  return (
    <Panel
      level={3}
      title="What to change about the array?"
      {...(view === undefined || found === undefined ? {} : { finding: localNumbers(changesWords(view, found.can)) })}
    >
      <p className={styles.soft}>
        Cells, strings, diodes, converters and fins, each change alone, with mass, strings and balance put right again.{' '}
        {incomeOverNeedHint}
      </p>
      <Pending channel="levers" what="Changes of the array" />
      {view !== undefined && found !== undefined && (
        <Ranking
          caption="Changes of the array, most energy of the day first"
          head="Change"
          rows={rankedRows(view.base, found.can, said)}
          cannot={found.cannot}
          cannotTitle="that cannot be had"
          take="Apply"
          stale={stale}
        />
      )}
    </Panel>
  );
}
