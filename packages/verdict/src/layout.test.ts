import { readDesign } from '@noonwing/design';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { layoutCandidates } from './layout.js';
import { leverCandidates } from './lever-edits.js';
import { applyEdits } from './levers.js';

const candidates = (text: string) => layoutCandidates(readDesign(text).design!, test.aircraftOf(text));

describe('layout of the cells', () => {
  const text = test.designText('vigilia');
  const found = candidates(text);

  it('tries rows of whole and half cells, each as edits that leave a design without the old rows', () => {
    expect(found.some(({ label }) => label.includes('half cells'))).toBe(true);
    const laid = applyEdits(text, found[0]!.edits);
    if (!('text' in laid)) throw new Error(laid.reason);
    const { array, surfaces } = test.aircraftOf(laid.text);
    expect(array!.rows.every(({ name }) => name.startsWith('laid'))).toBe(true);
    expect(array!.strings.flatMap(({ rows }) => rows).sort()).toEqual(array!.rows.map(({ name }) => name).sort());
    // Every row within the span, its cells beside each other.
    for (const row of array!.rows) {
      const { stations } = surfaces.find(({ name }) => name === row.on)!;
      const half = stations.at(-1)!.y - stations[0]!.y;
      expect(row.to).toBeLessThanOrEqual(1);
      expect((row.to - row.from) * half).toBeGreaterThan(row.cells * array!.cell.length.value);
    }
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
