import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineChanges } from './line-changes.js';

const signed = (first: string, second: string) => lineChanges(first, second).map(({ sign, text }) => `${sign}${text}`);

describe('lines that differ', () => {
  it('are those of one text only, in order', () => {
    expect(signed('a\nb\nc', 'a\nx\nc\nd')).toEqual(['-b', '+x', '+d']);
    expect(signed('', 'a')).toEqual(['+a']);
    expect(signed('a', '')).toEqual(['-a']);
  });

  it('leaves out empty lines and the space around a line', () => {
    expect(signed('a\n\n  b', 'a  \nb\n')).toEqual([]);
  });

  it('make the first text into the second', () => {
    const lines = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 12 });
    fc.assert(
      fc.property(lines, lines, (first, second) => {
        const changes = lineChanges(first.join('\n'), second.join('\n'));
        const count = (sign: string) => changes.filter((change) => change.sign === sign).length;
        // What both have is as long from either side, and nothing is both taken away and added for equal texts.
        expect(first.length - count('-')).toBe(second.length - count('+'));
        expect(lineChanges(first.join('\n'), first.join('\n'))).toEqual([]);
      }),
    );
  });
});
