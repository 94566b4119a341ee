import { beforeAll, describe, expect, it } from 'vitest';
import { sectionModel } from '../estimate.js';
import { sectionDragAtAngle, sectionDragCoefficient, sectionLift, sectionMaximumLift } from '../model.js';
import { nacaSection } from '../naca.js';
import type { SectionGeometry, SectionPolarTable } from '../types.js';
import { sectionMesh } from './mesh.js';
import { polarDragAtLift, polarTable, risingBranch, type SectionPolar } from './polar.js';
import { prepareSection } from './solve.js';
import { sweepPolar } from './sweep.js';

const DEGREE = Math.PI / 180;

describe('polars', () => {
  let geometry: SectionGeometry;
  let polars: readonly SectionPolar[];
  let table: SectionPolarTable;
  beforeAll(() => {
    const made = nacaSection('2410');
    if (!made.ok) throw new Error(made.reason);
    geometry = made.value;
    const mesh = sectionMesh(geometry.outlineX, geometry.outlineY, 90);
    if (!mesh.ok) throw new Error(mesh.reason);
    const prepared = prepareSection(mesh.value);
    if (!prepared.ok) throw new Error(prepared.reason);
    polars = [2e5, 4e5].map((reynolds) => sweepPolar(prepared.value, { reynolds, critical: 9, step: 1 * DEGREE }));
    table = polarTable(sectionModel(geometry), polars);
  });

  it('reaches from below zero lift to past maximum lift, in order', () => {
    for (const polar of polars) {
      const angles = polar.points.map((point) => point.alpha);
      expect(angles).toEqual([...angles].sort((a, b) => a - b));
      const branch = risingBranch(polar);
      expect(branch[0]!.lift).toBeLessThan(-0.1);
      expect(branch[branch.length - 1]!.lift).toBeGreaterThan(0.9);
    }
  });

  it('the table gives back the polar at its own Reynolds number', () => {
    const polar = polars[1]!;
    for (const lift of [0.1, 0.4, 0.7]) {
      expect(sectionDragCoefficient(table, lift, polar.reynolds) / polarDragAtLift(polar, lift)!).toBeCloseTo(1, 2);
    }
    const point = polar.points.find(({ alpha }) => Math.abs(alpha - 4 * DEGREE) < 1e-6)!;
    expect(sectionLift(table, point.alpha, polar.reynolds)).toBeCloseTo(point.lift, 2);
  });

  it('is finite over the whole circle and all lifts, and falls into the law of separated flow', () => {
    for (let degrees = -180; degrees <= 180; degrees += 3) {
      expect(Number.isFinite(sectionLift(table, degrees * DEGREE, 3e5))).toBe(true);
      expect(sectionDragAtAngle(table, degrees * DEGREE, 3e5)).toBeGreaterThan(0);
    }
    expect(sectionLift(table, 60 * DEGREE, 3e5)).toBeCloseTo(sectionLift(sectionModel(geometry), 60 * DEGREE, 3e5), 2);
    expect(sectionMaximumLift(table, 3e5).value).toBeGreaterThan(0.9);
  });

  it('outside the branch there is no drag', () => {
    expect(polarDragAtLift(polars[0]!, 3)).toBeUndefined();
    expect(polarDragAtLift(polars[0]!, -3)).toBeUndefined();
  });

  it('cells on the estimate raise the drag of the table by the same factor', () => {
    const covered = polarTable(sectionModel(geometry, { cells: { from: 0.1, to: 0.9 } }), polars);
    expect(sectionDragCoefficient(covered, 0.5, 3e5) / sectionDragCoefficient(table, 0.5, 3e5)).toBeCloseTo(1.075, 6);
  });

  it('refuses to make a table of one polar', () => {
    expect(() => polarTable(sectionModel(geometry), polars.slice(0, 1))).toThrow(RangeError);
  });
});
