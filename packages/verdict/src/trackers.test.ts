import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';

const run = (changes: Readonly<Record<string, string>>) =>
  test.verdictOf(test.edited(test.designText('alondra'), changes), test.planText('alondra'));
const path = 'array.converters.tracker';
const day = (changes: Readonly<Record<string, string>>) => {
  const { trackers, skies, warnings } = run(changes);
  return { found: trackers[0], carried: skies[0]!.run.figures.bestRatio, codes: warnings.map(({ code }) => code) };
};

describe('trackers through the turns of a day', () => {
  const unknown = day({});
  const climbing = day({ [`${path}.tracking`]: 'perturb and observe' });

  it('change nothing where no method is stated', () => {
    expect(unknown.found).toBeUndefined();
    expect(unknown.codes).not.toContain('tracker-caught');
  });

  it('a quick hill climber finds nearly all of a string without diodes, and the day takes what it finds', () => {
    expect(climbing.found!.share).toBeGreaterThan(0.95);
    expect(climbing.found!.share).toBeLessThanOrEqual(1);
    expect(climbing.carried / unknown.carried).toBeCloseTo(climbing.found!.share, 2);
  });

  it('a slow one lags behind the light of the turn', () => {
    const slow = day({ [`${path}.tracking`]: 'perturb and observe', [`${path}.tracking period`]: '2 s' });
    expect(slow.found!.share).toBeLessThan(climbing.found!.share);
  });

  it('a fraction of open circuit set too low is on the slope all the time, and said', () => {
    const low = day({
      [`${path}.tracking`]: 'fraction of open circuit',
      [`${path}.open circuit fraction`]: '65 %',
    });
    // Short of the knee the current is nearly constant: about 0.65 / 0.84 of the power.
    expect(low.found!.share).toBeGreaterThan(0.7);
    expect(low.found!.share).toBeLessThan(0.85);
    expect(low.found!.caught).toBeGreaterThan(0.9);
    expect(low.codes).toContain('tracker-caught');
  });
});
