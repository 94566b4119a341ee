import type { ReactNode } from 'react';
import { localNumbers } from '../../core/decimal.js';
import type { LeverView } from '../../core/view.js';
import { Button } from '../kit/button.js';
import { passFocusOn } from '../kit/hooks.js';
import { NoticeList, sentence } from '../kit/notices.js';
import { useAppState, useComputeState, useServices } from '../kit/services.js';
import { Disclosure, Panel } from '../kit/surfaces.js';
import { EditList } from './edit-list.js';
import { useVerdict } from './hour.js';
import { useOpen } from './open-state.js';
import styles from './shell.module.css';
import { useOpened } from './use-opened.js';
import { incomeOverNeedHint, payoffText, percentText, skyTitle } from './words.js';

/** Levers shown before 'the others'. */
const first = 5;

/** What would help most, with what keeps the aircraft flyable already in it; beside it what would make the answer surer. */
export default function Levers(): ReactNode {
  const { compute } = useServices();
  const opened = useOpened();
  const { status, view, stale } = useComputeState(({ channels }) => channels.levers);
  const close = (
    <Button kind="quiet" icon="close" onPress={() => useOpen.setState({ levers: false })}>
      Close
    </Button>
  );
  const can = view?.levers.filter(({ payoff, problem }) => payoff !== undefined && problem === undefined) ?? [];
  const cannot = view?.levers.filter(({ problem }) => problem !== undefined) ?? [];
  const best = can[0];
  const finding =
    view === undefined || stale
      ? 'Each change is tried with balance, strings and mass restored.'
      : best?.payoff === undefined || best.payoff.solarRatio <= 0
        ? `Under ${skyTitle({ name: view.sky })} no single change helps.`
        : `Under ${skyTitle({ name: view.sky })}: ${sentence(best.label)}`;
  return (
    <div ref={opened} tabIndex={-1} className={styles.levers}>
      <Panel title="What would help most" finding={finding} actions={close}>
        <p className={styles.soft}>{incomeOverNeedHint}</p>
        {status.kind === 'running' && (
          <Share share={status.share ?? 0} words="changes tried" onStop={() => compute.cancel('levers')} />
        )}
        {status.kind === 'cancelled' && <Button onPress={() => compute.again('levers')}>Look again</Button>}
        {status.kind === 'refused' && (
          <NoticeList
            label="Levers"
            items={[{ severity: 'problem', text: status.refusal.reason, remedy: status.refusal.remedy }]}
          />
        )}
        {status.kind === 'failed' && <p>This could not be computed: {sentence(status.reason)}</p>}
        <ol className={stale ? `${styles.leverList} ${styles.old}` : styles.leverList}>
          {can.slice(0, first).map((lever) => (
            <Lever key={lever.key} lever={lever} stale={stale} />
          ))}
        </ol>
        {can.length > first && (
          <Disclosure title={`${can.length - first} others`}>
            <ol className={styles.leverList} start={first + 1}>
              {can.slice(first).map((lever) => (
                <Lever key={lever.key} lever={lever} stale={stale} />
              ))}
            </ol>
          </Disclosure>
        )}
        {cannot.length > 0 && (
          <Disclosure title={`${cannot.length} that cannot be had`}>
            <ul>
              {cannot.map(({ key, label, problem }) => (
                <li key={key}>
                  {label}: {problem?.reason}. {sentence(problem?.remedy ?? '')}
                </li>
              ))}
            </ul>
          </Disclosure>
        )}
      </Panel>
      <Measurements />
    </div>
  );
}

function Lever({ lever, stale }: { readonly lever: LeverView; readonly stale: boolean }): ReactNode {
  const { app, announce } = useServices();
  const path = useAppState((state) => state.work.projects[state.work.current]?.design);
  const { label, edits, text, payoff } = lever;
  const apply = () => {
    if (path === undefined || text === undefined) return;
    const result = app.run({ kind: 'set text', path, text, label }, 'new step');
    announce(result.ok ? `${label}: done. Undo takes it back.` : result.reason);
  };
  return (
    <li className={styles.lever}>
      <div>
        <p className={styles.leverName}>{localNumbers(sentence(label))}</p>
        <p>{payoff === undefined ? '' : sentence(payoffText(payoff))}</p>
        <EditList edits={edits} />
      </div>
      {text !== undefined && (
        <Button
          disabled={stale}
          hint={stale ? 'The file has changed since: new levers are being looked for' : ''}
          label={`Apply: ${label}`}
          onPress={apply}
        >
          Apply
        </Button>
      )}
    </li>
  );
}

/** The three cheapest measurements that would make the verdict surer. */
function Measurements(): ReactNode {
  const view = useVerdict();
  const found = (view?.measurements ?? []).slice(0, 3);
  return (
    <Panel
      title="What would make it surer"
      finding={
        found.length > 0
          ? 'Measure what matters most for the least time.'
          : (view?.samples ?? 0) > 0
            ? 'No measurement would make it much surer.'
            : 'Being computed with the uncertainty.'
      }
    >
      <ol className={styles.leverList}>
        {found.map(({ what, minutes, share }) => (
          <li key={what} className={styles.lever}>
            <div>
              <p className={styles.leverName}>{sentence(what)}</p>
              <p>
                About {Math.round(minutes)} min; takes away {percentText(share)} of the doubt.
              </p>
            </div>
          </li>
        ))}
      </ol>
    </Panel>
  );
}

const Share = (props: { readonly share: number; readonly words: string; readonly onStop: () => void }): ReactNode => (
  <div className={styles.share}>
    <progress max={1} value={props.share} aria-label={props.words} />
    <span>
      {percentText(props.share)} of {props.words}
    </span>
    <Button kind="quiet" ref={passFocusOn} onPress={props.onStop}>
      Stop
    </Button>
  </div>
);
