import { describe, expect, it } from 'vitest';
import { sectionModel } from '../estimate.js';
import {
  sectionDragCoefficient,
  sectionDragSpread,
  sectionLift,
  sectionMaximumLiftCoefficient,
  sectionMaximumLiftSpread,
} from '../model.js';
import { flatPlateSection } from '../plates.js';
import { measuredRuns } from './measuredPolar.js';
import { measuredTable } from './measuredTable.js';

const made = flatPlateSection({ thickness: 0.019, nose: 'round' });
if (!made.ok) throw new Error(made.reason);
const bare = sectionModel(made.value);
const cells = sectionModel(made.value, { cells: { from: 0.1, to: 0.9 } });

/** A plate with a third more drag and 0.05 more lift than estimated, at 140 000. */
const points = [-2, 0, 2, 4, 5].map((degrees) => {
  const incidence = (degrees * Math.PI) / 180;
  const lift = sectionLift(bare, incidence, 1.4e5) + 0.05;
  return { reynolds: 1.4e5, incidence, lift, drag: 1.33 * sectionDragCoefficient(bare, lift - 0.05, 1.4e5) };
});
const table = measuredTable(bare, bare, measuredRuns(points));

describe('measured points over the first estimate of a plate', () => {
  it('stand where they were measured', () => {
    for (const { incidence, lift, drag } of points.slice(1, 4)) {
      expect(Math.abs(sectionLift(table, incidence, 1.4e5) - lift)).toBeLessThan(0.01);
      // 3 %: the rows nearest to the run lie 20 % from it in Reynolds number, where the difference begins to die out.
      expect(Math.abs(sectionDragCoefficient(table, lift, 1.4e5) / drag - 1)).toBeLessThan(0.05);
    }
  });

  it('leave the estimate a factor of two away and far from the measured lifts', () => {
    for (const reynolds of [3e4, 6e5])
      expect(sectionDragCoefficient(table, 0.2, reynolds) / sectionDragCoefficient(bare, 0.2, reynolds)).toBeCloseTo(
        1,
        1,
      );
    expect(Math.abs(sectionLift(table, 1.2, 1.4e5) - sectionLift(bare, 1.2, 1.4e5))).toBeLessThan(0.05);
    expect(sectionMaximumLiftCoefficient(table, 6e5)).toBeCloseTo(sectionMaximumLiftCoefficient(bare, 6e5), 1);
  });

  it('narrow the spread of drag where they are, and only there', () => {
    expect(sectionDragSpread(table, 0.2, 1.4e5)).toBeLessThan(0.6 * sectionDragSpread(bare, 0.2, 1.4e5));
    // Rows of the table lie 40 % apart in Reynolds number: 2 % of the spread.
    expect(sectionDragSpread(table, 0.2, 6e5) / sectionDragSpread(bare, 0.2, 6e5)).toBeCloseTo(1, 1);
    expect(sectionDragSpread(table, -0.6, 1.4e5)).toBeCloseTo(sectionDragSpread(bare, -0.6, 1.4e5), 2);
    expect(sectionMaximumLiftSpread(table, 1.4e5)).toBeCloseTo(sectionMaximumLiftSpread(bare, 1.4e5), 6);
  });

  it('have what cells cost laid on them', () => {
    const covered = measuredTable(bare, cells, measuredRuns(points));
    const ratio = sectionDragCoefficient(covered, 0.2, 1.4e5) / sectionDragCoefficient(table, 0.2, 1.4e5);
    expect(ratio).toBeCloseTo(cells.dragFactor, 3);
  });

  it('of lift alone leave drag and its spread', () => {
    const lifts = measuredTable(bare, bare, measuredRuns(points.map(({ drag: _, ...rest }) => rest)));
    expect(sectionDragSpread(lifts, 0.2, 1.4e5)).toBeCloseTo(sectionDragSpread(bare, 0.2, 1.4e5), 2);
  });
});
