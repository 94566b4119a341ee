import type { PlotSeries, Table } from '../model.js';
import { drawable, hourText, known, withUnit } from '../number.js';
import { byX } from '../scale.js';
import { sentence } from '../text.js';
import type { DayData, DaySky } from './inputs.js';

export const needAt = (data: DayData, i: number): number | undefined =>
  known(typeof data.need === 'number' ? data.need : data.need[i]);

export const needs = (data: DayData): readonly (number | undefined)[] => data.hours.map((_, i) => needAt(data, i));

export function labelTexts(data: DayData): { need: string; skies: readonly string[]; compare?: string } {
  const best = (values: readonly number[]) => values.filter(drawable).reduce((most, each) => Math.max(most, each), 0);
  const level = needs(data).find(drawable);
  return {
    need: level === undefined ? 'need not known' : `need ${withUnit(level, data.power)}`,
    skies: data.skies.map(({ name, income }) => `${name}, up to ${withUnit(best(income), data.power)}`),
    ...(data.compare ? { compare: data.compare.label } : {}),
  };
}

/** "clear: carried 09:50 to 16:10, about 9 in 10". */
export function windowText({ name, windows, confidence }: DaySky): string {
  const told = windows.filter(({ start, end }) => drawable(start) && drawable(end));
  if (told.length === 0) return `${name}: not carried${confidence ? `, ${confidence}` : ''}`;
  const spans = told.map(({ start, end }) => `${hourText(start)} to ${hourText(end)}`).join(', ');
  return `${name}: carried ${spans}${confidence ? `, ${confidence}` : ''}`;
}

/** "clear: 09:50 to 16:10". */
export function stageText({ windows, name }: DaySky): string {
  const first = windows.find(({ start, end }) => drawable(start) && drawable(end));
  return first === undefined ? `${name}: not carried` : `${name}: ${hourText(first.start)} to ${hourText(first.end)}`;
}

export function dayWords(data: DayData): { title: string; text: string } {
  const level = needs(data).find(drawable);
  const need = level === undefined ? 'The need is not known.' : `Level flight needs ${withUnit(level, data.power)}.`;
  const skies = data.skies.map((each) => `${sentence(windowText(each))}.`);
  const without = data.skies.length === 0 ? ['No income was computed.'] : [];
  return { title: `The day: income against need, ${data.when}`, text: [...skies, ...without, need].join(' ') };
}

export function daySeries(data: DayData): readonly PlotSeries[] {
  const { unit, decimals } = data.power;
  const shared = { xScale: 'x', yScale: 'y', unit, ...(decimals === undefined ? {} : { decimals }) };
  const of = (values: readonly (number | undefined)[]) =>
    byX(data.hours.map((hour, i) => [hour, values[i] ?? Number.NaN] as const));
  const light = data.sunlight && {
    id: 'sunlight',
    ...data.sunlight.measure,
    xScale: 'x',
    yScale: 'sunlight',
    points: of(data.sunlight.values),
  };
  return [
    ...(light ? [light] : []),
    ...data.skies.map(({ id, name, income }) => ({ ...shared, id, label: `income, ${name}`, points: of(income) })),
    ...(data.compare ? [{ ...shared, id: 'compare', label: data.compare.label, points: of(data.compare.income) }] : []),
    { ...shared, id: 'need', label: 'need', points: of(needs(data)) },
  ];
}

export function dayTable(data: DayData): Table {
  const { unit } = data.power;
  const light = data.sunlight;
  return {
    columns: [
      { key: 'hour', label: `hour (${data.zone})`, unit: 'h' },
      ...(light ? [{ key: 'sunlight', label: light.measure.label, unit: light.measure.unit }] : []),
      ...data.skies.map(({ name }, i) => ({ key: `sky ${i}`, label: `income, ${name}`, unit })),
      { key: 'need', label: 'need', unit },
    ],
    rows: data.hours.map((hour, i) => ({
      hour: known(hour),
      ...(light ? { sunlight: known(light.values[i]) } : {}),
      ...Object.fromEntries(data.skies.map(({ income }, n) => [`sky ${n}`, known(income[i])])),
      need: needAt(data, i),
    })),
  };
}
