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

  it('put strings alike on one converter as strong as both, lighter than two; strings of other lengths keep theirs', () => {
    const text = test.designText('vigilia');
    const shared = leversOf(text).filter(({ key }) => key.endsWith(' share'));
    expect(shared.map(({ key }) => key)).toEqual([
      'front right and front left share',
      'rear right and rear left share',
    ]);
    const edited = applyEdits(text, shared[0]!.edits);
    if ('ok' in edited) throw new Error(edited.reason);
    const [before, after] = [text, edited.text].map((one) => test.aircraftOf(one).array!);
    expect(after!.converters.map(({ name }) => name)).toEqual(['front right', 'rear right', 'rear left']);
    expect(after!.strings.map(({ converter }) => converter)).toEqual([
      'front right',
      'rear right',
      'front right',
      'rear left',
    ]);
    const [one, both] = [before!.converters[0]!, after!.converters[0]!];
    expect(both.ratedPower.value).toBeCloseTo(2 * one.ratedPower.value, 6);
    expect(both.outputCurrentLimit.value).toBeCloseTo(2 * one.outputCurrentLimit.value, 6);
    expect(both.mass.value).toBeGreaterThan(one.mass.value);
    expect(both.mass.value).toBeLessThan(2 * one.mass.value);
  });

  it('place a diode for half as many cells where there are some, and weigh only those that come', () => {
    const text = test.edited(test.designText('alondra'), { 'array.strings.all.cells per diode': '8' });
    const lever = leversOf(text).find(({ key }) => key === 'diodes of all')!;
    expect(lever.label).toBe('a bypass diode for every 4 cells of the string "all", not 8');
    const edited = applyEdits(text, lever.edits);
    if ('ok' in edited) throw new Error(edited.reason);
    const after = test.aircraftOf(edited.text);
    expect(after.array!.strings[0]!.cellsPerDiode).toBe(4);
    expect(after.masses.find(({ name }) => name === 'more diodes of all')!.mass.value).toBeCloseTo(0.0014, 9);
    const single = test.edited(text, { 'array.strings.all.cells per diode': '1' });
    expect(leversOf(single).map(({ key }) => key)).not.toContain('diodes of all');
  });
});
