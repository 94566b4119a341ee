import { lazy, type ReactNode, Suspense, useEffect, useRef } from 'react';
import type { ChannelState, ChannelStatus } from '../../core/compute.js';
import { localNumbers } from '../../core/decimal.js';
import { placeOfField } from '../../core/field-place.js';
import { speedWords } from '../../core/said.js';
import type { Finding, SkyView, VerdictView } from '../../core/view.js';
import { confidenceText } from '../../core/words.js';
import { Button } from '../kit/button.js';
import { passFocusOn } from '../kit/hooks.js';
import { NoticeList, sentence } from '../kit/notices.js';
import { useAppState, useComputeState, useServices } from '../kit/services.js';
import { Disclosure } from '../kit/surfaces.js';
import { useVerdict } from './hour.js';
import { openDialog, useOpen } from './open-state.js';
import styles from './shell.module.css';
import {
  carriedText,
  edgesText,
  incomeOverNeedHint,
  limitSpeedText,
  limitText,
  payoffText,
  percentText,
  skyTitle,
  summaryText,
} from './words.js';

const InFull = lazy(() => import('./in-full.js'));
const SectionsSaid = lazy(() => import('./sections-said.js'));

/** The answer, always in sight: what cannot be first, then each sky in words, how sure, and the first reason. */
export function Verdict(): ReactNode {
  const view = useVerdict();
  const polars = useComputeState(({ channels }) => polarsState(channels.verdict, channels.polars));
  return (
    <section
      id="verdict"
      tabIndex={-1}
      className={styles.verdict}
      aria-labelledby="verdict-heading"
      data-polars={polars}
    >
      <div className={styles.verdictHead}>
        <h2 id="verdict-heading">{view === undefined ? 'The verdict' : view.aircraft}</h2>
        <ComputeStatus />
      </div>
      <Refusal />
      {view !== undefined && <Answer view={view} />}
      <Said view={view} />
    </section>
  );
}

/** Whether it is known which polars there are, and the verdict is one by them. */
const polarsState = (verdict: ChannelState<'verdict'>, { status }: ChannelState<'polars'>): 'known' | 'looked for' =>
  verdict.stale || [verdict.status.kind, status.kind].some((kind) => kind === 'running' || kind === 'waiting')
    ? 'looked for'
    : 'known';

/** Reads the answer out when it has changed and come to rest. */
function Said({ view }: { readonly view: VerdictView | undefined }): ReactNode {
  const { announce } = useServices();
  const before = useRef('');
  useEffect(() => {
    if (view === undefined) return;
    const timer = setTimeout(() => {
      const text = summaryText(view);
      if (text !== before.current) announce(text);
      before.current = text;
    }, 1200);
    return () => clearTimeout(timer);
  }, [view, announce]);
  return null;
}

function Answer({ view }: { readonly view: VerdictView }): ReactNode {
  const stale = useComputeState(({ channels }) => channels.verdict.stale && channels.verdict.status.kind !== 'running');
  const sky = useAppState((state) => state.ui.sky);
  const problems = view.findings.filter(({ severity }) => severity === 'problem');
  const shown = view.skies[sky] ?? view.skies[0];
  return (
    <div className={stale ? styles.old : undefined}>
      {!view.canFly && <p className={styles.cannot}>It cannot fly as described.</p>}
      <NoticeList label="Problems" items={problems} />
      {!view.canFly && view.skies.length > 0 && (
        <p className={styles.soft}>Once that is cured, sunlight alone would carry it:</p>
      )}
      <ul className={styles.answers}>
        {view.skies.map((one, i) => (
          <SkyAnswer key={one.name} sky={one} samples={view.samples} index={i} isShown={one === shown} />
        ))}
      </ul>
      {shown !== undefined && (
        <p className={styles.reason}>
          <b>What limits it, {skyTitle(shown)}:</b> {sentence(limitText(shown, view))}
        </p>
      )}
      <LimitSpeed />
      <FirstLever canFly={view.canFly} />
      <Suspense fallback={null}>
        <SectionsSaid view={view} />
      </Suspense>
      <div className={styles.verdictMore}>
        <Disclosure title="In full">
          <Suspense fallback={null}>{shown !== undefined && <InFull view={view} sky={shown} />}</Suspense>
          <Warnings findings={view.findings} />
          <Sureness view={view} />
          <p>
            <Button kind="quiet" onPress={() => openDialog({ kind: 'cautions' })}>
              Cautions before flying
            </Button>
          </p>
        </Disclosure>
      </div>
    </div>
  );
}

function SkyAnswer(props: {
  readonly sky: SkyView;
  readonly index: number;
  readonly samples: number;
  readonly isShown: boolean;
}): ReactNode {
  const { sky, index, samples, isShown } = props;
  const edges = edgesText(sky);
  const isRefused = useComputeState(({ channels }) => channels.verdict.status.kind === 'refused');
  const unknown = isRefused ? 'of the last files without errors' : 'how sure: being computed';
  const sure = samples === 0 ? unknown : `${confidenceText(sky)}${edges === '' ? '' : `; ${edges}`}`;
  return (
    <li className={styles.answer} data-sky={index} data-shown={isShown || undefined}>
      <span className={styles.skyName}>{skyTitle(sky)}</span>
      <span className={styles.carried}>{carriedText(sky)}</span>
      <span className={styles.sure}>{sure}</span>
    </li>
  );
}

