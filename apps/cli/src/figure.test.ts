import { allRelations } from '@noonwing/engine/relations';
import { suggestedUnits } from '@noonwing/quantities';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numbersWithoutUnit, runCli } from './testing/run-cli.js';

const figureJson = async (...argv: readonly string[]) => {
  const { code, out } = await runCli(['figure', ...argv, '--json']);
  expect(code).toBe(0);
  return JSON.parse(out) as Readonly<Record<string, { readonly value: number; readonly unit: string }>>;
};

describe('figure', () => {
  it('gives the light under a clear sky with units', async () => {
    const sky = await figureJson('sky', 'zenith=60deg', 'turbidity=3', 'altitude=0m');
    expect(numbersWithoutUnit(sky)).toEqual([]);
    expect(sky.directNormal!.unit).toBe('W/m2');
    // Air mass at 60 degrees of zenith: 1.9943. Source: F. Kasten, A. T. Young, Applied Optics 28, 1989.
    expect(sky.airMass!.value).toBeCloseTo(1.9943, 4);
  });

  it('takes any unit of the kind: the same angle in radians, the same air', async () => {
    const degrees = await figureJson('sky', 'zenith=60deg', 'turbidity=3', 'altitude=0m');
    const radians = await figureJson('sky', `zenith=${Math.PI / 3}rad`, 'turbidity=3', 'altitude=0 ft');
    expect(radians.globalHorizontal!.value).toBeCloseTo(degrees.globalHorizontal!.value, 8);
  });

  it('shows temperatures in degrees Celsius and angles in degrees', async () => {
    const air = await figureJson('air', 'altitude=0m');
    expect(air.temperature).toEqual({ value: 15, unit: 'degC' });
  });

  it('lists every topic, and inputs, units and outputs of each', async () => {
    const all = await runCli(['figure', '--list']);
    expect(all.code).toBe(0);
    for (const { topic, inputs, outputs } of allRelations) {
      expect(all.out).toContain(topic);
      const one = await runCli(['figure', '--list', topic]);
      expect(one.code).toBe(0);
      for (const { key } of [...inputs, ...outputs]) expect(one.out).toContain(key);
      const data = JSON.parse((await runCli(['figure', '--list', topic, '--json'])).out);
      expect(numbersWithoutUnit(data)).toEqual([]);
    }
  });

  it('names each topic once', () => {
    const topics = allRelations.map(({ topic }) => topic);
    expect(new Set(topics).size).toBe(topics.length);
  });

  it('suggests what was meant and says what is missing', async () => {
    expect((await runCli(['figure', 'skye'])).err).toContain('did you mean "sky"?');
    const misspelt = await runCli(['figure', 'sky', 'zenit=60deg']);
    expect(misspelt.code).toBe(2);
    expect(misspelt.err).toContain('did you mean "zenith"?');
    const missing = await runCli(['figure', 'sky']);
    expect([missing.code, missing.out]).toEqual([2, '']);
    expect(missing.err).toContain('zenith is missing: angle (deg, rad)');
    expect((await runCli(['figure', 'sky', 'zenith=60'])).err).toContain('unit');
    expect((await runCli(['figure', 'sky', 'zenith'])).err).toContain('key=value');
    expect((await runCli(['figure', 'sky', 'zenith=1deg', 'zenith=2deg'])).err).toContain('given twice');
    expect((await runCli(['figure'])).code).toBe(2);
  });

  it('passes on why a relation has no answer, as unusable input', async () => {
    const { code, err } = await runCli(['figure', 'sky', 'zenith=200deg', 'turbidity=3', 'altitude=0m']);
    expect(code).toBe(1);
    expect(err).toMatch(/^sky: /);
  });

  it('never crashes, and never gives a number without unit or one that is not finite', async () => {
    const relation = fc.constantFrom(...allRelations);
    const factor = fc.constantFrom(-1, 0, 1e-3, 0.1, 0.5, 1, 2, 10, 1e3, 1e6);
    await fc.assert(
      fc.asyncProperty(
        relation,
        fc.array(factor, { minLength: 24, maxLength: 24 }),
        async ({ topic, inputs }, factors) => {
          const words = inputs.map((input, i) => {
            if (input.kind === 'choice') return `${input.key}=${input.choices[i % input.choices.length]}`;
            if (input.kind === 'instant') return `${input.key}=2026-06-21T10:00Z`;
            if (input.kind === 'count') return `${input.key}=${Math.round(Math.min(40, Math.abs(factors[i % 24]!)))}`;
            return `${input.key}=${factors[i % 24]}${suggestedUnits(input.kind)[0] ?? ''}`;
          });
          const { code, out, err } = await runCli(['figure', topic, '--json', ...words]);
          expect(code, `${topic} ${words.join(' ')}\n${err}`).not.toBe(3);
          expect(numbersWithoutUnit(JSON.parse(out))).toEqual([]);
        },
      ),
      { numRuns: 150 },
    );
  });
});
