import { describe, expect, it } from 'vitest';
import type { SweepView } from '../../core/view.js';
import { ledgerData, whereWhenData } from './chart-data.js';

describe('data of the charts', () => {
  it('turns a sweep so that its rows follow the hours', () => {
    const sweep: SweepView = {
      kind: 'date and hour',
      sky: 'clear',
      days: Float64Array.of(1, 100),
      across: Float64Array.of(10, 12, 14),
      solarRatio: Float64Array.of(1, 2, 3, 4, 5, 6),
    };
    const data = whereWhenData(sweep, { day: 100, across: 12, label: 'plan' });
    expect([...(data.values as Float64Array)]).toEqual([1, 4, 2, 5, 3, 6]);
    expect(data.here).toEqual({ x: 100, y: 12, label: 'plan' });
    expect(whereWhenData(sweep).here).toBeUndefined();
  });

  it('writes latitudes in degrees', () => {
    const sweep: SweepView = {
      kind: 'date and latitude',
      sky: 'clear',
      days: Float64Array.of(1),
      across: Float64Array.of(-Math.PI / 4, Math.PI / 4),
      solarRatio: Float64Array.of(1, 2),
    };
    const [south, north] = whereWhenData(sweep).y.values;
    expect(south).toBeCloseTo(-45, 9);
    expect(north).toBeCloseTo(45, 9);
  });

  it('keeps every row of the ledger, with what it is part of', () => {
    const data = ledgerData({
      sky: 'clear',
      at: 12,
      from: 11.9,
      to: 12.1,
      light: 100,
      income: 20,
      need: 15,
      rows: [
        { key: 'a', label: 'reflected', watts: 80, share: 0.8, group: 'light' },
        { key: 'b', label: 'by dust', watts: 3, share: 0.03, group: 'light', partOf: 'a', note: 'assumed' },
      ],
    });
    expect(data.when).toBe('12:00, clear sky');
    expect(data.rows).toEqual([
      { id: 'a', label: 'reflected', value: 80, group: 'light' },
      { id: 'b', label: 'by dust', value: 3, group: 'light', partOf: 'a', note: 'assumed' },
    ]);
  });
});
