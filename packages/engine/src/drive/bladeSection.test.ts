import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { smoothGrid } from '../math/smoothGrid.js';
import {
  bladeSectionForces,
  genericBladeSection,
  type TabulatedBladeSection,
  zeroLiftAngleAt,
} from './bladeSection.js';

const degree = Math.PI / 180;
const anyAngle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });
const anyReynolds = fc.double({ min: 1e2, max: 1e7, noNaN: true });

describe('simple blade section', () => {
  test('has its stated lift slope and zero-lift angle at the reference Reynolds number', () => {
    const { zeroLiftAngle, liftSlope, referenceReynolds } = genericBladeSection;
    expect(bladeSectionForces(genericBladeSection, zeroLiftAngle, referenceReynolds).lift).toBeCloseTo(0, 12);
    const lift = bladeSectionForces(genericBladeSection, zeroLiftAngle + 0.1, referenceReynolds).lift;
    expect(lift).toBeCloseTo(0.1 * liftSlope, 12);
  });

  test('loses camber and gains drag at a low Reynolds number', () => {
    const angle = (reynolds: number) => zeroLiftAngleAt(genericBladeSection, reynolds);
    expect(angle(4e4) / angle(3e5)).toBeGreaterThan(0.4);
    expect(angle(4e4) / angle(3e5)).toBeLessThan(0.65);
    const drag = (reynolds: number) => bladeSectionForces(genericBladeSection, 0.03, reynolds).drag;
    expect(drag(2.5e4)).toBeGreaterThan(1.8 * drag(1e5));
  });

  test('is a plate across the stream at 90 degrees', () => {
    const { lift, drag } = bladeSectionForces(genericBladeSection, Math.PI / 2, 1e5);
    expect(Math.abs(lift)).toBeLessThan(0.02);
    expect(drag).toBeGreaterThan(genericBladeSection.plateDrag);
    expect(drag).toBeLessThan(genericBladeSection.plateDrag + 0.1);
  });

  test('is continuous in the angle of attack, stall included', () => {
    fc.assert(
      fc.property(fc.double({ min: -1.5, max: 1.5, noNaN: true }), anyReynolds, (alpha, reynolds) => {
        const a = bladeSectionForces(genericBladeSection, alpha, reynolds);
        const b = bladeSectionForces(genericBladeSection, alpha + 1e-6, reynolds);
        return Math.abs(a.lift - b.lift) < 3e-5 && Math.abs(a.drag - b.drag) < 3e-5;
      }),
    );
  });

  test('never has negative drag or a value that is not finite', () => {
    fc.assert(
      fc.property(anyAngle, anyReynolds, (alpha, reynolds) => {
        const { lift, drag } = bladeSectionForces(genericBladeSection, alpha, reynolds);
        return Number.isFinite(lift) && drag > 0 && Number.isFinite(drag);
      }),
    );
  });
});

describe('tabulated blade section', () => {
  const angleCount = 25;
  const angleStart = -12 * degree;
  const grid = (value: (angle: number) => number) =>
    smoothGrid(
      Float64Array.from({ length: 2 * angleCount }, (_, i) => value(angleStart + (i % angleCount) * degree)),
      angleCount,
    );
  const table: TabulatedBladeSection = {
    ...{ kind: 'table', zeroLiftAngles: new Float64Array(2), liftSlope: 6, angleStart, angleStep: degree },
    ...{ logReynoldsStart: Math.log(5e4), logReynoldsStep: Math.log(4), plateDrag: 1.25 },
    lift: grid((angle) => 6 * angle),
    drag: grid(() => 0.02),
  };

  test('gives back a linear table between its points', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.2, max: 0.2, noNaN: true }), anyReynolds, (alpha, reynolds) => {
        const { lift, drag } = bladeSectionForces(table, alpha, reynolds);
        return Math.abs(lift - 6 * alpha) < 1e-9 && Math.abs(drag - 0.02) < 1e-12;
      }),
    );
  });

  test('continues beyond its angles without a jump and stays finite', () => {
    const edge = angleStart + (angleCount - 1) * degree;
    const inside = bladeSectionForces(table, edge - 1e-9, 1e5);
    const outside = bladeSectionForces(table, edge + 1e-9, 1e5);
    expect(outside.lift).toBeCloseTo(inside.lift, 6);
    expect(outside.drag).toBeCloseTo(inside.drag, 6);
    fc.assert(
      fc.property(anyAngle, (alpha) => {
        const { lift, drag } = bladeSectionForces(table, alpha, 1e5);
        return Number.isFinite(lift) && drag > 0;
      }),
    );
  });
});
