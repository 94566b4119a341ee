import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { stringLevers } from './lever-strings.js';
import { applyEdits } from './levers.js';

const leversOf = (text: string) => stringLevers(test.aircraftOf(text));

describe('levers of the wiring', () => {
  it('give each half of a row its own string and converter, with as many cells as before', () => {
    const text = test.designText('alondra');
    const lever = leversOf(text).find(({ key }) => key === 'sides of top')!;
    const edited = applyEdits(text, lever.edits);
    if ('ok' in edited) throw new Error(edited.reason);
    const { array } = test.aircraftOf(edited.text);
    expect(array!.rows.map(({ side, cells }) => [side, cells])).toEqual([
      ['right', 8],
      ['left', 8],
    ]);
    expect(array!.strings.map(({ converter }) => converter)).toEqual(['tracker', 'top left']);
    expect(array!.converters.length).toBe(2);
    // Nothing is left to split; diodes and settings are other levers.
    expect(leversOf(edited.text).filter(({ key }) => /^sides|apart$/.test(key))).toEqual([]);
  });

  it('lay the cells of a half as they lay: gap, pieces and their turn go along, places by hand are left alone', () => {
    const row = 'array.rows.top';
    const text = test.edited(test.designText('alondra'), {
      [`${row}.gap`]: '2.5 mm',
      [`${row}.pieces`]: '2',
      [`${row}.turned`]: 'yes',
      [`${row}.from`]: '1.25 %',
    });
    const edited = applyEdits(text, leversOf(text).find(({ key }) => key === 'sides of top')!.edits);
    if ('ok' in edited) throw new Error(edited.reason);
    const [right, left] = test.aircraftOf(edited.text).array!.rows;
    expect({ ...left, name: right!.name, side: right!.side }).toEqual(right);
    expect(left).toMatchObject({ gap: 0.0025, pieces: 2, turned: true, from: 0.0125 });
    const numbered = test.edited(test.designText('alondra'), { 'array.strings.all.cracked[0].cell': '3' });
    expect(leversOf(numbered).map(({ key }) => key)).not.toContain('sides of top');
  });

  it('take a fixed voltage away where there is one', () => {
    const text = test.edited(test.designText('alondra'), { 'array.converters.tracker.fixed input voltage': '9 V' });
    const lever = leversOf(text).find(({ key }) => key === 'tracking of tracker')!;
    const edited = applyEdits(text, lever.edits);
    if ('ok' in edited) throw new Error(edited.reason);
    expect(test.aircraftOf(edited.text).array!.converters[0]!.fixedInputVoltage).toBeUndefined();
  });

  it('take the last row off a string of several', () => {
    for (const { edits, key } of leversOf(test.designText('vigilia'))) {
      const edited = applyEdits(test.designText('vigilia'), edits);
      expect('ok' in edited ? edited.reason : key).toBe(key);
    }
  });
});
