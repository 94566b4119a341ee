import {
  chargeCourse,
  type DrawOptions,
  ledgerChain,
  theDay,
  uncertaintyShares,
  whereAndWhen,
} from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import type { SweepView, VerdictView } from '../../core/view.js';
import { Button, Figure, Panel, sentence, Table, useComputeState, useServices } from '../kit/index.js';
import { clockText } from '../shell/clock.js';
import { dayData } from '../shell/day-data.js';
import { useHour, useHourCursor, useSky, useVerdict } from '../shell/hour.js';
import { atBest, carriedText, lowestChargeText, percentText, skyTitle, wattsText } from '../shell/words.js';
import { chargeData, ledgerData, sharesData, whereWhenData } from './chart-data.js';
import styles from './day.module.css';
import { SweepStatus } from './sweep-status.js';
import { dayOfYear } from './year-strip.js';

const NoDay = ({ view }: { readonly view: VerdictView | undefined }): ReactNode => (
  <p>{view === undefined ? 'The day is being computed …' : 'There is no day to draw: the findings say why.'}</p>
);

/** The day in charts, one for each question. */
export function DayCharts(): ReactNode {
  const view = useVerdict();
  if (view === undefined || view.skies.length === 0) return <NoDay view={view} />;
  return (
    <>
      <Ledger />
      <TheDay view={view} />
      <Charge view={view} />
      <Unsure view={view} />
    </>
  );
}

/** Other dates, hours and latitudes. */
export function YearCharts(): ReactNode {
  const view = useVerdict();
  if (view === undefined || view.skies.length === 0) return <NoDay view={view} />;
  return (
    <div className={styles.charts}>
      <OverHours view={view} />
      <OverLatitude view={view} />
    </div>
  );
}

interface OfView {
  readonly view: VerdictView;
}

/** Draws again only when the verdict is another. */
function useDrawing<T>(data: T, draw: (data: T, options: DrawOptions) => ReturnType<typeof theDay>) {
  return useCallback((options: DrawOptions) => draw(data, options), [data, draw]);
}

function TheDay({ view }: OfView): ReactNode {
  const { sky } = useSky();
  const cursor = useHourCursor();
  const data = useMemo(() => dayData(view), [view]);
  const draw = useDrawing(data, theDay);
  if (sky === undefined) return null;
  const { income, need } = atBest(sky, view);
  return (
    <Panel
      level={3}
      title="When does sunlight carry it?"
      finding={`${sentence(`${skyTitle(sky)}: ${carriedText(sky)}`)} At best, ${clockText(sky.bestRatioAt)}, ${wattsText(income)} come in and ${wattsText(need)} are needed.`}
    >
      <Figure id="the-day" draw={draw} words={false} cursor={cursor} />
    </Panel>
  );
}

function Charge({ view }: OfView): ReactNode {
  const { sky } = useSky();
  const cursor = useHourCursor();
  const data = useMemo(() => chargeData(view), [view]);
  const draw = useDrawing(data, chargeCourse);
  if (sky === undefined) return null;
  return (
    <Panel
      level={3}
      title="Does the charge last?"
      finding={
        view.hasBattery ? sentence(`${skyTitle(sky)}: lowest charge ${lowestChargeText(sky)}`) : 'There is no battery.'
      }
    >
      {view.hasBattery && <Figure id="charge" draw={draw} words={false} cursor={cursor} />}
    </Panel>
  );
}

