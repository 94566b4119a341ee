import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Outcome } from '../result.js';
import { sectionModel } from './estimate.js';
import { sectionDragAtLift, sectionDragCoefficient, sectionDragSpread, sectionMaximumLift } from './model.js';
import { arcPlateSection, flatBottomSection, flatPlateSection, steppedPlateSection } from './plates.js';
import type { SectionGeometry } from './types.js';

const have = (outcome: Outcome<SectionGeometry>): SectionGeometry => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

describe('plates', () => {
  it('a square plate is a rectangle without camber', () => {
    const g = have(flatPlateSection({ thickness: 0.04 }));
    expect(g.area).toBeCloseTo(0.04, 4);
    expect(g.maximumThickness).toBeCloseTo(0.04, 9);
    expect(g.maximumCamber).toBe(0);
    expect(g.thinAirfoil.zeroLiftAngle).toBeCloseTo(0, 12);
  });
  it('bevels take their triangles off the area', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.06, noNaN: true }),
        fc.double({ min: 0.01, max: 0.4, noNaN: true }),
        fc.double({ min: 0.01, max: 0.4, noNaN: true }),
        fc.constantFrom('both', 'upper', 'lower'),
        (thickness, front, rear, side) => {
          const g = have(
            flatPlateSection({
              thickness,
              leading: { length: front, side: 'both' },
              trailing: { length: rear, side: side as 'both' },
            }),
          );
          expect(g.area / (thickness * (1 - front / 2 - rear / 2))).toBeCloseTo(1, 3);
        },
      ),
      { numRuns: 30 },
    );
  });
  it('a bevel leaves as much of its edge as it is told', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.06, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom('both', 'upper', 'lower'),
        (thickness, share, side) => {
          const trailing = { length: 0.2, side: side as 'both', edge: share * thickness };
          const g = have(flatPlateSection({ thickness, trailing }));
          expect(g.trailingEdgeThickness).toBeCloseTo(share * thickness, 6);
          expect(g.area / (thickness * (1 - 0.1 * (1 - share)))).toBeCloseTo(1, 3);
        },
      ),
      { numRuns: 30 },
    );
    // More than the plate is thick is a square edge.
    const square = have(flatPlateSection({ thickness: 0.03, trailing: { length: 0.2, side: 'both', edge: 1 } }));
    expect(square.trailingEdgeThickness).toBeCloseTo(0.03, 6);
  });
  it('a trailing edge bevelled on top acts as camber, mirrored below', () => {
    const plate = (side: 'upper' | 'lower') =>
      have(flatPlateSection({ thickness: 0.03, trailing: { length: 0.2, side } })).thinAirfoil.zeroLiftAngle;
    expect(plate('upper')).toBeLessThan(-0.01);
    expect(plate('lower')).toBeCloseTo(-plate('upper'), 12);
  });
  it('a parabolic plate has the thin-airfoil moment', () => {
    const g = have(arcPlateSection({ thickness: 0.02, camber: 0.04, arc: 'parabolic' }));
    expect(g.thinAirfoil.moment).toBeCloseTo(-0.125664, 4);
    expect(g.maximumCamber).toBeCloseTo(0.04, 5);
  });
  it('a flat arc is a circle of great radius: both arcs agree at small camber', () => {
    const [a, b] = (['circular', 'parabolic'] as const).map((arc) =>
      have(arcPlateSection({ thickness: 0.02, camber: 0.005, arc })),
    );
    expect(a.thinAirfoil.zeroLiftAngle).toBeCloseTo(b.thinAirfoil.zeroLiftAngle, 5);
  });
  it('a step costs drag and widens the interval', () => {
    const stepped = sectionModel(have(steppedPlateSection({ front: 0.06, rear: 0.03, step: 0.5 })));
    const plain = sectionModel(have(flatPlateSection({ thickness: 0.06 })));
    expect(sectionDragCoefficient(stepped, 0.3, 1e5)).toBeCloseTo(sectionDragCoefficient(plain, 0.3, 1e5) + 0.006, 5);
    expect(stepped.addedSpread).toBeGreaterThan(plain.addedSpread);
    expect(stepped.zeroLiftAngle).toBeCloseTo(0, 12);
  });
  it('a thin rounded plate may be as bad as a sharp one: its interval reaches the drag without suction', () => {
    const plate = (thickness: number, nose: 'round' | 'sharp') =>
      sectionModel(have(flatPlateSection({ thickness, nose, leading: { length: thickness, side: 'both' } })));
    for (const lift of [0.3, 0.5]) {
      const worst = sectionDragAtLift(plate(0.015, 'round'), lift, 3e5).high;
      expect(worst).toBeGreaterThan(sectionDragCoefficient(plate(0.015, 'sharp'), lift, 3e5));
    }
    const band = (thickness: number) => sectionDragSpread(plate(thickness, 'round'), 0.4, 3e5);
    expect(band(0.015)).toBeGreaterThan(band(0.045));
    // As thick as measured sections: nothing is added.
    expect(band(0.06)).toBeCloseTo(band(0.061), 2);
  });
  it('a blunt trailing edge widens the interval of a plate', () => {
    const square = sectionModel(have(flatPlateSection({ thickness: 0.03 })));
    const bevelled = sectionModel(have(flatPlateSection({ thickness: 0.03, trailing: { length: 0.1, side: 'both' } })));
    expect(square.addedSpread).toBeGreaterThan(0.05);
    expect(bevelled.addedSpread).toBe(0);
  });
  it('a flat bottom is flat', () => {
    const g = have(flatBottomSection(0.11));
    const rear = g.stations.map((x, i) => ({ x, y: g.lower[i] })).filter((p) => p.x > 0.35);
    const slope = rear[0].y / (rear[0].x - 1);
    for (const p of rear) expect(p.y).toBeCloseTo(slope * (p.x - 1), 4);
    expect(g.maximumThickness).toBeCloseTo(0.11, 2);
  });
  it('a plate depends little on Reynolds number, and camber raises its maximum lift', () => {
    const plate = sectionModel(have(flatPlateSection({ thickness: 0.03 })));
    const arc = sectionModel(have(arcPlateSection({ thickness: 0.03, camber: 0.04 })));
    expect(sectionDragCoefficient(plate, 0.5, 6e4) / sectionDragCoefficient(plate, 0.5, 2e5)).toBeLessThan(1.2);
    expect(sectionMaximumLift(arc, 1e5).value).toBeGreaterThan(sectionMaximumLift(plate, 1e5).value + 0.2);
  });
  it.each([
    ['no thickness', flatPlateSection({ thickness: 0 })],
    [
      'bevels longer than the chord',
      flatPlateSection({
        thickness: 0.03,
        leading: { length: 0.7, side: 'both' },
        trailing: { length: 0.7, side: 'both' },
      }),
    ],
    ['camber not a number', arcPlateSection({ thickness: 0.02, camber: Number.NaN })],
    ['rear thicker than front', steppedPlateSection({ front: 0.03, rear: 0.06, step: 0.5 })],
    ['step at the edge', steppedPlateSection({ front: 0.06, rear: 0.03, step: 0.99 })],
    ['flat bottom too thick', flatBottomSection(0.5)],
    ['nose too high', flatBottomSection(0.1, 2)],
  ])('refuses %s', (_, outcome) => {
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.remedy).not.toBe('');
  });
});
