import { type ReactNode, useEffect, useState } from 'react';
import { Button, NoticeList, passFocusOn, sentence, useAppState, useComputeState, useServices } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { percentText } from '../shell/words.js';
import styles from './day.module.css';

/** Which sweeps were asked for; they stay asked until the place is left. */
type SweepChannel = 'dateHour' | 'dateLatitude';

/** Asks for a sweep on demand, shows how far it is, ends it, and asks again. */
export function SweepStatus({
  channel,
  question,
}: {
  readonly channel: SweepChannel;
  readonly question: string;
}): ReactNode {
  const { compute } = useServices();
  const sky = useAppState((state) => state.ui.sky);
  const { status, view, stale } = useComputeState(({ channels }) => channels[channel]);
  const [isAsked, setIsAsked] = useState(false);
  useEffect(() => {
    if (isAsked) compute.want({ [channel]: { sky } });
  }, [compute, channel, sky, isAsked]);
  // Edits elsewhere need not wait for what nobody looks at.
  useEffect(() => () => compute.want({ [channel]: null }), [compute, channel]);
  const skyName = useVerdict()?.skies[sky]?.name;
  const isOther = stale || (view !== undefined && skyName !== undefined && view.sky !== skyName);
  const isBusy = status.kind === 'running' || status.kind === 'waiting';
  const ask = () => {
    if (isAsked) compute.again(channel);
    else setIsAsked(true);
  };
  return (
    <div className={styles.sweep}>
      {isBusy && (
        <>
          <progress
            max={1}
            {...(status.kind === 'running' && status.share !== undefined ? { value: status.share } : {})}
            aria-label={question}
          />
          <span>{status.kind === 'running' ? percentText(status.share ?? 0) : 'waits for the verdict'}</span>
          <Button kind="quiet" ref={passFocusOn} onPress={() => compute.cancel(channel)}>
            Stop
          </Button>
        </>
      )}
      {!isBusy && (view === undefined || isOther || status.kind === 'cancelled') && (
        <Button onPress={ask}>{view === undefined ? question : `${question} again`}</Button>
      )}
      {!isBusy && view !== undefined && isOther && (
        <span>What is shown belongs to an earlier state or another sky.</span>
      )}
      {status.kind === 'refused' && (
        <NoticeList
          label={question}
          items={[{ severity: 'problem', text: status.refusal.reason, remedy: status.refusal.remedy }]}
        />
      )}
      {status.kind === 'failed' && <p>This could not be computed: {sentence(status.reason)}</p>}
    </div>
  );
}
