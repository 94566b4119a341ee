import { completeDesign, completePlan, readDayPlan, readDesign } from '@noonwing/design';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { balanceReport, createStages, dayLedger, stringReports, verdict } from './index.js';
import { powerReport } from './power-report.js';

/** A number somewhere in a text times a factor; a line left out; two lines exchanged. */
type Damage = { readonly kind: 'scale' | 'drop' | 'swap'; readonly at: number; readonly factor: number };

const damage: fc.Arbitrary<Damage> = fc.record({
  kind: fc.constantFrom('scale', 'scale', 'scale', 'drop', 'swap'),
  at: fc.nat(10_000),
  factor: fc.constantFrom(0, 1e-3, 0.1, 0.5, 0.9, 1.1, 2, 5, 10, 100, -1),
});

function damaged(text: string, { kind, at, factor }: Damage): string {
  const lines = text.split('\n');
  if (kind === 'drop') return lines.toSpliced(at % lines.length, 1).join('\n');
  if (kind === 'swap') {
    const i = at % (lines.length - 1);
    return lines.toSpliced(i, 2, lines[i + 1]!, lines[i]!).join('\n');
  }
  const numbers = [...text.matchAll(/-?\d+(?:\.\d+)?(?= ?(?:mm|g|W|%|deg|m|Ah|mohm|A|V|cm2|kg|rpm|,|}|$))/gm)];
  const hit = numbers[at % numbers.length]!;
  const value = Number((Number(hit[0]) * factor).toPrecision(6));
  return `${text.slice(0, hit.index)}${value}${text.slice(hit.index + hit[0].length)}`;
}

/** Everything that a program would ask of a damaged pair of files. */
function everything(design: string, plan: string): readonly string[] | undefined {
  const read = readDesign(design);
  const day = readDayPlan(plan);
  if (!read.ok || read.design === undefined || !day.ok || day.plan === undefined) return undefined;
  const complete = completePlan(day.plan).plan;
  // A fortnight of one aircraft tells no more than two days.
  const short = { ...complete, days: Math.min(2, complete.days) };
  const options = { samples: 2, step: 2400, sampleStep: 2400 };
  const found = verdict(completeDesign(read.design).aircraft, short, {}, createStages(), options);
  const { model, conditions } = found.prepared;
  const reports = {
    found,
    ledger: found.skies.map((_, i) => dayLedger(found, i)),
    strings: stringReports(model, { coldest: 270, hottest: 310 }),
    balance: balanceReport(model, conditions.air, found.flight),
    power: powerReport(found.prepared, found.flight?.bank ?? 0, 3),
  };
  if (found.flight === undefined && found.problems.length === 0) throw new Error('no flight, and no reason given');
  return test.unreal(reports);
}

describe('damaged files', () => {
  it.each([
    ['alondra', 30],
    ['bandeja', 30],
    ['vigilia', 24],
  ] as const)('%s: never throws, never gives NaN', (name, numRuns) => {
    let computed = 0;
    fc.assert(
      fc.property(
        fc.array(damage, { minLength: 1, maxLength: 3 }),
        fc.array(damage, { maxLength: 1 }),
        (inDesign, inPlan) => {
          const unreal = everything(
            inDesign.reduce(damaged, test.designText(name)),
            inPlan.reduce(damaged, test.planText(name)),
          );
          if (unreal === undefined) return;
          computed++;
          expect(unreal).toEqual([]);
        },
      ),
      { numRuns },
    );
    // A fuzz whose files are all refused would prove nothing.
    expect(computed).toBeGreaterThan(numRuns / 6);
  });
});
