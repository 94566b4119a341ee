import type { DayData, DaySky } from '@noonwing/drawing';
import { formatPlace } from '@noonwing/quantities';
import type { SkyView, Stretch, VerdictView } from '../../core/view.js';
import { dateText, zoneText } from './clock.js';
import { stepAt } from './words.js';

/** Points of a curve that a screen can show apart. */
const mostPoints = 240;

/** Shown before sunrise and after sunset [h]. */
const twilight = 0.75;

/** From shortly before dawn to shortly after dusk of the first day; all that was computed where the sun never rises or sets. */
export function stageSpan({ sun, times }: Pick<VerdictView, 'sun' | 'times'>): Stretch {
  const first = sun.daylight[0];
  const [start, end] = [times[0] ?? 0, times.at(-1) ?? 24];
  if (first === undefined) return { start, end: Math.min(end, start + 24) };
  return {
    start: Math.max(Math.min(start, first.start), first.start - twilight),
    end: Math.min(end, first.end + twilight),
  };
}

/** Steps inside a stretch, so many that they can be told apart. */
function stepsIn(middles: Float64Array, { start, end }: Stretch): readonly number[] {
  const inside: number[] = [];
  for (let i = 0; i < middles.length; i++) if (middles[i]! >= start && middles[i]! <= end) inside.push(i);
  const every = Math.max(1, Math.ceil(inside.length / mostPoints));
  return inside.filter((_, i) => i % every === 0 || i === inside.length - 1);
}

const skyOf = (sky: SkyView, i: number, steps: readonly number[], { start, end }: Stretch): DaySky => ({
  id: `sky${i}`,
  name: sky.name,
  // What a converter at rest draws at night is a fraction of a watt: on this scale it is nothing.
  income: steps.map((step) => Math.max(0, sky.income[step] ?? 0)),
  windows: sky.windows
    .filter((window) => window.end > start && window.start < end)
    .map((window) => ({
      ...window,
      ...(window.start === sky.start?.value && sky.start.high > sky.start.low
        ? { startSpan: [sky.start.low, sky.start.high] as const }
        : {}),
      ...(window.end === sky.end?.value && sky.end.high > sky.end.low
        ? { endSpan: [sky.end.low, sky.end.high] as const }
        : {}),
    })),
  ...(sky.confidenceText === '' ? {} : { confidence: sky.confidenceText }),
});

/** The verdict's first day as the charts of the day take it. */
export function dayData(view: VerdictView, span: Stretch = stageSpan(view)): DayData {
  const steps = stepsIn(view.middles, span);
  const first = view.sun.daylight[0];
  const { levelPower, plan } = view;
  return {
    when: `${dateText(plan.date)}, ${plan.placeName ?? formatPlace(plan, 1)}`,
    zone: zoneText(plan.utcOffset),
    hours: steps.map((step) => view.middles[step]!),
    sunlight: {
      measure: { label: 'sunlight', unit: 'W/m²', decimals: 0 },
      values: steps.map((step) => view.skies[0]?.globalHorizontal[step] ?? 0),
    },
    power: { label: 'power', unit: 'W' },
    skies: view.skies.map((sky, i) => skyOf(sky, i, steps, span)),
    need: steps.map((step) => view.need[step] ?? 0),
    ...(levelPower !== undefined && levelPower.high > levelPower.low
      ? { needSpan: [levelPower.low, levelPower.high] as const }
      : {}),
    ...(first === undefined ? {} : { sunrise: first.start, sunset: first.end }),
    ...(view.launch > span.start && view.launch < span.end ? { launch: view.launch } : {}),
  };
}

/** What the band says of one hour, in words. */
export function hourWords(view: VerdictView, skyIndex: number, hour: number): HourWords {
  const { times, sun } = view;
  const step = stepAt(times, hour);
  const sky = view.skies[skyIndex] ?? view.skies[0];
  const isComputed = hour >= (times[0] ?? 0) && hour <= (times.at(-1) ?? 24);
  return {
    elevation: sun.elevation[step] ?? 0,
    azimuth: sun.azimuth[step] ?? 0,
    income: isComputed ? (sky?.income[step] ?? 0) : undefined,
    need: isComputed ? (view.need[step] ?? 0) : undefined,
    charge: isComputed && view.hasBattery ? sky?.charge[step] : undefined,
  };
}

export interface HourWords {
  readonly elevation: number;
  readonly azimuth: number;
  readonly income: number | undefined;
  readonly need: number | undefined;
  readonly charge: number | undefined;
}
