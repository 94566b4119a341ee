import { type ReactNode, useEffect } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import { Button, Panel, useAppState, useComputeState, useServices } from '../../kit/index.js';
import { useSky } from '../../shell/hour.js';
import styles from '../design.module.css';
import { Pending } from '../pending.js';
import { Ranking } from './ranking.js';
import array from './ranking.module.css';
import { layoutsWords, rankedRows } from './ranking-data.js';

/** A search of some seconds is not begun again by every edit: its wish is taken back once it is answered. */
function useLayouts() {
  const { compute } = useServices();
  const state = useComputeState(({ channels }) => channels.layouts);
  const isDone = state.status.kind === 'idle' && state.view !== undefined && !state.stale;
  useEffect(() => {
    if (isDone) compute.want({ layouts: null });
  }, [compute, isDone]);
  useEffect(() => () => compute.want({ layouts: null }), [compute]);
  return state;
}

/** Looks for layouts of the cells and for their strings, and puts one into the design. */
export default function LayoutsPanel(): ReactNode {
  const { compute } = useServices();
  const { view, stale, status } = useLayouts();
  const { index: sky } = useSky();
  const said = useAppState((state) => state.preferences);
  const isBusy = status.kind === 'running' || status.kind === 'waiting';
  const begin = () => {
    compute.want({ layouts: null });
    compute.want({ layouts: { sky } });
  };
  return (
    <Panel
      level={3}
      title="Which layout gives most over this day?"
      finding={
        view === undefined
          ? 'Rows laid anew on wing and tail, and the same cells in other strings, can be tried over this day.'
          : localNumbers(`${stale ? 'Before the last change: ' : ''}${layoutsWords(view)}`)
      }
    >
      <p className={styles.soft}>
        Each fits its surface, keeps its strings within converter and battery, and has its balance put right again.
        Volts are those of hot cells at noon.
      </p>
      <Pending channel="layouts" what="Layouts" />
      <div className={array.begin}>
        <Button
          kind="main"
          disabled={isBusy}
          hint={isBusy ? 'They are being looked for' : 'Some ten seconds'}
          onPress={begin}
        >
          {view === undefined ? 'Look for layouts' : 'Look again'}
        </Button>
      </div>
      {view !== undefined && (
        <Ranking
          caption="Layouts of the array, most energy of the day first"
          head="Layout"
          rows={rankedRows(view.base, view.layouts, said)}
          cannot={view.layouts.filter(({ problem }) => problem !== undefined)}
          cannotTitle="that do not fit"
          take="Take this layout"
          stale={stale}
        />
      )}
    </Panel>
  );
}
