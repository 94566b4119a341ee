import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { DayRequest } from './answer.js';
import { createComputer } from './compute.js';
import { daylightOf } from './day-result.js';

const textOf = (file: string) => readFileSync(new URL(`../../../examples/${file}`, import.meta.url), 'utf8');
const request = (changes: Partial<DayRequest> = {}): DayRequest => ({
  design: textOf('alondra.yaml'),
  plan: textOf('alondra.day.yaml'),
  edits: [],
  samples: 0,
  ...changes,
});

describe('answers', () => {
  const computer = createComputer(() => 0);
  const first = computer.answer(request());

  it('give the day under every sky, by the clock of the place', () => {
    const { result } = first;
    expect(result?.aircraft).toBe('Alondra');
    expect(result?.clock).toBe('UTC+02:00');
    expect(result?.launch).toBeCloseTo(8.5, 9);
    expect(result?.skies.map(({ name }) => name)).toEqual(['clear', 'thin cloud', 'broken cloud']);
    expect(first.stagesRun).toContain('wing');
  });

  it('have a ledger whose rows add up to the light', () => {
    const ledger = first.result!.ledger!;
    const sum = ledger.rows.filter(({ isPart }) => !isPart).reduce((total, { watts }) => total + watts, 0);
    expect(sum).toBeCloseTo(ledger.light, 9);
  });

  it('solve no wing again when the battery moves', () => {
    const moved = request().design.replace(/(\nbattery:[\s\S]*?\n {2}x: )-?\d+ mm/, '$1-12 mm');
    expect(moved).not.toBe(request().design);
    const { stagesRun, result } = computer.answer(request({ design: moved }));
    expect(stagesRun).toContain('balance');
    expect(stagesRun).not.toContain('wing');
    expect(result!.facts).not.toEqual(first.result!.facts);
  });

  it('follow the fields and keep the comments of the plan', () => {
    const { planText, result } = computer.answer(
      request({
        edits: [
          { path: ['date'], value: '2026-12-21' },
          { path: ['time zone'], value: '' },
          { path: ['charge at launch'], value: '80 %' },
        ],
      }),
    );
    expect(result?.date).toBe('2026-12-21');
    expect(planText).toContain('# sea breeze');
    expect(planText).not.toContain('Madrid');
    expect(result?.assumptions.some(({ path, file }) => path === 'time zone' && file === 'day')).toBe(true);
    expect(result?.skies[0]?.charge[0]).toBeCloseTo(0.8, 2);
  });

  it('report the share of the samples done', () => {
    const shares: number[] = [];
    const { result } = computer.answer(request({ samples: 4 }), (share) => shares.push(share));
    expect(shares).toEqual([0.25, 0.5, 0.75, 1]);
    expect(result?.samples).toBe(4);
  });

  it('tell which change would help most, as text that can be used', () => {
    const { levers: found, result } = computer.answer(request({ levers: true }));
    expect(result).toBeUndefined();
    const best = found!.levers[0]!;
    expect(best.payoff!.solarRatio).toBeGreaterThan(0);
    const base = computer.answer(request()).result!.skies[0]!;
    const after = computer.answer(request({ design: best.text! })).result!.skies[0]!;
    expect(after.carried.value - base.carried.value).toBeCloseTo(best.payoff!.carried, 9);
  });

  it('say by line what is wrong with a broken file', () => {
    const broken = request().design.replace('chord: 230 mm, dihedral: 2 deg', 'chord: -230 mm, dihedral: 2 deg');
    const { design, result } = computer.answer(request({ design: broken }));
    expect(result).toBeUndefined();
    expect(design[0]).toMatchObject({
      severity: 'error',
      line: broken.split('\n').findIndex((line) => line.includes('-230')) + 1,
    });
    expect(computer.answer(request({ design: '' })).design[0]?.text).toContain('an empty file');
  });

  it('carry no number that is none', () => {
    const numbers = (value: unknown): readonly number[] =>
      typeof value === 'number'
        ? [value]
        : typeof value === 'object' && value !== null
          ? Object.values(value).flatMap(numbers)
          : [];
    for (const date of ['2026-06-21', '2026-12-21']) {
      const { result } = computer.answer(
        request({
          edits: [
            { path: ['date'], value: date },
            { path: ['place', 'at'], value: '78 N 15 E' },
          ],
        }),
      );
      expect(numbers(result).every(Number.isFinite)).toBe(true);
    }
  });
});

describe('daylight', () => {
  it('is found in stretches, at the ends of the days too', () => {
    const times = Float64Array.from([0, 1, 2, 3, 4, 5]);
    expect(daylightOf(times, Float64Array.from([1, -1, 1, 1, -1]))).toEqual([
      { start: 0, end: 1 },
      { start: 2, end: 4 },
    ]);
    expect(daylightOf(times, new Float64Array(5).fill(1))).toEqual([{ start: 0, end: 5 }]);
    expect(daylightOf(times, new Float64Array(5).fill(-1))).toEqual([]);
  });
});
