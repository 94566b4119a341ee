import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { arrayLosses } from './array-losses.js';
import { cellsOfDay } from './cells-day.js';
import { shadeCourse } from './shade-course.js';

const verdict = test.verdictOf(test.designText('bandeja'), test.planText('bandeja'));
const losses = arrayLosses(verdict, 0)!;
const { cells, casters } = cellsOfDay(verdict, 0)!;

describe('losses of the array over the day', () => {
  it('add up to the light on the open cells, as the cells see it one by one', () => {
    const light = cells.reduce((sum, cell) => sum + cell.light + cell.shade, 0);
    const incidence = losses.rows.find(({ key }) => key === 'incidence')!.energy;
    // What gets in, what shade takes and what is reflected are all the light: the cells know the first two.
    expect((light + incidence) / losses.light).toBeCloseTo(1, 6);
    const sum = losses.rows.reduce((total, { energy }) => total + energy, 0);
    expect(sum / losses.light).toBeCloseTo(1, 12);
  });

  it('end in what is used, charged or not taken', () => {
    const ends = losses.rows.filter(({ key }) => ['used', 'charged', 'curtailed'].includes(key));
    expect(ends.reduce((sum, { energy }) => sum + energy, 0)).toBeCloseTo(losses.offered, 3);
    expect(losses.taken).toBeLessThanOrEqual(losses.offered);
    expect(losses.charged).toBeGreaterThan(0);
  });
});

describe('shade through the day', () => {
  const course = shadeCourse(verdict)!;

  it('takes no more of a cell than the light on it', () => {
    for (const [i, open] of course.open.entries()) {
      const taken = course.casters.reduce((sum, caster) => sum + caster.taken[i]!, 0);
      expect(taken).toBeLessThanOrEqual(open + 1e-6);
    }
  });

  it('names the same parts as the day does', () => {
    expect(course.casters.map(({ name }) => name).sort()).toEqual(casters.map(({ name }) => name).sort());
    expect(course.hours[1]! - course.hours[0]!).toBeCloseTo(course.every / 3600, 9);
  });
});
