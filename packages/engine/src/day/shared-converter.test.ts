import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backContactBreakdown, backContactCell, evenDiodes, parallelCurrentAtVoltage } from '../array/index.js';
import type { CellLightTrack } from '../light/index.js';
import { filmCover } from '../sun/index.js';
import { type ArrayMaxima, type ArrayPlan, type ArrayString, arrayMaxima, incomeAt } from './array-course.js';
import { cellMismatchFactors, litMembers, litStrings } from './cell-mismatch.js';
import { mismatchFactors } from './facet-mismatch.js';
import { hasSharedVoltage } from './shared-converter.js';
import { sourcesOfTurn } from './tracker-turn.js';

const facet = {
  normal: [0, 0, -1] as const,
  area: 0.1,
  from: 0.08,
  length: 0.2,
  laminarFraction: 0.5,
  rearFraction: 0,
};
const cell = { ...backContactCell, breakdown: backContactBreakdown };
const temperature = 310;

/** Strings of so many cells, each on a facet of its own, with the number of its converter and its parallel strings. */
interface Made {
  readonly cells: number;
  readonly converter: number;
  readonly parallel?: number;
  readonly blockingVoltage?: number;
  readonly cellsPerDiode?: number;
}

function planOf(made: readonly Made[]): ArrayPlan {
  let next = 0;
  const strings = made.map(({ cells, converter, parallel = 1, cellsPerDiode = 0, ...rest }, k): ArrayString => {
    const members = Array.from({ length: parallel }, (_, n) =>
      Array.from({ length: cells }, (_, i) => next + n * cells + i),
    );
    next += cells * parallel;
    return {
      name: String(k),
      cell,
      groups: [{ facet: k, count: cells }],
      parallel,
      seriesResistance: 0.05,
      converter,
      cellsPerDiode,
      diodes: evenDiodes(cells, cellsPerDiode),
      members,
      ...rest,
    };
  });
  return {
    facets: strings.map(({ members = [] }) => ({ ...facet, cells: members.flat() })),
    cells: Array.from({ length: next }, () => ({}) as never),
    strings,
    converters: [...new Set(made.map(({ converter }) => converter))].map(() => ({
      topology: 'boost' as const,
      loss: { fixed: 0, perAmpere: 0, resistance: 0 },
      limits: {},
      tracking: { method: 'maximum power' as const, efficiency: 1 },
      standbyPower: 0,
    })),
    incidence: filmCover,
    lightFactor: 0.95,
  };
}

/** What the strings give in light on every cell, index heading x cells + cell; one instant. */
function given(plan: ArrayPlan, effective: readonly number[], headingCount: number): ArrayMaxima {
  const cellCount = plan.cells!.length;
  const light = Float64Array.from(plan.facets, ({ cells = [] }) => {
    let sum = 0;
    for (let h = 0; h < headingCount; h++) for (const c of cells) sum += effective[h * cellCount + c]!;
    return sum / headingCount / cells.length;
  });
  const warm = new Float64Array(plan.facets.length).fill(temperature);
  const track = { headingCount, cellCount, effective: Float64Array.from(effective) } as unknown as CellLightTrack;
  const left = cellMismatchFactors(plan, track, [0], light, warm, { instants: 1, until: 1 });
  return arrayMaxima(plan, light, warm, left);
}

const total = (power: Float64Array): number => power.reduce((sum, one) => sum + one, 0);

/** Halves of a wing that change places in the sun through a turn: cells of the first part and of the rest, by heading. */
const turning = (first: number, rest: number, headings = 6): number[] =>
  Array.from({ length: headings }, (_, h) => {
    const sway = 250 * Math.sin((2 * Math.PI * h) / headings);
    return [...Array.from({ length: first }, () => 700 + sway), ...Array.from({ length: rest }, () => 700 - sway)];
  }).flat();

