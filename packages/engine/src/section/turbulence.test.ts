import { describe, expect, it } from 'vitest';
import { nacaSection } from './naca.js';
import { TURBULENCE, turbulenceDragSpread } from './turbulence.js';
import { criticalAmplification, preparedOutline, solveAtLift } from './viscous/index.js';

describe('turbulence in words', () => {
  // Source: L. M. Mack, JPL Publication 77-15, 1977. 0.3: the words are round numbers.
  it.each([
    ['still indoors', 0.0003],
    ['calm morning', 0.0005],
    ['outdoors', 0.0007],
    ['gusty or behind a propeller', 0.004],
  ] as const)('%s stands for its intensity', (word, intensity) => {
    expect(Math.abs(TURBULENCE[word].critical - criticalAmplification(intensity))).toBeLessThan(0.3);
  });

  it('the band of the usual case reaches from calm evening to thermal noon', () => {
    const { critical, spread } = TURBULENCE.outdoors;
    expect(critical + spread).toBeCloseTo(criticalAmplification(0.0003), 1);
    expect(critical - spread).toBeCloseTo(criticalAmplification(0.0016), 1);
  });
});

describe('drag by not knowing the turbulence', () => {
  const made = nacaSection('3410');
  if (!made.ok) throw new Error(made.reason);
  const prepared = preparedOutline(made.value.outlineX, made.value.outlineY, 120);
  if (!prepared.ok) throw new Error(prepared.reason);
  const drag = (reynolds: number, critical: number): number => {
    const flow = solveAtLift(prepared.value, 0.6, { reynolds, critical });
    if (!flow.ok) throw new Error(flow.reason);
    return flow.value.drag;
  };

  // Factor 2: the formula is the mean of four sections and several lifts.
  it.each([6e4, 1e5])('is as large as the solver has it at %d', (reynolds) => {
    const each = Math.abs(Math.log(drag(reynolds, 11) / drag(reynolds, 7))) / 4;
    expect(each / turbulenceDragSpread(reynolds, 1)).toBeGreaterThan(0.5);
    expect(each / turbulenceDragSpread(reynolds, 1)).toBeLessThan(2);
  });

  it('grows with the spread, falls with the Reynolds number and is held below the lowest computed', () => {
    expect(turbulenceDragSpread(1e5, 2)).toBeCloseTo(2 * turbulenceDragSpread(1e5, 1), 12);
    expect(turbulenceDragSpread(3e5, 1)).toBeLessThan(turbulenceDragSpread(1e5, 1));
    expect(turbulenceDragSpread(1, 1)).toBe(turbulenceDragSpread(6e4, 1));
    expect(turbulenceDragSpread(1e5, 0)).toBe(0);
  });
});
