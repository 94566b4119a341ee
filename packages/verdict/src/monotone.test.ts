import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages, shareUnchanged, type Verdict, verdict } from './index.js';

/** Verdicts of edited texts on shared stages: what an edit does not touch is not solved again. */
function asker(design: string, plan: string) {
  const stages = createStages();
  const first = test.aircraftOf(design);
  const day = test.planOf(plan);
  return (changes: Record<string, string>, planChanges: Record<string, string> = {}): Verdict =>
    verdict(
      shareUnchanged(first, test.aircraftOf(test.edited(design, changes))),
      Object.keys(planChanges).length === 0 ? day : test.planOf(test.edited(plan, planChanges)),
      {},
      stages,
      { ...test.quick, contributions: false },
    );
}

const alondra = asker(test.designText('alondra'), test.planText('alondra'));
const stated = asker(test.statedDesign, test.midsummer);
const dayIncome = (of: Verdict, sky = 0): number => of.skies[sky]!.run.offered.reduce((sum, watts) => sum + watts, 0);
const runs = { numRuns: 12 };

describe('what must go one way', () => {
  it('more cells never lower the income', () => {
    let before = 0;
    for (const cells of [16, 20, 24, 28, 32]) {
      const income = dayIncome(stated({ 'array.rows.top.cells': String(cells) }));
      expect(income).toBeGreaterThan(before);
      before = income;
    }
  });

  it('more mass never lowers the level power of the same design', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1200, max: 1900 }), fc.integer({ min: 5, max: 300 }), (grams, added) => {
        const power = (mass: number) => alondra({ 'all up mass': `${mass} g` }).levelPower!.value;
        expect(power(grams + added)).toBeGreaterThan(power(grams));
      }),
      runs,
    );
  });

  it('less light never gives more income', () => {
    const { skies } = alondra({});
    const incomes = skies.map((_, i) => dayIncome(alondra({}), i));
    expect(skies.map(({ run }) => run.sky.name)).toEqual(['clear', 'thin cloud', 'broken cloud']);
    expect(incomes).toEqual([...incomes].sort((a, b) => b - a));
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 95 }), fc.integer({ min: 1, max: 20 }), (share, more) => {
        const income = (clearness: number) => dayIncome(stated({}, { clearness: `${clearness} %` }));
        expect(income(share + more)).toBeGreaterThanOrEqual(income(share));
      }),
      runs,
    );
  });

  it('the window widens as loads fall', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 8, noNaN: true }),
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        (watts, more) => {
          const carried = (power: number) =>
            // Computed, not stated: a stated level power has the loads in it.
            alondra({ 'loads.payload': `${power.toFixed(4)} W` }).skies[0]!.run.figures.carried;
          expect(carried(watts + more)).toBeLessThanOrEqual(carried(watts));
        },
      ),
      runs,
    );
  });

  it('endurance rises with the capacity', () => {
    let before = 0;
    for (const parallel of [1, 2, 3, 4]) {
      const { endurance, horizon } = stated({ 'battery.layout': `4S${parallel}P` }).skies[0]!.run.figures;
      expect(endurance ?? horizon).toBeGreaterThan(before);
      before = endurance ?? horizon;
    }
  });

  it('more haze never gives more light, a greater charge at launch never less endurance', () => {
    fc.assert(
      fc.property(fc.double({ min: 1.5, max: 7, noNaN: true }), fc.integer({ min: 20, max: 90 }), (haze, charge) => {
        const income = (turbidity: number) => dayIncome(stated({}, { turbidity: turbidity.toFixed(3) }));
        expect(income(haze + 0.5)).toBeLessThan(income(haze));
        const lasts = (percent: number) => {
          const { endurance, horizon } = stated({}, { 'charge at launch': `${percent} %`, launch: '19:00' }).skies[0]!
            .run.figures;
          return endurance ?? horizon;
        };
        expect(lasts(charge + 5)).toBeGreaterThanOrEqual(lasts(charge));
      }),
      runs,
    );
  });
});

describe('energy', () => {
  it.each(test.exampleNames)('%s: income is need, battery and what was not accepted, at every step flown', (name) => {
    const found = test.verdictOf(test.designText(name), test.planText(name));
    const { times } = found.grid;
    const { pack } = found.prepared.run;
    if (pack.kind !== 'cells') throw new Error('the examples have cells');
    for (const { run } of found.skies) {
      const { course, offered, need } = run;
      const last = course.emptyAt ?? times.at(-1)!;
      let flown = 0;
      for (let i = 0; i < need.length; i++) {
        if (times[i]! < found.prepared.run.launch || times[i + 1]! > last) continue;
        flown++;
        expect(course.income[i]! + course.curtailed[i]!).toBeCloseTo(offered[i]!, 9);
        // What the battery takes at its terminals, in charge: power over voltage, less what is lost on charging.
        const accepted = course.income[i]! - need[i]!;
        const charge =
          pack.cellCapacity * pack.cellsInParallel * (course.stateOfCharge[i + 1]! - course.stateOfCharge[i]!);
        const amps = accepted / course.terminalVoltage[i]!;
        const moved = amps * (times[i + 1]! - times[i]!) * (amps > 0 ? pack.coulombicEfficiency : 1);
        // The voltage changes along a step of twenty minutes: to a few per cent of what moved.
        expect(Math.abs(charge - moved)).toBeLessThan(0.03 * Math.abs(moved) + 1e-4 * pack.cellCapacity);
      }
      expect(flown).toBeGreaterThan(10);
    }
  });

  it('the light that a step error moves stays small: day at 5 and at 20 minutes', () => {
    const { sampleStepError } = test.verdictOf(test.designText('alondra'), test.planText('alondra'), {
      samples: 1,
      step: 300,
      sampleStep: 1200,
    });
    expect(sampleStepError).toBeLessThan(0.003);
  });
});
