import type { ChargeData, LedgerData, SharesData, WhereWhenData } from '@noonwing/drawing';
import type { LedgerView, SweepView, VerdictView } from '../../core/view.js';
import { clockText, dateText, zoneText } from '../shell/clock.js';
import { skyTitle } from '../shell/words.js';

/** Points of a curve that a screen can show apart. */
const mostPoints = 300;

const everyOf = (count: number): number => Math.max(1, Math.ceil(count / mostPoints));

/** Course of the charge over all that was computed. */
export function chargeData(view: VerdictView): ChargeData {
  const { times, plan, sun } = view;
  const every = everyOf(times.length);
  const picked = [...times.keys()].filter((i) => i % every === 0 || i === times.length - 1);
  const first = sun.daylight[0];
  return {
    when: `${dateText(plan.date)}, ${plan.placeName ?? plan.name}`,
    zone: zoneText(plan.utcOffset),
    hours: picked.map((i) => times[i]!),
    charge: { label: 'state of charge', unit: '%', decimals: 0 },
    skies: view.hasBattery
      ? view.skies.map((sky, n) => ({
          id: `sky${n}`,
          name: sky.name,
          charge: picked.map((i) => 100 * (sky.charge[i] ?? 0)),
          curtailed: picked.map((i) => (sky.curtailed[Math.min(i, sky.curtailed.length - 1)] ?? 0) > 0.05),
        }))
      : [],
    full: 100,
    ...(first === undefined ? {} : { sunrise: first.start, sunset: first.end }),
  };
}

export const ledgerData = (ledger: LedgerView): LedgerData => ({
  when: `${clockText(ledger.at)}, ${skyTitle({ name: ledger.sky })}`,
  power: { label: 'power', unit: 'W' },
  rows: ledger.rows.map(({ key, label, watts, group, partOf, note }) => ({
    id: key,
    label,
    value: watts,
    group,
    ...(partOf === undefined ? {} : { partOf }),
    ...(note === undefined || note === '' ? {} : { note }),
  })),
});

/** Solar ratio over the year. here - the date of the plan and the hour or latitude looked at */
export function whereWhenData(
  sweep: SweepView,
  here?: { readonly day: number; readonly across: number; readonly label: string },
): WhereWhenData {
  const { days, across, solarRatio } = sweep;
  const isHour = sweep.kind === 'date and hour';
  const values = new Float64Array(solarRatio.length);
  // Rows of the sweep follow the dates; those of the drawing the other axis.
  for (let d = 0; d < days.length; d++) {
    for (let a = 0; a < across.length; a++) values[a * days.length + d] = solarRatio[d * across.length + a]!;
  }
  return {
    figure: {
      label: isHour ? 'income over need' : 'income over need, mean of daylight',
      unit: '',
      decimals: 2,
    },
    x: { label: 'date', unit: '', kind: 'day of year', values: [...days] },
    y: isHour
      ? { label: 'hour', unit: '', kind: 'hour', values: [...across] }
      : { label: 'latitude', unit: '', kind: 'latitude', values: [...across].map((angle) => (angle * 180) / Math.PI) },
    values,
    ...(here === undefined ? {} : { here: { x: here.day, y: here.across, label: here.label } }),
  };
}

/** Inputs drawn apart; the rest of the variance is one row. */
const mostShares = 8;

/** What makes the verdict unsure. */
export function sharesData(view: VerdictView, sky: number): SharesData {
  const { contributions } = view;
  const rows = contributions.slice(0, mostShares).map(({ label, origin, share, measurement }) => ({
    id: label,
    label,
    share,
    measured: origin === 'measured',
    ...(measurement === undefined ? {} : { remedy: `${measurement.what}, ${Math.round(measurement.minutes)} min` }),
  }));
  const others = contributions.slice(mostShares);
  const rest = others.reduce((sum, { share }) => sum + share, 0);
  return {
    of: `income over need, ${skyTitle({ name: view.skies[sky]?.name ?? 'clear' })}`,
    rows: rest > 0.005 ? [...rows, { id: 'rest', label: `${others.length} others together`, share: rest }] : rows,
  };
}
