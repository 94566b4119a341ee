import { assumedCount } from '@noonwing/design';
import { type DrawOptions, firstFlightPage, type PageFigure } from '@noonwing/drawing';
import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import { createPortal } from 'react-dom';
import { type FirstFlightData, firstFlightData } from '../../core/first-flight.js';
import type { VerdictView } from '../../core/view.js';
import {
  Button,
  Disclosure,
  Figure,
  NoticeList,
  Panel,
  sentence,
  useAppState,
  useComputeState,
  useServices,
} from '../kit/index.js';
import { useSky, useVerdict } from '../shell/hour.js';
import { skyTitle } from '../shell/words.js';
import styles from './fly.module.css';
import {
  assumedLine,
  balanceWords,
  cautions,
  enduranceFigure,
  pageData,
  speedFigures,
  sunFigures,
  throttleFigure,
  windFigure,
} from './page-data.js';

/** The first flight: limits in words, and one page of paper for the field. */
export default function Fly(): ReactNode {
  const { compute } = useServices();
  const view = useVerdict();
  const power = useComputeState(({ channels }) => channels.power);
  useEffect(() => {
    compute.want({ power: { bank: 0 } });
    return () => compute.want({ power: null });
  }, [compute]);
  const straight =
    power.view !== undefined && !power.stale && Math.abs(power.view.bank) < 1e-6 ? power.view : undefined;
  const { limits, whyUnknown } = useLimitsHere();
  const data = useMemo(
    () => (view === undefined ? undefined : firstFlightData(view, straight, limits, whyUnknown)),
    [view, straight, limits, whyUnknown],
  );
  if (view === undefined || data === undefined) return <p>The limits are being computed …</p>;
  return (
    <div className={styles.fly}>
      <Against view={view} data={data} />
      <Limits view={view} data={data} />
      <Page view={view} data={data} />
    </div>
  );
}

/** The limit speed of what is shown, or why there is none to print. */
function useLimitsHere() {
  const { view, status, stale } = useComputeState(({ channels }) => channels.limits);
  const whyUnknown = status.kind === 'refused' ? status.refusal.reason : 'not computed yet';
  return { limits: stale ? undefined : view, whyUnknown };
}

interface Of {
  readonly view: VerdictView;
  readonly data: FirstFlightData;
}

/** What stands against flying it, before any figure. */
function Against({ view, data }: Of): ReactNode {
  const problems = view.findings.filter(({ severity }) => severity === 'problem');
  const others = data.against.filter((text) => !problems.some((one) => one.text === text));
  const finding =
    data.against.length === 0
      ? 'Nothing that is known here stands against it; the limits below are computed, not tried.'
      : 'Not yet: some things come before it.';
  return (
    <Panel title="Before the first flight" finding={finding}>
      <NoticeList
        label="What stands against it"
        items={[...problems, ...others.map((text) => ({ severity: 'warning' as const, text }))]}
      />
      <ul className={styles.cautions} aria-label="Cautions">
        {cautions.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </Panel>
  );
}

/** The same figures as on the page, for small screens and screen readers. */
function Limits({ view, data }: Of): ReactNode {
  const units = useAppState((state) => state.preferences);
  const { index } = useSky();
  const endurance = enduranceFigure(view, index);
  const throttle = throttleFigure(data, units);
  const both = [throttle, windFigure(data, units), endurance].filter((figure) => figure !== undefined);
  return (
    <Panel title="Within which limits" finding={balanceWords(data, units)}>
      <div className={styles.groups}>
        <Figures name="Airspeeds" figures={speedFigures(data, units)} />
        <Figures name="Throttle, wind, endurance" figures={both} />
        <Figures name="Sun" figures={sunFigures(data)} />
      </div>
      <Disclosure title={assumedCount(view.assumptions)}>
        <ul>
          {data.onlyAssumed.map((one) => (
            <li key={`${one.file} ${one.path} ${one.what}`}>
              {assumedLine(one)} ({one.why})
            </li>
          ))}
        </ul>
      </Disclosure>
    </Panel>
  );
}

const Figures = ({ name, figures }: { readonly name: string; readonly figures: readonly PageFigure[] }): ReactNode =>
  figures.length === 0 ? null : (
    <section aria-label={name}>
      <h3>{name}</h3>
      <dl className={styles.figures}>
        {figures.map(({ label, value, note }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>
              <b>{value}</b>
              {note !== undefined && note !== '' && <span>{note}</span>}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );

const two = (value: number): string => String(value).padStart(2, '0');

const printedAt = (now: Date): string =>
  `noonwing, made ${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())} ${two(now.getHours())}:${two(now.getMinutes())}; computed from the design file and day plan, nothing here was flown`;

/** One sheet of A4, as picture and for the printer. */
function Page({ view, data }: Of): ReactNode {
  const units = useAppState((state) => state.preferences);
  const { sky, index } = useSky();
  const [now, setNow] = useState(() => new Date());
  useEffect(() => {
    const onPrint = () => setNow(new Date());
    window.addEventListener('beforeprint', onPrint);
    return () => window.removeEventListener('beforeprint', onPrint);
  }, []);
  const page = useMemo(() => pageData(view, data, index, units, printedAt(now)), [view, data, index, units, now]);
  const draw = useCallback((options: DrawOptions) => firstFlightPage(page, options), [page]);
  return (
    <Panel
      title="The page for the field"
      finding={`One sheet of A4, endurance for ${skyTitle(sky ?? { name: 'clear' })}. ${sentence('the browser prints it, or keeps it as PDF')}`}
      actions={
        <Button kind="main" onPress={() => window.print()}>
          Print
        </Button>
      }
    >
      <div className={styles.preview}>
        <Figure id="first-flight" draw={draw} words={false} />
      </div>
      <Sheet draw={draw} />
    </Panel>
  );
}

/** The sheet that alone is printed; it hangs beside the page, so that nothing of the page moves it. */
function Sheet({ draw }: { readonly draw: (options: DrawOptions) => { readonly svg: string } }): ReactNode {
  const drawing = useMemo(() => draw({ id: 'sheet', standalone: true, theme: 'sunlight', heading: false }), [draw]);
  return createPortal(
    <div
      className={styles.sheet}
      aria-hidden="true"
      // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG, in which every word from data is escaped
      dangerouslySetInnerHTML={{ __html: drawing.svg }}
    />,
    document.body,
  );
}
