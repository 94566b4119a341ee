import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';

const said = (text: string) =>
  test.verdictOf(text, test.planText('vigilia')).warnings.filter(({ code }) => code === 'strings-pulled');

/** Vigilia with a string of 12 cells on the converter of another one. */
const sharing = (converter: string): string =>
  test.edited(test.designText('vigilia'), { 'array.strings.rear right.converter': converter });

describe('strings that hold each other back', () => {
  it('are named where they are of unlike length: 12 of 16 cells count', () => {
    const [warning, ...more] = said(sharing('front right'));
    expect(more).toEqual([]);
    expect(warning!.where).toBe('array.converters.front right');
    expect(warning!.message).toContain('of 16 and 12 cells');
    // At the voltage of 12 cells the longer string gives about 12 of its 16 cells: 4 of 28 cells, a little less at a better voltage.
    const percent = Number(/lose (\d+) %/.exec(warning!.message)![1]);
    expect(percent).toBeGreaterThan(6);
    expect(percent).toBeLessThan(15);
  });

  it('are not where they are alike, or alone', () => {
    expect(said(sharing('rear left'))).toEqual([]);
    expect(said(test.designText('vigilia'))).toEqual([]);
  });
});
