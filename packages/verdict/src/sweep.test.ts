import { readFileSync } from 'node:fs';
import { completeDesign, completePlan, readDayPlan, readDesign } from '@noonwing/design';
import { describe, expect, it } from 'vitest';
import { createStages } from './index.js';
import { dateHourSweep, dateLatitudeSlices, dateLatitudeSweep } from './sweep.js';

const text = (name: string) => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), 'utf8');
const aircraft = completeDesign(readDesign(text('alondra.yaml')).design!).aircraft;
const plan = completePlan(readDayPlan(text('alondra.day.yaml')).plan!).plan;

describe('sweeps', () => {
  it('by date and hour: dark at midnight, best near noon and midsummer', () => {
    const sweep = dateHourSweep({ aircraft, plan, files: {}, stages: createStages(), dates: 5 });
    if ('ok' in sweep) throw new Error(sweep.reason);
    const hours = sweep.across.length;
    const best = (date: number) => Math.max(...sweep.ratio.slice(date * hours, (date + 1) * hours));
    for (let date = 0; date < 5; date++) expect(sweep.ratio[date * hours]).toBe(0);
    expect(best(2)).toBeGreaterThan(best(0));
    expect(best(2)).toBeGreaterThan(best(4));
    const noon = sweep.ratio.slice(2 * hours, 3 * hours).indexOf(best(2));
    // The sun is highest near 13:58 by this clock.
    expect(Math.abs(sweep.across[noon]! - 13.96)).toBeLessThan(0.6);
    expect([...sweep.ratio].every(Number.isFinite)).toBe(true);
  });
  it('by date and latitude: the pole in winter is a zero, not an error; June favours the north', () => {
    const degree = Math.PI / 180;
    const latitudes = Float64Array.from([-80, -40, 0, 40, 80], (value) => value * degree);
    const sweep = dateLatitudeSweep({ aircraft, plan, files: {}, stages: createStages(), dates: 3 }, latitudes);
    if ('ok' in sweep) throw new Error(sweep.reason);
    const at = (date: number, latitude: number) => sweep.ratio[date * 5 + latitude]!;
    expect(at(1, 0)).toBe(0);
    expect(at(0, 4)).toBe(0);
    expect(at(1, 3)).toBeGreaterThan(at(1, 1));
    expect(at(0, 1)).toBeGreaterThan(at(0, 3));
    expect([...sweep.ratio, ...sweep.carried!].every(Number.isFinite)).toBe(true);
  });
  it('goes in slices, one for each day, and tells how far it is', () => {
    const request = { aircraft, plan, files: {}, stages: createStages(), dates: 4 };
    const shares: number[] = [];
    dateHourSweep({ ...request, onProgress: (share) => shares.push(share) });
    expect(shares).toEqual([0.25, 0.5, 0.75, 1]);
    expect([...dateLatitudeSlices(request, Float64Array.of(0, 0.5))]).toEqual(
      [1, 2, 3, 4, 5, 6, 7, 8].map((n) => n / 8),
    );
  });
});
