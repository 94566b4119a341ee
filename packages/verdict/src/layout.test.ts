import { readDesign } from '@noonwing/design';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { layoutRows, layouts } from './layout.js';
import { leverCandidates } from './lever-edits.js';
import type { LeverReport } from './levers.js';
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
    for (const { strings } of [...best, naive!]) {
      const cells = strings.flatMap((halves) => halves.flatMap((half) => half.cells));
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
    expect(best[0]!.strings).toHaveLength(2);
    expect(best[0]!.energy / day).toBeCloseTo(1, 1.7);
  });
});

describe('levers of wiring and fins', () => {
  const keys = (name: test.ExampleName, changes: Readonly<Record<string, string>> = {}) => {
    const text = test.edited(test.designText(name), changes);
    return leverCandidates(readDesign(text).design!, test.aircraftOf(text)).map(({ key }) => key);
  };

  it('offer diodes where there are none, and fins out, aft and canted', () => {
    expect(keys('bandeja')).toEqual(expect.arrayContaining(['diodes of right', 'fin aft', 'fin out', 'fin canted']));
    expect(keys('bandeja', { 'array.strings.right.cells per diode': '6' })).not.toContain('diodes of right');
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
