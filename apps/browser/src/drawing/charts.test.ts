import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exampleDay } from '../example-day.js';
import { chargeChart, flownHours } from './charge-chart.js';
import { dayChart, shownHours } from './day-chart.js';
import { hourStep, niceStep, scale, ticks } from './scale.js';
import type { Shape } from './shape.js';

const all = (shape: Shape): readonly Shape[] => [
  shape,
  ...shape.children.flatMap((child) => (typeof child === 'string' ? [] : all(child))),
];
const textsIn = (shape: Shape): readonly string[] =>
  all(shape).flatMap(({ children }) => children.filter((child) => typeof child === 'string'));
const withClass = (shape: Shape, name: string) =>
  all(shape).filter(({ attributes }) =>
    String(attributes.class ?? '')
      .split(' ')
      .includes(name),
  );

describe('scales', () => {
  it('map ends to ends and have round steps', () => {
    const x = scale([5, 23], [40, 700]);
    expect([x(5), x(23), x(14)]).toEqual([40, 700, 370]);
    expect(niceStep(42, 5)).toBe(10);
    expect(niceStep(0.9, 5)).toBe(0.2);
    expect(niceStep(0, 5)).toBe(1);
    expect(ticks(5, 23, 6)).toEqual([6, 12, 18]);
    expect(hourStep(18, 660)).toBe(2);
    expect(hourStep(18, 250)).toBe(6);
  });

  it('never need more steps than asked', () => {
    fastCheck.assert(
      fastCheck.property(
        fastCheck.double({ min: 1e-3, max: 1e6, noNaN: true }),
        fastCheck.integer({ min: 1, max: 9 }),
        (span, most) => {
          expect(span / niceStep(span, most)).toBeLessThanOrEqual(most * (1 + 1e-9));
        },
      ),
    );
  });
});

describe('chart of the day', () => {
  const day = exampleDay();
  const chart = dayChart(day, 700);

  it('shows daylight with an hour around it, and an early launch', () => {
    expect(shownHours(day)).toEqual({ start: 5, end: 21 });
    expect(shownHours({ ...day, launch: 3 })).toEqual({ start: 2, end: 21 });
    expect(shownHours({ launch: 9, daylight: [] })).toEqual({ start: 8, end: 13 });
    expect(shownHours({ launch: 9, daylight: [{ start: 0, end: 48 }] })).toEqual({ start: 0, end: 24 });
  });

  it('tells the skies apart by more than colour: line, fill and words', () => {
    const incomes = withClass(chart.shape, 'income');
    expect(new Set(incomes.map(({ attributes }) => attributes['stroke-dasharray'])).size).toBe(3);
    const windows = withClass(chart.shape, 'window');
    expect(windows.map(({ attributes }) => attributes.fill)).toEqual(['url(#day-sky-0)', 'url(#day-sky-1)']);
    expect(withClass(chart.shape, 'rowname').flatMap(textsIn)).toEqual([
      'clear sky: carried 09:30 to 18:30',
      'thin cloud: carried 10:00 to 18:00',
      'broken cloud: not carried',
    ]);
  });

  it('has every pattern that it fills with', () => {
    const ids = new Set(all(chart.shape).map(({ attributes }) => attributes.id));
    for (const { attributes } of withClass(chart.shape, 'window')) {
      expect(ids.has(/#([^)]+)/.exec(String(attributes.fill))![1])).toBe(true);
    }
  });

  it('has title, description and the same data as a table', () => {
    const [title, description] = chart.shape.children as readonly Shape[];
    expect([title!.tag, description!.tag]).toEqual(['title', 'desc']);
    expect(chart.shape.attributes['aria-labelledby']).toBe(`${title!.attributes.id} ${description!.attributes.id}`);
    expect(chart.description).toContain('at most 40.0 W about 13:00');
    expect(chart.columns).toHaveLength(5);
    expect(chart.rows[0]).toEqual(['05:00', '0.0 W', '0.0 W', '0.0 W', '20.0 W']);
    expect(chart.rows.at(-1)![0]).toBe('20:30');
    for (const row of chart.rows) expect(row).toHaveLength(chart.columns.length);
  });

  it('stays inside its frame and prints only numbers, at any width', () => {
    fastCheck.assert(
      fastCheck.property(fastCheck.integer({ min: 260, max: 900 }), (width) => {
        for (const { shape } of [dayChart(day, width), chargeChart(day, width)]) {
          for (const { attributes, tag } of all(shape)) {
            expect(JSON.stringify(attributes)).not.toMatch(/NaN|Infinity|null|style/);
            if (tag === 'rect' && attributes.class !== undefined) {
              expect(Number(attributes.x) + Number(attributes.width)).toBeLessThanOrEqual(width);
            }
          }
        }
      }),
      { numRuns: 30 },
    );
  });

  it('draws a day on which the sun does not rise', () => {
    const dark = exampleDay({
      daylight: [],
      skies: day.skies.map(({ start: _, end: __, ...sky }) => ({
        ...sky,
        windows: [],
        income: new Float64Array(48),
        bestIncome: 0,
      })),
    });
    expect(withClass(dayChart(dark, 400).shape, 'window')).toEqual([]);
    expect(withClass(dayChart(dark, 400).shape, 'night')).toHaveLength(1);
  });
});

describe('chart of the charge', () => {
  const day = exampleDay();

  it('goes from launch to just after the last empty battery', () => {
    expect(flownHours(day)).toEqual({ start: 8, end: 23 });
  });

  it('ends each line with a cross where the battery is empty, and with none where it is not', () => {
    expect(withClass(chargeChart(day, 500).shape, 'ending')).toHaveLength(3);
    const lasting = exampleDay({ skies: day.skies.map(({ emptyAt: _, ...sky }) => sky) });
    expect(withClass(chargeChart(lasting, 500).shape, 'ending')).toEqual([]);
    expect(flownHours(lasting)).toEqual({ start: 8, end: 24 });
  });

  it('says "empty" in its table after that', () => {
    const { rows } = chargeChart(day, 500);
    expect(rows.find(([time]) => time === '13:00')).toEqual(['13:00', '48 %', '48 %', 'empty']);
  });
});
