import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nacaSection } from '../index.js';
import { polarDragAtLift, type SectionPolar } from './polar.js';
import { POLAR_SETTINGS, polarKey } from './stored.js';
import { computePolars } from './sweep.js';
import { TRIP_STATIONS, trippedAt, trippedSettings } from './tripped.js';

const made = nacaSection('3410');
if (!made.ok) throw new Error(made.reason);
const geometry = made.value;
const degree = Math.PI / 180;

/** A made-up polar: straight lift from -6 to 10 degrees, even drag. */
const even = (drag: number): SectionPolar => ({
  reynolds: 1e5,
  holes: [],
  points: Array.from({ length: 17 }, (_, k) => {
    const alpha = (k - 6) * degree;
    return { alpha, lift: 6 * (alpha + 3 * degree), drag, moment: 0, upperTransition: 0.5, lowerTransition: 0.9 };
  }),
});
const bare = [even(0.01)];
const tripped = [0.02, 0.018, 0.012].map((drag) => [even(drag)]);
const dragAt = (station: number): number => polarDragAtLift(trippedAt(station, bare, tripped)[0]!, 0.5)!;

describe('trippedAt', () => {
  it('is what was computed at its stations, held ahead of the first, and the bare section tripped at the tail', () => {
    expect(TRIP_STATIONS.map(dragAt)).toEqual([0.02, 0.018, 0.012].map((drag) => expect.closeTo(drag, 9)));
    expect(dragAt(0.01)).toBeCloseTo(0.02, 9);
    expect(dragAt(1)).toBeCloseTo(0.01, 9);
    expect(dragAt(1.2)).toBeCloseTo(0.01, 9);
  });

  it('is straight in the logarithm of drag between them', () => {
    expect(dragAt(0.15)).toBeCloseTo(Math.sqrt(0.02 * 0.018), 9);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (station) => {
        expect(dragAt(station)).toBeGreaterThan(0.01 - 1e-9);
        expect(dragAt(station)).toBeLessThan(0.02 + 1e-9);
      }),
    );
  });

  it('takes the usable one where the other has not converged', () => {
    const broken = [{ ...tripped[0]![0]!, points: [] }];
    const found = trippedAt(0.15, bare, [broken, tripped[1]!, tripped[2]!]);
    expect(polarDragAtLift(found[0]!, 0.5)).toBeCloseTo(0.018, 9);
  });

  it('lies within 2 % of what is computed at a station between', () => {
    const settings = { ...POLAR_SETTINGS, reynolds: [2e5], step: 2 * degree };
    const at = (station: number) => computePolars(geometry, trippedSettings(station, settings));
    const found = trippedAt(0.12, computePolars(geometry, settings), TRIP_STATIONS.map(at));
    const exact = at(0.12);
    // 1.2 % in nine of ten on this section (see TRIP_STATIONS).
    for (const lift of [0.3, 0.6]) {
      const ratio = polarDragAtLift(found[0]!, lift)! / polarDragAtLift(exact[0]!, lift)!;
      expect(Math.abs(ratio - 1)).toBeLessThan(0.02);
    }
  });
});

describe('trippedSettings', () => {
  it('are kept under another key at each station', () => {
    const keys = [POLAR_SETTINGS, ...TRIP_STATIONS.map((station) => trippedSettings(station))].map((settings) =>
      polarKey(geometry, settings),
    );
    expect(new Set(keys).size).toBe(keys.length);
  });
});