describe('strings on one converter in the day', () => {
  it('alike in like light give twice one, at its voltage', () => {
    const light = Array.from({ length: 24 }, () => 800);
    const one = given(planOf([{ cells: 12, converter: 0 }]), light.slice(12), 1);
    for (const plan of [
      planOf([
        { cells: 12, converter: 0 },
        { cells: 12, converter: 0 },
      ]),
      planOf([{ cells: 12, converter: 0, parallel: 2 }]),
    ]) {
      const two = given(plan, light, 1);
      expect(total(two.power) / one.power[0]!).toBeCloseTo(2, 6);
      // One alone stands at the best current of its cells less the drop in its leads, two where leads and cells give most
      // together: 0.4 % apart in voltage, and the square of that in power.
      expect(two.voltage[0]! / one.voltage[0]!).toBeCloseTo(1, 2);
      expect(hasSharedVoltage(plan)).toBe(true);
    }
  });

  it('each on its own converter are what they were: nothing is shared', () => {
    const plan = planOf([
      { cells: 12, converter: 0 },
      { cells: 12, converter: 1 },
    ]);
    expect(hasSharedVoltage(plan)).toBe(false);
    const { power, ownPower } = given(plan, turning(12, 12), 6);
    expect(power).toEqual(ownPower);
  });

  it.each([
    ['halves of a wing', { cells: 12 }, { cells: 12 }],
    ['strings of unlike length', { cells: 16 }, { cells: 12 }],
    [
      'strings of unlike length behind blocking diodes',
      { cells: 16, blockingVoltage: 0.4 },
      { cells: 12, blockingVoltage: 0.4 },
    ],
    ['strings with bypass diodes', { cells: 12, cellsPerDiode: 4 }, { cells: 12, cellsPerDiode: 4 }],
  ])('%s: give what the instants of the turn give, each at the best voltage of the summed curves', (_, a, b) => {
    const plan = planOf([
      { ...a, converter: 0 },
      { ...b, converter: 0 },
    ]);
    const headings = 6;
    const light = turning(a.cells, b.cells, headings);
    const maxima = given(plan, light, headings);
    const cells = a.cells + b.cells;
    // Each heading by itself: the curves of both strings summed and scanned over the voltage.
    let scanned = 0;
    for (let h = 0; h < headings; h++) {
      const here = Float64Array.from(light.slice(h * cells, (h + 1) * cells));
      const sets = plan.strings.map((string) =>
        litStrings(
          string,
          litMembers(plan, string, here, () => temperature),
        ),
      );
      let most = 0;
      for (let v = 0.02; v < 12; v += 0.02) {
        most = Math.max(most, v * sets.reduce((sum, set) => sum + parallelCurrentAtVoltage(set, v), 0));
      }
      scanned += most / headings;
    }
    expect(total(maxima.power)).toBeLessThanOrEqual(total(maxima.ownPower) * (1 + 1e-9));
    expect(total(maxima.power) / scanned).toBeGreaterThan(0.9995);
    expect(total(maxima.power) / scanned).toBeLessThan(1.0005);
    // And what the tracker of a turn and the bus are given.
    const track = {
      headingCount: headings,
      cellCount: cells,
      effective: Float64Array.from(light),
    } as unknown as CellLightTrack;
    const sources = sourcesOfTurn(plan, 0, track, 0, () => temperature);
    const mean = sources.reduce((sum, { maximum }) => sum + maximum.power, 0) / headings;
    expect(total(maxima.power) / mean).toBeCloseTo(1, 6);
  });

  it('reach the converter at the one voltage, and what is there is taken or accounted for', () => {
    const plan = planOf([
      { cells: 12, converter: 0 },
      { cells: 12, converter: 0 },
    ]);
    const maxima = given(plan, turning(12, 12), 6);
    expect(maxima.voltage[0]).toBeCloseTo(maxima.voltage[1]!, 9);
    const income = incomeAt(plan, maxima, 0, 14);
    expect(income.available).toBeCloseTo(total(maxima.power), 9);
    expect(income.power + income.tracking + income.conversion + income.unused).toBeCloseTo(income.available, 9);
  });

  it('by facets lose the same where each string lies in one light', () => {
    const plan = planOf([
      { cells: 16, converter: 0 },
      { cells: 12, converter: 0 },
    ]);
    const [light, warm] = [Float64Array.of(800, 600), new Float64Array(2).fill(temperature)];
    const effective = [...Array.from({ length: 16 }, () => 800), ...Array.from({ length: 12 }, () => 600)];
    const byFacet = arrayMaxima(
      plan,
      light,
      warm,
      mismatchFactors(plan, light, light, warm, { headings: 1, stride: 1, until: 1 }),
    );
    const byCell = given(plan, effective, 1);
    expect(total(byFacet.power)).toBeCloseTo(total(byCell.power), 6);
    expect(byFacet.openCircuitVoltage[0]).toBeCloseTo(byFacet.openCircuitVoltage[1]!, 4);
    expect(total(byFacet.power)).toBeLessThan(0.95 * total(byFacet.ownPower));
  });

  it('in any light give no more than each by itself, and no less than the better one behind blocking diodes', () => {
    const lights = fc.array(fc.double({ min: 5, max: 1000, noNaN: true }), { minLength: 10, maxLength: 10 });
    fc.assert(
      fc.property(lights, (light) => {
        const plan = planOf([
          { cells: 5, converter: 0, blockingVoltage: 0 },
          { cells: 5, converter: 0, blockingVoltage: 0 },
        ]);
        const { power, ownPower } = given(plan, light, 1);
        expect(total(power)).toBeLessThanOrEqual(total(ownPower) * (1 + 1e-9));
        expect(total(power)).toBeGreaterThan(Math.max(...ownPower) * 0.998);
      }),
      { numRuns: 40 },
    );
  });
});