function leverText({ status, view, stale }: ChannelState<'levers'>, canFly: boolean): string {
  if (!canFly) return 'what stands above, before anything else';
  if (status.kind === 'refused' || status.kind === 'failed' || status.kind === 'cancelled') return 'not known';
  if (view === undefined || stale) return 'being looked for';
  const first = view.levers.find(({ payoff }) => payoff !== undefined && payoff.solarRatio > 0);
  return first?.payoff === undefined
    ? 'no single change helps'
    : `${localNumbers(first.label)} (${payoffText(first.payoff)})`;
}

/** How fast it may fly, as soon as it is known. */
function LimitSpeed(): ReactNode {
  const { view, stale } = useComputeState(({ channels }) => channels.limits);
  const said = useAppState((state) => state.preferences);
  if (view === undefined) return null;
  const text = limitSpeedText(view, (speed) => speedWords(speed, said));
  return (
    <p className={stale ? `${styles.reason} ${styles.old}` : styles.reason}>
      <b>Limit speed:</b> {localNumbers(text)}
    </p>
  );
}

/** The change that would help most, as soon as it is known. */
function FirstLever({ canFly }: { readonly canFly: boolean }): ReactNode {
  const levers = useComputeState(({ channels }) => channels.levers);
  const text = leverText(levers, canFly);
  const open = useOpen((state) => state.levers);
  return (
    <div className={styles.firstLever}>
      <p>
        <b>First lever:</b> {sentence(text)}
      </p>
      <Button icon="lever" expanded={open} onPress={() => useOpen.setState({ levers: !open })}>
        What would help most
      </Button>
    </div>
  );
}

const Warnings = ({ findings }: { readonly findings: readonly Finding[] }): ReactNode => (
  <NoticeList label="Warnings" items={findings.filter(({ severity }) => severity === 'warning')} />
);

function Sureness({ view }: { readonly view: VerdictView }): ReactNode {
  if (view.samples === 0) return null;
  const step =
    view.stepError > 0.005 ? ` Its coarser steps change the time carried by ${percentText(view.stepError)}.` : '';
  return (
    <p className={styles.soft}>
      Confidence is in the aircraft under that sky, from {view.samples} samples of all that is uncertain; how likely the
      sky is does not enter. Ranges, and minutes either way, hold the truth about 9 times in 10. {incomeOverNeedHint}
      {step}
    </p>
  );
}

/** Why nothing newer can be shown, with the way out. */
function Refusal(): ReactNode {
  const { app, compute } = useServices();
  const status = useComputeState(({ channels }) => channels.verdict.status);
  const hasDesign = useAppState((state) => state.work.current !== '');
  if (!hasDesign) {
    return (
      <p>
        No aircraft is open. <Button onPress={() => app.setUi({ place: 'choose' })}>Choose one</Button>
      </p>
    );
  }
  if (status.kind === 'failed') {
    return (
      <NoticeList
        label="Computing"
        items={[
          {
            severity: 'error',
            text: `This could not be computed: ${status.reason}`,
            remedy: 'what you wrote is kept; any change tries again',
            actions: [{ label: 'Try again', run: () => compute.again('verdict') }],
          },
        ]}
      />
    );
  }
  if (status.kind !== 'refused') return null;
  const { reason, where, remedy } = status.refusal;
  const [file, path] = where.startsWith('day plan')
    ? (['day', where.replace(/^day plan:? ?/, '')] as const)
    : (['design', where] as const);
  return (
    <NoticeList
      label="What stands in the way"
      items={[
        {
          severity: 'problem',
          text: reason,
          where,
          remedy,
          ...(path === '' || /\s\w+\s/.test(path)
            ? {}
            : {
                actions: [
                  {
                    label: 'Go there',
                    run: () => app.setUi({ place: placeOfField({ file, path }), focus: { file, path } }),
                  },
                ],
              }),
        },
      ]}
    />
  );
}

const busyText = (verdict: ChannelStatus, samples: ChannelStatus): string => {
  if (verdict.kind === 'running') return 'computing';
  if (samples.kind === 'running' || samples.kind === 'waiting')
    return `how sure: ${percentText((samples.kind === 'running' ? samples.share : 0) ?? 0)}`;
  if (samples.kind === 'cancelled') return 'stopped';
  return '';
};

/** Where computing stands, and the way to stop it. */
function ComputeStatus(): ReactNode {
  const { compute } = useServices();
  const verdict = useComputeState(({ channels }) => channels.verdict.status);
  const samples = useComputeState(({ channels }) => channels.samples.status);
  const text = busyText(verdict, samples);
  return (
    <div className={styles.computing} data-state={text === '' ? 'done' : 'busy'}>
      <span>{text}</span>
      {samples.kind === 'running' && (
        <Button kind="quiet" ref={passFocusOn} onPress={() => compute.cancel('samples')}>
          Stop
        </Button>
      )}
      {samples.kind === 'cancelled' && (
        <Button kind="quiet" onPress={() => compute.again('samples')}>
          Go on
        </Button>
      )}
    </div>
  );
}
