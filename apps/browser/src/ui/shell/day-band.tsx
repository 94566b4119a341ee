import { cursorStep, dayStage, positionOn, valueOn } from '@noonwing/drawing';
import { formatPlace } from '@noonwing/quantities';
import {
  type CSSProperties,
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
} from 'react';
import { localDrawing } from '../../core/decimal.js';
import type { VerdictView } from '../../core/view.js';
import { Button } from '../kit/button.js';
import { useWidth } from '../kit/hooks.js';
import { sentence } from '../kit/notices.js';
import { useAppState, useServices } from '../kit/services.js';
import { clockText, dateText, directionText, zoneText } from './clock.js';
import { dayData, hourWords } from './day-data.js';
import { useHour, useMoveHour, useVerdict } from './hour.js';
import styles from './shell.module.css';
import { percentText, skyTitle, wattsText } from './words.js';

const keySteps: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 12,
  PageDown: -12,
};

/** The stage of the application: the day from dawn to dusk. Dragging along it, or arrow keys, set the hour of the whole page. */
export function DayBand(): ReactNode {
  const view = useVerdict();
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const band = useRef<HTMLElement>(null);
  useHeightVariable(band);
  return (
    <section id="day" tabIndex={-1} ref={band} className={styles.band} aria-label="The day">
      <DayHead view={view} />
      <div ref={frame} className={styles.stage}>
        {view !== undefined && width > 40 && view.skies.length > 0 ? (
          <Stage view={view} width={width} />
        ) : (
          <p className={styles.stageEmpty}>
            {view === undefined ? 'The day is being computed …' : 'No day to show: the findings below say why.'}
          </p>
        )}
      </div>
    </section>
  );
}

/** Tells the style sheet how high the part of the band is that stays in sight, for what sticks below it. */
function useHeightVariable(element: { readonly current: HTMLElement | null }): void {
  useLayoutEffect(() => {
    const found = element.current;
    if (found === null) return;
    const set = () => {
      // The row with date and skies scrolls away; the day itself stays.
      const head = (found.firstElementChild as HTMLElement | null)?.offsetHeight ?? 0;
      document.documentElement.style.setProperty('--band-head', `${head}px`);
      document.documentElement.style.setProperty('--band', `${found.offsetHeight - head}px`);
    };
    set();
    const observer = new ResizeObserver(set);
    observer.observe(found);
    return () => observer.disconnect();
  }, [element]);
}

function Stage({ view, width }: { readonly view: VerdictView; readonly width: number }): ReactNode {
  const hour = useHour() ?? 12;
  const sky = useAppState((state) => state.ui.sky);
  const { app } = useServices();
  const move = useMoveHour();
  const drawing = useMemo(() => dayStage(dayData(view), { width: Math.max(280, width), id: 'stage' }), [view, width]);
  const axis = drawing.scales.find(({ id }) => id === 'x')!;
  const words = wordsOf(view, sky, hour);
  const isShown = hour >= axis.domain[0] && hour <= axis.domain[1];

  const onPointer = (event: PointerEvent<HTMLDivElement>) => {
    if (event.type === 'pointermove' && event.buttons !== 1) return;
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId);
    const box = event.currentTarget.getBoundingClientRect();
    const at = valueOn(axis, ((event.clientX - box.left) * drawing.size.width) / box.width);
    // Five minutes, as the arrow keys step.
    move(Math.min(axis.domain[1], Math.max(axis.domain[0], Math.round(at * 12) / 12)));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const steps = keySteps[event.key];
    const end = event.key === 'Home' ? axis.domain[0] : event.key === 'End' ? axis.domain[1] : undefined;
    if (steps === undefined && end === undefined) return;
    event.preventDefault();
    // Keys may come faster than pictures: each goes on from the newest hour.
    app.setUi({ hour: end ?? cursorStep(axis, app.store.getState().ui.hour ?? hour, steps!) });
  };
  const foot = drawing.scales.find(({ id }) => id === 'y')!.range[0];
  const place = {
    '--at': `${(100 * positionOn(axis, hour)) / drawing.size.width}%`,
    '--foot': `${foot}px`,
  } as CSSProperties;
  return (
    <>
      <div
        id="day-band"
        role="slider"
        tabIndex={0}
        className={styles.slider}
        aria-label="Hour of the day"
        aria-valuemin={axis.domain[0]}
        aria-valuemax={axis.domain[1]}
        aria-valuenow={hour}
        aria-valuetext={words}
        onPointerDown={onPointer}
        onPointerMove={onPointer}
        onKeyDown={onKeyDown}
      >
        <div
          className={styles.stageDrawing}
          // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG, in which every word from data is escaped
          dangerouslySetInnerHTML={{ __html: localDrawing(drawing.svg) }}
        />
        {isShown && (
          <span className={styles.hourLine} style={place} aria-hidden="true">
            <b>{clockText(hour)}</b>
          </span>
        )}
      </div>
      <p className={styles.hourWords}>{words}</p>
    </>
  );
}

const degrees = (angle: number): number => Math.round((angle * 180) / Math.PI);

/** '11:35: sun 64° high in the S. Clear sky: 28.1 W come in, 11.2 W are needed, 16.9 W left over; battery 80 %.' */
function wordsOf(view: VerdictView, skyIndex: number, hour: number): string {
  const { elevation, azimuth, income, need, charge } = hourWords(view, skyIndex, hour);
  const sun = elevation > 0 ? `sun ${degrees(elevation)}° high in the ${directionText(azimuth)}` : 'the sun is down';
  const sky = view.skies[skyIndex] ?? view.skies[0]!;
  if (income === undefined || need === undefined) return `${clockText(hour)}: ${sun}; outside the hours computed.`;
  const rest = income - need;
  const balance = rest >= 0 ? `${wattsText(rest)} left over` : `${wattsText(-rest)} from the battery`;
  const battery = charge === undefined ? '' : `; battery ${percentText(charge)}`;
  return `${clockText(hour)}: ${sun}. ${sentence(skyTitle(sky)).slice(0, -1)}: ${wattsText(income)} come in, ${wattsText(need)} are needed, ${balance}${battery}.`;
}

/** Place and date with the way to change them, and which sky the page looks at. */
function DayHead({ view }: { readonly view: VerdictView | undefined }): ReactNode {
  const { app } = useServices();
  const chosen = useAppState((state) => state.ui.hour);
  const sky = useAppState((state) => state.ui.sky);
  useEffect(() => {
    if (view !== undefined && view.skies.length > 0 && sky >= view.skies.length) app.setUi({ sky: 0 });
  }, [view, sky, app]);
  const plan = view?.plan;
  return (
    <div className={styles.bandHead}>
      <p className={styles.when}>
        {plan === undefined ? (
          'The day'
        ) : (
          <>
            <b>{dateText(plan.date)}</b>, {plan.placeName ?? formatPlace(plan, 1)}
            <span className={styles.clock}>, clock {zoneText(plan.utcOffset)}</span>
          </>
        )}
      </p>
      {view !== undefined && view.skies.length > 1 && (
        <fieldset className={styles.skies}>
          <legend className="nw-unseen">Sky that the page looks at</legend>
          {view.skies.map(({ name }, i) => (
            <label key={name}>
              <input type="radio" name="sky" checked={i === sky} onChange={() => app.setUi({ sky: i })} />
              <span>{name}</span>
            </label>
          ))}
        </fieldset>
      )}
      {chosen !== undefined && (
        <Button kind="quiet" onPress={() => app.setUi({ hour: undefined })}>
          Best hour
        </Button>
      )}
    </div>
  );
}
