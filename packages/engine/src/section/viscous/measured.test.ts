import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { builtOutline } from './asBuilt.js';
import { preparedOutline, solveAtLift } from './covering.js';
import { polarDragAtLift } from './polar.js';
import { type PreparedSection, solveViscous } from './solve.js';
import { sweepPolar } from './sweep.js';

/**
 * Measured sections, nothing fitted: Selig et al., Summary of Low-Speed Airfoil Data, vol. 1 to 3, 1995 to 1998 (data outside the
 * repository), and McGhee, Walker, Millard, NASA TM-4062, 1988. docs/sections.md has every run.
 */
const folder = fileURLToPath(new URL('../../../../../../shared/data/sections/', import.meta.url));
const present = existsSync(folder);
const reason = present ? '' : ' (skipped: ../shared/data/sections is absent)';
const DEGREE = Math.PI / 180;

const rows = (file: string): string[][] =>
  readFileSync(`${folder}${file}`, 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));

const coordinates = (section: string, kind: string) => {
  const points = rows(`${section}_coords.csv`).filter((row) => row[2]!.startsWith(kind));
  return { x: points.map((row) => Number(row[4])), y: points.map((row) => Number(row[5])) };
};

function prepared(section: string, shape: 'designed' | 'built' = 'designed'): PreparedSection {
  const design = coordinates(section, 'design');
  const outline = shape === 'built' ? builtOutline(design, coordinates(section, 'measured')) : design;
  const made = preparedOutline(outline.x, outline.y, 120);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}

function errors(section: string, reynolds: number, state: 'clean' | 'tripped'): readonly number[] {
  const trips: [number, number] = state === 'tripped' ? [0.02, 0.05] : [Number.NaN, Number.NaN];
  const polar = sweepPolar(prepared(section), {
    reynolds,
    critical: 9,
    trips,
    step: DEGREE,
    lowest: -5 * DEGREE,
    highest: 9 * DEGREE,
  });
  return rows(`${section}_drag.csv`)
    .filter((row) => row[2] === state && Math.abs(Number(row[4]) / reynolds - 1) < 0.03)
    .filter((row) => Number(row[8]) >= -0.2 && Number(row[8]) <= 0.9)
    .flatMap((row) => {
      const computed = polarDragAtLift(polar, Number(row[8]));
      return computed === undefined ? [] : [computed / Number(row[9]) - 1];
    });
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

describe.skipIf(!present)(`computed drag against measured sections${reason}`, () => {
  it('SD7037 clean at 200 000: within 10 % in the median, 25 % at worst', () => {
    const amounts = errors('SD7037', 201900, 'clean').map(Math.abs);
    expect(amounts.length).toBeGreaterThan(4);
    expect(median(amounts)).toBeLessThan(0.1);
    expect(Math.max(...amounts)).toBeLessThan(0.25);
  });

  it('SD7037 clean at 100 000: within 20 % in the median', () => {
    expect(median(errors('SD7037', 101400, 'clean').map(Math.abs))).toBeLessThan(0.2);
  });

  it('SD7037: a trip costs drag at 300 000, as measured', () => {
    const section = prepared('SD7037');
    const point = { reynolds: 302200, critical: 9 };
    const clean = solveAtLift(section, 0.5, point);
    const tripped = solveAtLift(section, 0.5, { ...point, trips: [0.02, 0.05] });
    if (!clean.ok || !tripped.ok) throw new Error('not converged');
    expect(tripped.value.drag).toBeGreaterThan(1.1 * clean.value.drag);
  });

  /** Greatest lift computed / measured - 1. */
  const greatestLift = (section: string, reynolds: number, shape: 'designed' | 'built'): number => {
    const input = { reynolds, critical: 9, step: DEGREE, middle: 6 * DEGREE, lowest: 6 * DEGREE };
    const computed = sweepPolar(prepared(section, shape), input).points.map((point) => point.lift);
    const measured = rows(`${section}_lift.csv`)
      .filter((row) => row[2] === 'clean' && Math.abs(Number(row[4]) / reynolds - 1) < 0.05)
      .map((row) => Number(row[8]));
    return Math.max(...computed) / Math.max(...measured) - 1;
  };

  it('greatest lift at 200 000 within 8 % of the models as built; as designed SD7080 is over by more', () => {
    for (const section of ['SD7080', 'E374']) {
      expect(Math.abs(greatestLift(section, 2.02e5, 'built'))).toBeLessThan(0.08);
    }
    expect(greatestLift('SD7080', 2.02e5, 'designed')).toBeGreaterThan(0.08);
  });

  it('A18 tripped at 300 000: with the own drag of the trip within 10 % from a lift of 0.3 on, without it too low', () => {
    const section = prepared('A18', 'built');
    const tripped = rows('A18_drag.csv').filter(
      (row) => row[2] === 'tripped' && Math.abs(Number(row[4]) / 3e5 - 1) < 0.03,
    );
    const middle = (height: number): number => {
      const polar = sweepPolar(section, {
        reynolds: 300494,
        critical: 9,
        trips: [0.02, 0.05],
        tripHeights: [height, height],
        step: DEGREE,
        lowest: -4 * DEGREE,
        highest: 8 * DEGREE,
      });
      const errors = tripped
        .filter((row) => Number(row[8]) > 0.3 && Number(row[8]) < 0.9)
        .map((row) => polarDragAtLift(polar, Number(row[8]))! / Number(row[9]) - 1);
      expect(errors.length).toBeGreaterThan(2);
      return median(errors);
    };
    expect(Math.abs(middle(0.0019))).toBeLessThan(0.1);
    expect(middle(0)).toBeLessThan(-0.1);
  });

  it('Eppler 387 at 200 000 and 5 degrees against TM-4062: reattachment met; lift and separation are known misses', () => {
    const solved = solveViscous(prepared('E387'), { alpha: 5 * DEGREE, reynolds: 2e5, critical: 9 });
    if (!solved.ok) throw new Error(solved.reason);
    const { lift, drag, upper } = solved.value.flow;
    // Measured: lift 0.891, drag 0.0138, separation 0.38, reattachment 0.59 (oil flow).
    expect(Math.abs(upper.reattachment! - 0.59)).toBeLessThan(0.05);
    expect(Math.abs(drag / 0.0138 - 1)).toBeLessThan(0.15);
    // Misses: asked are 3 % of lift and 0.03 of the chord; the turbulent layer behind the bubble is computed too thin.
    expect(lift / 0.891 - 1).toBeGreaterThan(0.03);
    expect(lift / 0.891 - 1).toBeLessThan(0.08);
    expect(upper.separation! - 0.38).toBeGreaterThan(0.03);
    expect(upper.separation! - 0.38).toBeLessThan(0.06);
  });
});
