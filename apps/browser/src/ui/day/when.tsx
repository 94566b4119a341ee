import { type KeyboardEvent, type ReactNode, useEffect, useId, useMemo, useRef } from 'react';
import { fixed } from '../../core/decimal.js';
import { Panel, UnitField, useComputeState, useServices } from '../kit/index.js';
import { durationText } from '../shell/clock.js';
import { useVerdict } from '../shell/hour.js';
import { skyTitle } from '../shell/words.js';
import styles from './day.module.css';
import { PlainField } from './plain-field.js';
import { SweepStatus } from './sweep-status.js';
import {
  bestStretch,
  type DateFigure,
  dateFigures,
  dayOfYear,
  daysInMonth,
  figureOn,
  monthFigures,
  movedDate,
} from './year-strip.js';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

interface DateValue {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const two = (value: number): string => String(value).padStart(2, '0');
const dateText = ({ year, month, day }: DateValue): string => `${year}-${two(month)}-${two(day)}`;

const dayWords = (day: number): string => {
  const date = new Date(Date.UTC(2025, 0, day));
  return `${date.getUTCDate()} ${months[date.getUTCMonth()]}`;
};

/** The date, with what the months and days bring once the year was looked through. */
export function When(): ReactNode {
  const { app } = useServices();
  const plan = useVerdict()?.plan;
  const sweep = useComputeState(({ channels }) => channels.dateHour.view);
  const isOld = useComputeState(({ channels }) => channels.dateHour.stale);
  const figures = useMemo(() => (sweep === undefined ? undefined : dateFigures(sweep)), [sweep]);
  const set = (date: DateValue) => app.setValue('date', dateText(date), { file: 'day', capture: 'same step' });
  return (
    <Panel title="When" finding={<Finding figures={figures} sky={sweep?.sky} />}>
      <div className={styles.fields}>
        <PlainField path="date" label="First day" placeholder="2026-06-21" />
        <UnitField file="day" path="days" label="Days on end" />
      </div>
      <SweepStatus channel="dateHour" question="Look through the year" />
      {plan !== undefined && (
        <div className={isOld ? styles.old : undefined}>
          <MonthStrip date={plan.date} figures={figures} onSet={set} />
          <DayStrip date={plan.date} figures={figures} onSet={set} />
        </div>
      )}
    </Panel>
  );
}

function Finding({
  figures,
  sky,
}: {
  readonly figures: ReturnType<typeof dateFigures> | undefined;
  readonly sky: string | undefined;
}): ReactNode {
  if (figures === undefined || sky === undefined) return null;
  const best = bestStretch(figures);
  if (best === undefined) return <>Under {skyTitle({ name: sky })} no date of the year carries it here.</>;
  const most = figures.reduce((a, b) => (b.carried > a.carried ? b : a));
  const days = best.to >= best.from ? best.to - best.from : best.to + 365 - best.from;
  const when = days > 350 ? 'all year alike' : `best ${dayWords(best.from)} to ${dayWords(best.to)}`;
  return (
    <>
      Under {skyTitle({ name: sky })}: {when}, up to {durationText(most.carried)} carried.
    </>
  );
}

interface StripProps {
  readonly date: DateValue;
  readonly figures: ReturnType<typeof dateFigures> | undefined;
  readonly onSet: (date: DateValue) => void;
}

const carriedWords = (figure: DateFigure | undefined): string =>
  figure === undefined
    ? ''
    : figure.carried > 0
      ? `, about ${durationText(figure.carried)} carried`
      : `, not carried, at best ${fixed(figure.best, 2)} of the need`;

/** Moves with the arrow keys inside a row of choices and keeps the focus on the chosen one. */
function useRoving(chosen: number, move: (by: number) => void) {
  const row = useRef<HTMLDivElement>(null);
  const hasMoved = useRef(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the focus follows the choice
  useEffect(() => {
    if (!hasMoved.current) return;
    hasMoved.current = false;
    row.current?.querySelector<HTMLButtonElement>('[tabindex="0"]')?.focus();
  }, [chosen]);
  const onKeyDown = (event: KeyboardEvent) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    hasMoved.current = true;
    move(by);
  };
  return { row, onKeyDown };
}

/** Twelve months, as high as the time carried in their middle. */
function MonthStrip({ date, figures, onSet }: StripProps): ReactNode {
  const found = useMemo(
    () => (figures === undefined ? undefined : monthFigures(figures, date.year)),
    [figures, date.year],
  );
  const most = Math.max(1, ...(found ?? []).map(({ carried }) => carried));
  const { row, onKeyDown } = useRoving(date.month, (months) => onSet(movedDate(date, { months })));
  return (
    <div
      ref={row}
      role="radiogroup"
      aria-label={`Month of ${date.year}`}
      className={styles.months}
      onKeyDown={onKeyDown}
    >
      {months.map((name, i) => (
        <Bar
          key={name}
          name={name}
          share={(found?.[i]?.carried ?? 0) / most}
          words={`${name}${carriedWords(found?.[i])}`}
          value={found === undefined ? undefined : `${(found[i]?.carried ?? 0).toFixed(0)} h`}
          isChosen={date.month === i + 1}
          onPress={() => onSet({ ...date, month: i + 1, day: Math.min(date.day, daysInMonth(date.year, i + 1)) })}
        />
      ))}
    </div>
  );
}

/** The days of the month; between the dates computed their figures are straight lines. */
function DayStrip({ date, figures, onSet }: StripProps): ReactNode {
  const id = useId();
  const count = daysInMonth(date.year, date.month);
  const days = useMemo(
    () =>
      Array.from({ length: count }, (_, i) =>
        figures === undefined
          ? undefined
          : figureOn(figures, dayOfYear({ year: date.year, month: date.month, day: i + 1 })),
      ),
    [figures, count, date.year, date.month],
  );
  const most = Math.max(1, ...(figures ?? []).map(({ carried }) => carried));
  const { row, onKeyDown } = useRoving(date.day + 40 * date.month, (by) => onSet(movedDate(date, { days: by })));
  return (
    <>
      <div
        ref={row}
        role="radiogroup"
        aria-label={`Day of ${months[date.month - 1]} ${date.year}`}
        aria-describedby={id}
        className={styles.days}
        onKeyDown={onKeyDown}
      >
        {days.map((figure, i) => (
          <Bar
            // biome-ignore lint/suspicious/noArrayIndexKey: days of a month are their numbers
            key={i}
            name={String(i + 1)}
            share={(figure?.carried ?? 0) / most}
            words={`${i + 1} ${months[date.month - 1]}${carriedWords(figure)}`}
            isChosen={date.day === i + 1}
            onPress={() => onSet({ ...date, day: i + 1 })}
          />
        ))}
      </div>
      <p id={id} className={styles.about}>
        {figures === undefined
          ? 'Arrow keys move by days. Look through the year to see what each month brings.'
          : 'Height: time that sunlight carries, all losses in. 25 dates are computed; between them straight lines.'}
      </p>
    </>
  );
}

function Bar(props: {
  readonly name: string;
  readonly share: number;
  readonly words: string;
  readonly value?: string | undefined;
  readonly isChosen: boolean;
  readonly onPress: () => void;
}): ReactNode {
  const { name, share, words, value, isChosen, onPress } = props;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a row of choices with a picture in each
    <button
      type="button"
      role="radio"
      aria-checked={isChosen}
      aria-label={words}
      title={words}
      tabIndex={isChosen ? 0 : -1}
      className={styles.bar}
      onClick={onPress}
    >
      <span className={styles.barRoom}>
        <span className={styles.barFill} style={{ height: `${Math.round(100 * Math.max(0, Math.min(1, share)))}%` }} />
      </span>
      <span>{name}</span>
      {value !== undefined && <span className={styles.barValue}>{value}</span>}
    </button>
  );
}
