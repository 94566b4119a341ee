import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { aimedStaticMargin } from './index.js';

const design = test.designText('bandeja');
const plan = test.planText('bandeja');
const back = test.edited(design, { 'battery.x': '100 mm' });

describe('Bandeja with its battery moved back', () => {
  const verdict = test.verdictOf(back, plan);
  const failure = verdict.problems.find(({ code }) =>
    ['unstable', 'cannot-trim', 'trim'].some((word) => code.includes(word)),
  );

  it('fails to trim or is unstable, and says so', () => {
    expect(test.verdictOf(design, plan).problems).toEqual([]);
    expect(failure).toBeDefined();
    expect(verdict.balance!.staticMargin).toBeLessThan(0);
  });

  it('names grams, and ballast of that weight there cures it', () => {
    const grams = /(\d+(?:\.\d+)?) g\b/.exec(failure!.remedy)?.[1];
    const place = /(-?\d+(?:\.\d+)?) mm/g;
    expect(grams, failure!.remedy).toBeDefined();
    const stations = [...failure!.remedy.matchAll(place)].map((match) => match[1]!);
    expect(stations.length, failure!.remedy).toBeGreaterThan(0);
    const cured = test.edited(back, {
      'masses.cure.mass': `${grams} g weighed`,
      'masses.cure.x': `${stations.at(-1)} mm`,
      'masses.cure.ballast': 'yes',
    });
    const after = test.verdictOf(cured, plan);
    expect(after.balance!.staticMargin).toBeGreaterThan(0);
    expect(after.problems.map(({ reason }) => reason)).toEqual([]);
    expect(after.prepared.model.balance!.mass).toBeCloseTo(
      verdict.prepared.model.balance!.mass + Number(grams) / 1000,
      6,
    );
  });

  it('the battery, with the ballast asked for beside it, where the report puts it gives the margin aimed for', () => {
    const { x, ballast } = verdict.balance!.battery!.placement!;
    const cured = test.verdictOf(
      test.edited(back, {
        'battery.x': `${1000 * x} mm`,
        ...(ballast === undefined
          ? {}
          : {
              'masses.cure.mass': `${1000 * ballast.mass} g weighed`,
              'masses.cure.x': `${1000 * ballast.x} mm`,
              'masses.cure.ballast': 'yes',
            }),
      }),
      plan,
    );
    expect(cured.problems).toEqual([]);
    // The neutral point moves a little with the trim: the margin is met to a fraction of a per cent of the chord.
    expect(cured.balance!.staticMargin).toBeCloseTo(aimedStaticMargin, 2);
  });
});

describe('static margin', () => {
  it.each(test.exampleNames)('%s: falls as the battery moves aft', (name) => {
    const margins = [-20, 0, 20, 40].map((shift) => {
      const { battery } = test.aircraftOf(test.designText(name));
      const x = `${1000 * battery!.x.value + shift} mm`;
      return test.verdictOf(test.edited(test.designText(name), { 'battery.x': x }), test.planText(name)).balance!;
    });
    for (const [i, report] of margins.slice(1).entries()) {
      expect(report.staticMargin).toBeLessThan(margins[i]!.staticMargin);
      // Moment equilibrium: dx = m_battery dx_battery / m.
      const { battery } = test.aircraftOf(test.designText(name));
      expect(report.sum.x - margins[i]!.sum.x).toBeCloseTo((0.02 * battery!.mass.value) / report.sum.mass, 6);
    }
  });
});
