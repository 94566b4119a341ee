import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backContactBreakdown, backContactCell, evenDiodes } from '../array/index.js';
import type { CellLightTrack } from '../light/index.js';
import { filmCover } from '../sun/index.js';
import type { ArrayPlan } from './array-course.js';
import { cellMismatchFactors } from './cell-mismatch.js';

const count = 12;

/** One facet with a string of 12 cells, or several in parallel. */
function planOf(cellsPerDiode: number, parallel = 1): ArrayPlan {
  const cells = Array.from({ length: count }, (_, i) => i);
  const each = count / parallel;
  return {
    facets: [{ normal: [0, 0, -1], area: 0.18, from: 0.08, length: 0.2, laminarFraction: 0.5, rearFraction: 0, cells }],
    cells: cells.map(() => ({}) as never),
    strings: [
      {
        name: 'all',
        cell: { ...backContactCell, breakdown: backContactBreakdown },
        groups: [{ facet: 0, count: each }],
        parallel,
        seriesResistance: 0,
        converter: 0,
        cellsPerDiode,
        diodes: evenDiodes(each, cellsPerDiode),
        members: Array.from({ length: parallel }, (_, k) => cells.slice(k * each, (k + 1) * each)),
      },
    ],
    converters: [],
    incidence: filmCover,
    lightFactor: 1,
  };
}

/** What is kept with these lights on the cells, one heading, one instant; relative to all of them in 1000 W/m2. */
function kept(plan: ArrayPlan, light: readonly number[]) {
  const track = { headingCount: 1, cellCount: count, effective: Float64Array.from(light) } as unknown as CellLightTrack;
  const found = cellMismatchFactors(plan, track, [0], Float64Array.of(1000), Float64Array.of(298.15), {
    instants: 1,
    until: 1,
  });
  return { power: found.power[0]!, voltage: found.voltage[0]! };
}

const bright = (dark: Readonly<Record<number, number>> = {}): number[] =>
  Array.from({ length: count }, (_, i) => dark[i] ?? 1000);

describe('strings whose cells see unequal light', () => {
  it('keep everything in equal light', () => {
    for (const diodes of [0, 4]) {
      const { power, voltage } = kept(planOf(diodes), bright());
      expect(power).toBeCloseTo(1, 9);
      expect(voltage).toBeCloseTo(1, 9);
    }
  });

  it('lose what a crack cuts off: the current of one cell holds the string, and none where the cell is whole', () => {
    const plan = planOf(0);
    const cracked = (lostArea: number): ArrayPlan => ({
      ...plan,
      strings: [{ ...plan.strings[0]!, conditions: new Map([[3, { lostArea }]]) }],
    });
    expect(kept(cracked(0), bright()).power).toBeCloseTo(1, 6);
    const { power } = kept(cracked(0.2), bright());
    // Between the share of the current that is left and all of it: the string climbs up the knee of the weak cell.
    expect(power).toBeGreaterThan(0.8);
    expect(power).toBeLessThan(0.9);
  });

  it('lose the cells of a diode that conducts and its own voltage, no more', () => {
    const { power, voltage } = kept(planOf(4), bright({ 1: 1 }));
    // Eight of twelve cells, less 0.5 V of about 0.58 V a cell: (8 - 0.5 / 0.58) / 12.
    expect(power).toBeGreaterThan(0.58);
    expect(power).toBeLessThan(8 / 12);
    expect(voltage).toBeCloseTo(power, 1);
  });

  it('without diodes follow the dark cell until it breaks down', () => {
    const { power } = kept(planOf(0), bright({ 1: 1 }));
    // Eleven cells drive the dark one into breakdown at about -5 V: some 0.58 x 11 - 5 V of 0.58 x 12 V are left.
    expect(power).toBeLessThan(0.35);
    expect(power).toBeGreaterThan(0.1);
  });

  it('ask the diode of the order of the wiring: two dark cells under one diode cost less than under two', () => {
    const together = kept(planOf(4), bright({ 0: 1, 1: 1 })).power;
    const apart = kept(planOf(4), bright({ 0: 1, 5: 1 })).power;
    expect(together).toBeGreaterThan(1.5 * apart);
  });

  it('in parallel lose a dark cell in one of them only', () => {
    const one = kept(planOf(0), bright({ 0: 500 })).power;
    const two = kept(planOf(0, 2), bright({ 0: 500 })).power;
    expect(two).toBeGreaterThan(one);
    expect(two).toBeGreaterThan(0.7);
  });

  it('never keep more than their cells have, and more light on a cell never makes less', () => {
    const lights = fc.array(fc.double({ min: 5, max: 1000, noNaN: true }), { minLength: count, maxLength: count });
    fc.assert(
      fc.property(lights, fc.constantFrom(0, 3, 4), fc.nat(count - 1), (light, diodes, brighter) => {
        const { power } = kept(planOf(diodes), light);
        const mean = light.reduce((sum, next) => sum + next, 0) / count / 1000;
        expect(power).toBeLessThanOrEqual(Math.min(1, mean * 1.02));
        const more = light.map((next, i) => (i === brighter ? 1000 : next));
        // Cells within 1 % are taken together: that much the answer may waver.
        expect(kept(planOf(diodes), more).power).toBeGreaterThan(power * 0.985);
      }),
      { numRuns: 60 },
    );
  });
});
