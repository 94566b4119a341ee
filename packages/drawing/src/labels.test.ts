import fastCheck from 'fast-check';
import { expect, it } from 'vitest';
import { flagLanes, spread } from './labels.js';
import { fitText, listed, sentence, textWidth, wrapText } from './text.js';

it('labels that do not touch stay where they are', () => {
  expect(spread([10, 50, 90], [10, 10, 10], [0, 100])).toEqual([10, 50, 90]);
});

it('labels that touch share the shift', () => {
  expect(spread([50, 50], [10, 10], [0, 100])).toEqual([45, 55]);
  expect(spread([0, 0], [10, 10], [0, 100])).toEqual([5, 15]);
  expect(spread([100, 99], [10, 10], [0, 100])).toEqual([95, 85]);
});

it('spread: none covers another, all inside where there is room, in order', () => {
  const label = fastCheck.record({
    at: fastCheck.double({ min: -50, max: 450, noNaN: true }),
    size: fastCheck.integer({ min: 1, max: 30 }),
  });
  const property = fastCheck.property(fastCheck.array(label, { maxLength: 12 }), (labels) => {
    const sizes = labels.map(({ size }) => size);
    const placed = spread(
      labels.map(({ at }) => at),
      sizes,
      [0, 400],
    );
    const order = placed.map((_, i) => i).sort((a, b) => placed[a]! - placed[b]!);
    for (const [n, i] of order.entries()) {
      expect(placed[i]! - sizes[i]! / 2).toBeGreaterThan(-1e-6);
      expect(placed[i]! + sizes[i]! / 2).toBeLessThan(400 + 1e-6);
      const j = order[n + 1];
      if (j === undefined) continue;
      expect(placed[j]! - placed[i]!).toBeGreaterThan((sizes[i]! + sizes[j]!) / 2 - 1e-6);
      expect(labels[i]!.at).toBeLessThanOrEqual(labels[j]!.at);
    }
  });
  fastCheck.assert(property);
});

it('flags: no label covers another and no pole runs through a label', () => {
  const pole = fastCheck.record({
    x: fastCheck.integer({ min: 0, max: 500 }),
    width: fastCheck.integer({ min: 5, max: 120 }),
  });
  const property = fastCheck.property(
    fastCheck.uniqueArray(pole, { maxLength: 14, selector: ({ x }) => x }),
    (poles) => {
      const flags = flagLanes(poles, 2000);
      for (const [i, a] of poles.entries()) {
        for (const [j, b] of poles.entries()) {
          if (i === j) continue;
          const covered = b.x > a.x && b.x < a.x + a.width;
          if (covered) expect(flags[j]!.lane).toBeLessThan(flags[i]!.lane);
          if (flags[i]!.lane === flags[j]!.lane) expect(a.x + a.width <= b.x || b.x + b.width <= a.x).toBe(true);
        }
      }
    },
  );
  fastCheck.assert(property);
});

it('flags at the right edge fly to the left', () => {
  expect(flagLanes([{ x: 90, width: 30 }], 100)).toEqual([{ lane: 0, anchor: 'end' }]);
  expect(flagLanes([{ x: 60, width: 30 }], 100)).toEqual([{ lane: 0, anchor: 'start' }]);
});

it('wrapped lines are not wider than allowed, lose no word, keep number and unit together', () => {
  expect(wrapText('level flight needs 43.1 W', 13, 150)).toEqual(['level flight needs', '43.1 W']);
  expect(wrapText('', 13, 100)).toEqual([]);
  const property = fastCheck.property(
    fastCheck.array(fastCheck.stringMatching(/^[a-zA-Z0-9]{1,9}$/), { maxLength: 20 }),
    (words) => {
      const lines = wrapText(words.join(' '), 13, 120);
      for (const line of lines) expect(textWidth(line, 13)).toBeLessThanOrEqual(120.001);
      if (!lines.some((line) => line.endsWith('…'))) expect(lines.join(' ')).toBe(words.join(' '));
    },
  );
  fastCheck.assert(property);
  const cut = wrapText('one two three four five six seven', 13, 60, 2);
  expect(cut).toHaveLength(2);
  expect(cut[1]).toMatch(/…$/);
});

it('words', () => {
  expect(fitText('propeller', 13, 1000)).toBe('propeller');
  expect(fitText('propeller', 13, 40)).toMatch(/^p.*…$/);
  expect(listed(['a', 'b', 'c'])).toBe('a, b and c');
  expect(listed([])).toBe('');
  expect(sentence('clear')).toBe('Clear');
});
