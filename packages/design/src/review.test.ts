import { describe, expect, it } from 'vitest';
import { completeDesign } from './complete/index.js';
import { readDesign } from './read-files.js';
import { reviewDesign } from './review.js';

const review = (cells: number, topology: string, more = '') => {
  const text = `noonwing: design 1
name: a
level power: 10 W
battery: {layout: 3S1P, empty voltage: 3 V}
array:
  rows: {top: {on: wing, cells: ${cells}}}
  strings:
    all: {rows: [top], converter: c}
  converters:
    c: {topology: ${topology}${more}}
`;
  const { design, document, messages } = readDesign(text);
  expect(messages).toEqual([]);
  return reviewDesign(completeDesign(design!).aircraft, document);
};

/** Rules of thumb for 3S and 125 mm cells: boost up to 12, buck from 28, neither all day from 20 to 24. */
describe('strings against converter and battery', () => {
  it.each([
    [10, 'boost'],
    [28, 'buck'],
    [20, 'buck-boost'],
  ])('%d cells with a %s converter go together', (cells, topology) => {
    expect(review(cells, topology)).toEqual([]);
  });

  it('a string that can never reach the battery voltage is an error, with the number of cells that would do', () => {
    const [message, ...others] = review(8, 'buck', ', input voltage low: 0 V');
    expect(others).toEqual([]);
    expect(message).toMatchObject({ severity: 'error', line: 8, path: 'array.strings.all' });
    expect(message?.expected).toContain('never charges');
    const needed = Number(/at least (\d+) cells/.exec(message!.hint)![1]);
    expect(review(needed, 'buck')).toEqual([]);
    expect(review(needed - 3, 'buck').length).toBeGreaterThan(0);
  });

  it('the same without a converter', () => {
    expect(review(8, 'direct')[0]).toMatchObject({ severity: 'error' });
  });

  it('a boost string that is above the empty battery when cold is warned of, with the number that would do', () => {
    const [message] = review(16, 'boost');
    expect(message?.severity).toBe('warning');
    const most = Number(/at most (\d+) cells/.exec(message!.hint)![1]);
    expect(review(most, 'boost')).toEqual([]);
    expect(review(most + 1, 'boost')).toHaveLength(1);
  });

  it('a buck string that falls below the full battery when hot is warned of', () => {
    expect(review(24, 'buck')[0]?.severity).toBe('warning');
  });

  it('limits of the converter hold', () => {
    expect(review(10, 'boost', ', input voltage high: 6 V')[0]).toMatchObject({ severity: 'error' });
    expect(review(4, 'boost', ', input voltage low: 5 V')[0]).toMatchObject({ severity: 'error' });
  });
});

describe('motor against battery', () => {
  it('a battery that the motor flattens at once is warned of', () => {
    const text =
      'noonwing: design 1\nname: a\nlevel power: 10 W\nbattery: {layout: 3S1P, resistance: 2 ohm}\ndrive: {motor: outrunner 75 g 750 rpm/V}\n';
    const { design, document } = readDesign(text);
    const messages = reviewDesign(completeDesign(design!).aircraft, document);
    expect(messages[0]).toMatchObject({ severity: 'warning', line: 4, path: 'battery' });
    const stiff = readDesign(text.replace('2 ohm', '60 mohm'));
    expect(reviewDesign(completeDesign(stiff.design!).aircraft, stiff.document)).toEqual([]);
  });
});
