import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import {
  deviationsAt,
  type Interval,
  noDeviation,
  runSample,
  type Sample,
  type SkyVerdict,
  sampleDeviations,
  uncertainInputs,
  type Verdict,
} from './index.js';

const inputsOf = ({ prepared }: Verdict) => uncertainInputs(prepared.model, prepared.spreads);

/** Figures of which an interval is given. */
const intervalsOf = (verdict: Verdict, sky: SkyVerdict): readonly (readonly [string, Interval])[] =>
  Object.entries({
    levelPower: verdict.levelPower,
    start: sky.start,
    end: sky.end,
    carried: sky.carried,
    endurance: sky.endurance,
    lowestCharge: sky.lowestCharge,
    leftAtDawn: sky.leftAtDawn,
    fullBeforeDusk: sky.fullBeforeDusk,
    bestRatio: sky.bestRatio,
  }).flatMap(([name, interval]) => (interval === undefined ? [] : [[name, interval] as const]));

describe('no uncertainty at all', () => {
  it.each(test.exampleNames)('%s: confidence is 0 or 1 and every interval has no width', (name) => {
    const options = { samples: 12, step: 600, sampleStep: 1200, uncertaintyFactor: 0 };
    const verdict = test.verdictOf(test.designText(name), test.planText(name), options);
    expect(verdict.samples).toBe(12);
    for (const sky of verdict.skies) {
      expect([0, 1]).toContain(sky.confidence);
      expect([0, 1]).toContain(sky.lasts);
      for (const [figure, { value, low, high }] of intervalsOf(verdict, sky)) {
        // The bank of a stated circle is found to 2e-4 rad, the level power with it to 4e-5: seconds of a day.
        const width = Math.max(1e-3, 1e-4 * Math.min(Math.abs(value), 86400));
        expect(high - low, `${sky.run.sky.name}: ${figure} ${low} ${value} ${high}`).toBeLessThan(width);
      }
    }
    for (const { effect } of verdict.contributions) expect(Math.abs(effect)).toBe(0);
  });

  it('a design that just is not carried has confidence 0', () => {
    const weak = test.edited(test.statedDesign, { 'level power': '200 W' });
    const verdict = test.verdictOf(weak, test.midsummer, { ...test.quick, samples: 8, uncertaintyFactor: 0 });
    expect(verdict.skies.map(({ confidence }) => confidence)).toEqual([0, 0, 0]);
  });
});

describe('turbulence of the air', () => {
  const sigma = (word: string): number => {
    const text = test.designText('alondra').replace(/^flight:$/m, `flight:\n  turbulence: ${word}`);
    const found = inputsOf(test.verdictOf(text, test.planText('alondra'), test.quick)).find(
      ({ key }) => key === 'turbulence',
    );
    if (found === undefined) throw new Error('no entry');
    expect(found.label).toContain(word);
    return found.sigma;
  };

  it('has its own entry among what is uncertain, narrower where the air is better known', () => {
    expect(sigma('still indoors')).toBeCloseTo(sigma('outdoors') / 2, 9);
    expect(sigma('outdoors')).toBeGreaterThan(0.03);
    expect(sigma('outdoors')).toBeLessThan(0.1);
  });
});

describe('deviations', () => {
  const inputs = inputsOf(test.verdictOf(test.designText('alondra'), test.planText('alondra')));

  it('are none at the centre', () => {
    expect(deviationsAt(inputs, new Float64Array(inputs.length))).toEqual(noDeviation);
    expect(runSample(test.verdictOf(test.designText('alondra'), test.planText('alondra')), noDeviation)).toBeDefined();
  });

  it.each([128, 1000])(
    '%i samples: factors stay positive, have the stated uncertainty, and none goes with another',
    (count) => {
      const drawn = sampleDeviations(inputs, count);
      const scores = inputs.map(({ key, sigma }) =>
        drawn.map((deviation) => (noDeviation[key] === 1 ? Math.log(deviation[key]) : deviation[key]) / sigma),
      );
      const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / count;
      for (const [k, { key }] of inputs.entries()) {
        if (noDeviation[key] === 1) expect(Math.min(...drawn.map((deviation) => deviation[key]))).toBeGreaterThan(0);
        expect(mean(scores[k]!), key).toBeCloseTo(0, 9);
        for (let j = 0; j <= k; j++) {
          const product = mean(scores[k]!.map((score, i) => score * scores[j]![i]!));
          expect(product, `${key}, ${inputs[j]!.key}`).toBeCloseTo(j === k ? 1 : 0, 9);
        }
      }
    },
  );

  it('a handful of samples is drawn too', () => {
    expect(sampleDeviations(inputs, 3)).toHaveLength(3);
    expect(sampleDeviations(inputs, 0)).toEqual([]);
    expect(sampleDeviations([], 2)).toEqual([noDeviation, noDeviation]);
  });
});

