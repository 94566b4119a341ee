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