/** Where the light of the chosen hour goes, under the chosen sky. */
function Ledger(): ReactNode {
  const hour = useHour();
  const found = useComputeState(({ channels }) => channels.hour.view?.ledger);
  const status = useComputeState(({ channels }) => channels.hour.status);
  const data = useMemo(() => (found === undefined ? undefined : ledgerData(found)), [found]);
  const draw = useCallback(
    (options: DrawOptions) =>
      ledgerChain(data ?? { when: '', power: { label: 'power', unit: 'W' }, rows: [] }, options),
    [data],
  );
  const clock = hour === undefined ? '' : ` at ${clockText(hour)}`;
  return (
    <Panel
      level={3}
      title={`Where does the light go${clock}?`}
      finding={
        found === undefined
          ? status.kind === 'running'
            ? 'Being computed …'
            : 'There is no ledger for this hour: no light on the cells, or it cannot fly.'
          : `Of ${wattsText(found.light)} that reach the cells, ${wattsText(found.income)} come in (${percentText(found.light > 0 ? found.income / found.light : 0)}); ${wattsText(found.need)} are needed. Rows add up.`
      }
    >
      {data !== undefined && <Figure id="ledger" draw={draw} words={false} />}
      <p className={styles.about}>It follows the hour of the band above, and the sky chosen there.</p>
    </Panel>
  );
}

/** The solar ratio over the year, by hour, here. */
function OverHours({ view }: OfView): ReactNode {
  const { view: sweep, stale } = useComputeState(({ channels }) => channels.dateHour);
  const hour = useHour() ?? 12;
  return (
    <Panel level={3} title="On which dates and hours is it carried here?">
      <SweepStatus channel="dateHour" question="Look through the year" />
      {sweep !== undefined && (
        <SweepFigure
          id="date-hour"
          sweep={sweep}
          isOld={stale}
          here={{ day: dayOfYear(view.plan.date), across: hour % 24, label: 'the plan' }}
        />
      )}
    </Panel>
  );
}

/** The solar ratio over the year, by latitude, averaged over daylight. */
function OverLatitude({ view }: OfView): ReactNode {
  const { view: sweep, stale } = useComputeState(({ channels }) => channels.dateLatitude);
  return (
    <Panel level={3} title="At which latitudes is it carried?">
      <SweepStatus channel="dateLatitude" question="Look over all latitudes" />
      {sweep !== undefined && (
        <SweepFigure
          id="date-latitude"
          sweep={sweep}
          isOld={stale}
          here={{ day: dayOfYear(view.plan.date), across: (view.plan.latitude * 180) / Math.PI, label: 'the plan' }}
        />
      )}
    </Panel>
  );
}

function SweepFigure(props: {
  readonly id: string;
  readonly sweep: SweepView;
  readonly isOld: boolean;
  readonly here: { readonly day: number; readonly across: number; readonly label: string };
}): ReactNode {
  const { id, sweep, isOld, here } = props;
  const { day, across, label } = here;
  const data = useMemo(() => whereWhenData(sweep, { day, across, label }), [sweep, day, across, label]);
  const draw = useDrawing(data, whereAndWhen);
  return (
    <div className={isOld ? styles.old : undefined}>
      <Figure id={id} draw={draw} />
    </div>
  );
}

/** What the spread of the answer comes from, and what would take most of it away for the least time. */
function Unsure({ view }: OfView): ReactNode {
  const { app } = useServices();
  const data = useMemo(() => sharesData(view, 0), [view]);
  const draw = useDrawing(data, uncertaintyShares);
  const first = view.contributions[0];
  const cheapest = view.measurements.slice(0, 3);
  return (
    <Panel
      level={3}
      title="What makes the verdict unsure?"
      finding={
        first === undefined
          ? 'Being computed with the uncertainty.'
          : sentence(`${percentText(first.share)} of the doubt comes from ${first.label}`)
      }
    >
      {first !== undefined && <Figure id="unsure" draw={draw} words={false} />}
      {cheapest.length > 0 && (
        <>
          <Table
            caption="The cheapest measurements that would make it surer"
            columns={[
              { key: 'what', label: 'measure' },
              { key: 'minutes', label: 'takes', unit: 'min', numeric: true },
              { key: 'share', label: 'takes away of the doubt', numeric: true },
            ]}
            rows={cheapest.map(({ what, minutes, share }) => ({
              what: sentence(what).slice(0, -1),
              minutes: Math.round(minutes),
              share: percentText(share),
            }))}
          />
          <Button onPress={() => app.setUi({ place: 'measure' })}>To the measurements</Button>
        </>
      )}
    </Panel>
  );
}