describe('coverage', () => {
  const truths = 500;

  /** Share of simulated truths that lie within an interval. */
  const held = ({ low, high }: Interval, values: readonly (number | undefined)[]): number =>
    values.filter((value) => value !== undefined && value >= low - 1e-9 && value <= high + 1e-9).length / values.length;

  /** Truths drawn by ordinary pseudo-random numbers, which know nothing of the sequence behind the intervals. */
  function simulated(verdict: Verdict): readonly Sample[] {
    const normal = test.normalNumbers(20_260_621);
    const inputs = inputsOf(verdict);
    return Array.from({ length: truths }, () => runSample(verdict, deviationsAt(inputs, inputs.map(normal)))!);
  }

  it.each(['alondra', 'vigilia'] as const)(
    '%s: of 500 truths intervals of nine in ten hold 86 to 94 in 100',
    (name) => {
      // One sky: the others differ by a factor on the light alone.
      const plan = test.edited(test.planText(name), { sky: 'thin' });
      const verdict = test.verdictOf(test.designText(name), plan, { samples: 256, step: 1200, sampleStep: 1200 });
      const drawn = simulated(verdict);
      const [sky] = verdict.skies;
      const figures = drawn.map(({ runs }) => runs[0]!.figures);
      const shares = {
        levelPower: held(
          verdict.levelPower!,
          drawn.map(({ levelPower }) => levelPower),
        ),
        bestRatio: held(
          sky!.bestRatio,
          figures.map(({ bestRatio }) => bestRatio),
        ),
        carried: held(
          sky!.carried,
          figures.map(({ carried }) => carried),
        ),
        endurance: held(
          sky!.endurance,
          figures.map(({ endurance, horizon }) => endurance ?? horizon),
        ),
        start: held(
          sky!.start!,
          figures.map(({ longest }) => longest?.start),
        ),
      };
      for (const [figure, share] of Object.entries(shares)) {
        expect(share, figure).toBeGreaterThanOrEqual(0.86);
        expect(share, figure).toBeLessThanOrEqual(0.94);
      }
    },
  );

  it('lowest charge, where nothing saturates it: through a day on a large battery', () => {
    const design = test.edited(test.statedDesign, { 'battery.layout': '4S8P' });
    const plan = test.edited(test.midsummer, { sky: 'clear', launch: '12:00' });
    const verdict = test.verdictOf(design, plan, { samples: 256, step: 1200, sampleStep: 1200 });
    const [sky] = verdict.skies;
    expect(sky!.lasts).toBe(1);
    const share = held(
      sky!.lowestCharge,
      simulated(verdict).map(({ runs }) => runs[0]!.figures.lowestCharge),
    );
    expect(share).toBeGreaterThanOrEqual(0.86);
    expect(share).toBeLessThanOrEqual(0.94);
  });
});

describe('contributions', () => {
  it('shares sum to one, largest first, each with a sensible sign', () => {
    const { contributions } = test.verdictOf(test.designText('alondra'), test.planText('alondra'));
    expect(contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    const shares = contributions.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    const effect = (key: string) => contributions.find(({ input }) => input.key === key)!.effect;
    for (const worse of ['mass', 'profileDrag', 'inducedDrag', 'parasiteDrag', 'propellerPower', 'loads', 'turbidity'])
      expect(effect(worse), worse).toBeLessThan(0);
    for (const better of ['light', 'cellPower', 'cover', 'converter'])
      expect(effect(better), better).toBeGreaterThan(0);
  });
});

describe('what the day plan is unsure of', () => {
  it('charge at launch spreads the endurance, air temperature the cells', () => {
    const inputs = (changes: Record<string, string>) =>
      inputsOf(test.verdictOf(test.designText('alondra'), test.edited(test.planText('alondra'), changes)));
    const sigma = (changes: Record<string, string>, key: string) =>
      inputs(changes).find((input) => input.key === key)?.sigma;
    expect(sigma({ 'charge at launch': '80 % ± 6 %' }, 'chargeAtLaunch')).toBeCloseTo(0.06, 9);
    expect(sigma({ temperature: '25 degC ± 0 K' }, 'cellTemperature')).toBeCloseTo(5, 9);
    expect(sigma({ temperature: '25 degC ± 12 K' }, 'cellTemperature')).toBeCloseTo(13, 9);
    const evening = test.edited(test.planText('alondra'), { launch: '21:30', sky: 'clear' });
    const width = (charge: string) => {
      const { low, high } = test.verdictOf(
        test.designText('alondra'),
        test.edited(evening, { 'charge at launch': charge }),
        { samples: 32, step: 1200, sampleStep: 1200 },
      ).skies[0]!.endurance;
      return high - low;
    };
    expect(width('80 % ± 15 %')).toBeGreaterThan(1.2 * width('80 % ± 0.1 %'));
  });
});
