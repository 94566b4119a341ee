import { readDesign } from '@noonwing/design';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { layoutRows, layouts } from './layout.js';
import { dayLedger } from './ledger.js';
import { leverCandidates } from './lever-edits.js';
import type { LeverReport } from './levers.js';
import { splitWords } from './split-words.js';
import { createStages } from './stages.js';
import { stringSplits } from './string-split.js';

const all = (name: test.ExampleName) =>
  layouts({
    designText: test.designText(name),
    plan: { ...test.planOf(test.planText(name)), skies: ['clear'] },
    files: {},
    stages: createStages(),
  }) as LeverReport;

describe('layout of the cells', () => {
  it('lays rows of whole and half cells within the span, beside each other', () => {
    const { array, surfaces } = test.aircraftOf(test.designText('vigilia'));
    const sets = layoutRows(test.aircraftOf(test.designText('vigilia')));
    expect(sets.some(({ words }) => words.includes('half cells'))).toBe(true);
    for (const { edits, added } of sets) {
      const value = (row: string, key: string) =>
        edits.find(({ path }) => path === `array.rows.${row}.${key}`)?.text ?? '';
      for (const row of added) {
        const { stations } = surfaces.find(({ name }) => name === value(row, 'on'))!;
        const half = stations.at(-1)!.y - stations[0]!.y;
        const [from, to] = ['from', 'to'].map((key) => Number.parseFloat(value(row, key)) / 100) as [number, number];
        const pieces = Number(value(row, 'pieces') || 1);
        expect(to).toBeLessThanOrEqual(1);
        expect((to - from) * half).toBeGreaterThan(Number(value(row, 'cells')) * array!.cell.length.value - 1e-3);
        expect(pieces).toBeLessThanOrEqual(array!.cell.mostPieces);
      }
    }
  });

  it.each(['alondra', 'vigilia'] as const)('of %s is never worse than the design as it is', (name) => {
    const { base, levers } = all(name);
    const usable = levers.filter(({ after }) => after !== undefined);
    expect(usable.find(({ label }) => label === 'as built')?.after).toEqual(base);
    expect(usable[0]!.after!.income).toBeGreaterThanOrEqual(0.998 * base.income);
    for (const { text, after } of usable) {
      const laid = test.aircraftOf(text!);
      expect(laid.array!.strings.flatMap(({ rows }) => rows).sort()).toEqual(
        laid.array!.rows.map((row) => row.name).sort(),
      );
      expect(after!.income).toBeGreaterThan(0);
    }
  });
});

describe('splits into strings', () => {
  const verdict = test.verdictOf(test.designText('bandeja'), test.planText('bandeja'));
  const { best, naive } = stringSplits(verdict, 0)!;

  it('hold every cell once, and are the best of all that are thought of', () => {
    for (const { feeds } of [...best, naive!]) {
      const cells = feeds.flat(2).flatMap((half) => half.cells);
      expect(cells.sort((a, b) => a - b)).toEqual(verdict.prepared.run.array!.cells!.map((_, i) => i));
    }
    expect(best[0]!.energy).toBeGreaterThanOrEqual(best[1]!.energy);
    expect(best[0]!.energy).toBeGreaterThan(naive!.energy);
  });

  it('foresee the energy of the day within 2 %: of the strings as built', () => {
    const offered = verdict.skies[0]!.run.offered;
    const step = verdict.grid.times[1]! - verdict.grid.times[0]!;
    const day = offered
      .subarray(0, verdict.grid.stepsPerDay)
      .reduce((sum, watts) => sum + Math.max(0, watts) * step, 0);
    const built = best.find(({ feeds }) => feeds.length === 2 && feeds.every((feed) => feed.length === 1))!;
    expect(built.energy / day).toBeCloseTo(1, 1.7);
  });
});

describe('strings side by side on one converter', () => {
  const [design, plan] = [test.designText('bandeja'), test.planText('bandeja')];
  const verdict = test.verdictOf(design, plan);
  const { best } = stringSplits(verdict, 0)!;
  const together = best.find(({ feeds }) => feeds.length === 1 && feeds[0]!.length === 2)!;
  const apart = best.find(({ feeds }) => feeds.length === 2 && feeds.every((feed) => feed.length === 1))!;

  it('are thought of where they are of equal length, and save the stand-by of a converter', () => {
    for (const feed of best.flatMap(({ feeds }) => feeds)) {
      const lengths = feed.map((halves) => halves.reduce((sum, { cells }) => sum + cells.length, 0));
      expect(new Set(lengths).size).toBe(1);
    }
    expect(splitWords(together)).toBe('2 strings on 1 converter, right side beside left side');
    expect(splitWords(apart)).toBe('2 strings');
    // Parallel halves lose little of each other, and never gain: what is gained is half of the stand-by.
    const standby = verdict.prepared.run.array!.converters[0]!.standbyPower * 86400;
    expect(together.energy).toBeLessThanOrEqual(apart.energy + standby);
    expect(together.energy / apart.energy).toBeCloseTo(1, 1.9);
  });

  it('give in the day what was foreseen within 2 %', () => {
    const text = test
      .edited(design, {
        'array.strings.left.converter': 'right',
        'array.converters.right.rated power': '100 W',
      })
      .replace(/\n +left: +\{like.*/, '');
    const built = test.verdictOf(text, plan);
    expect(built.prepared.run.array!.converters).toHaveLength(1);
    const step = built.grid.times[1]! - built.grid.times[0]!;
    const offered = built.skies[0]!.run.offered.subarray(0, built.grid.stepsPerDay);
    const day = offered.reduce((sum, watts) => sum + Math.max(0, watts) * step, 0);
    expect(together.energy / day).toBeCloseTo(1, 1.7);
    const ledger = dayLedger(built, 0, { from: built.grid.midnight, to: built.grid.dayEnd })!;
    const shared = ledger.rows.find(({ key }) => key === 'shared')!;
    expect(shared.watts).toBeGreaterThan(0);
    expect(shared.share).toBeLessThan(0.002);
    const light = ledger.rows.reduce((sum, { watts, partOf }) => sum + (partOf === undefined ? watts : 0), 0);
    expect(light / ledger.light).toBeCloseTo(1, 9);
  });
});

describe('levers of wiring and fins', () => {
  const keys = (name: test.ExampleName, changes: Readonly<Record<string, string>> = {}) => {
    const text = test.edited(test.designText(name), changes);
    return leverCandidates(readDesign(text).design!, test.aircraftOf(text)).map(({ key }) => key);
  };

  it('offer diodes where there are none or few, and fins out, aft and canted', () => {
    expect(keys('bandeja')).toEqual(expect.arrayContaining(['diodes of right', 'fin aft', 'fin out', 'fin canted']));
    // Half as many cells per diode where there are some; over single cells there are no more to be had.
    expect(keys('bandeja', { 'array.strings.right.cells per diode': '6' })).toContain('diodes of right');
    expect(keys('bandeja', { 'array.strings.right.cells per diode': '1' })).not.toContain('diodes of right');
  });

  it('offer another setting where the present one is off', () => {
    const path = 'array.converters.tracker';
    expect(keys('alondra', { [`${path}.fixed input voltage`]: '9.28 V' })).toContain('setting of tracker');
    expect(
      keys('alondra', {
        [`${path}.tracking`]: 'fraction of open circuit',
        [`${path}.open circuit fraction`]: '70 %',
      }),
    ).toContain('setting of tracker');
    expect(keys('alondra')).not.toContain('setting of tracker');
  });
});
