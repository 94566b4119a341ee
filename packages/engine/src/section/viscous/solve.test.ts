import { beforeAll, describe, expect, it } from 'vitest';
import { nacaSection } from '../naca.js';
import { sectionMesh } from './mesh.js';
import type { SectionFlow } from './result.js';
import { type PreparedSection, prepareSection, solveViscous, surfaceLength, type ViscousInput } from './solve.js';

const DEGREE = Math.PI / 180;

function prepared(digits: string): PreparedSection {
  const section = nacaSection(digits);
  if (!section.ok) throw new Error(section.reason);
  const mesh = sectionMesh(section.value.outlineX, section.value.outlineY, 110);
  if (!mesh.ok) throw new Error(mesh.reason);
  const made = prepareSection(mesh.value);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}

function flow(section: PreparedSection, input: Partial<ViscousInput>): SectionFlow {
  const solved = solveViscous(section, { alpha: 0, reynolds: 3e5, critical: 9, ...input });
  if (!solved.ok) throw new Error(solved.reason);
  return solved.value.flow;
}

describe('viscous flow about a section', () => {
  let symmetric: PreparedSection;
  let cambered: PreparedSection;
  beforeAll(() => {
    symmetric = prepared('0010');
    cambered = prepared('3410');
  });

  it('a symmetric section at no incidence has no lift, no moment and two equal sides', () => {
    const at = flow(symmetric, {});
    expect(Math.abs(at.lift)).toBeLessThan(1e-4);
    expect(Math.abs(at.moment)).toBeLessThan(1e-4);
    expect(at.upper.transition).toBeCloseTo(at.lower.transition, 4);
  });

  it('a symmetric section turned upside down has the mirrored flow', () => {
    const up = flow(symmetric, { alpha: 3 * DEGREE });
    const down = flow(symmetric, { alpha: -3 * DEGREE });
    expect(down.lift).toBeCloseTo(-up.lift, 4);
    expect(down.drag).toBeCloseTo(up.drag, 5);
    expect(down.lower.transition).toBeCloseTo(up.upper.transition, 3);
  });

  it('the result does not depend on where the iteration started', () => {
    const near = solveViscous(cambered, { alpha: 3 * DEGREE, reynolds: 3e5, critical: 9 });
    if (!near.ok) throw new Error(near.reason);
    const warm = solveViscous(cambered, { alpha: 4 * DEGREE, reynolds: 3e5, critical: 9 }, near.value.state);
    const cold = flow(cambered, { alpha: 4 * DEGREE });
    if (!warm.ok) throw new Error(warm.reason);
    expect(warm.value.flow.lift).toBeCloseTo(cold.lift, 4);
    expect(warm.value.flow.drag).toBeCloseTo(cold.drag, 5);
    expect(warm.value.flow.iterations).toBeLessThan(cold.iterations + 1);
  });

  it('a trip makes the layer turbulent where it stands and raises the drag where there is no bubble', () => {
    const free = flow(symmetric, { reynolds: 2e6 });
    const tripped = flow(symmetric, { reynolds: 2e6, trips: [0.1, 0.1] });
    expect(tripped.upper.transition).toBeCloseTo(0.1, 2);
    expect(tripped.lower.transition).toBeCloseTo(0.1, 2);
    expect(tripped.drag).toBeGreaterThan(1.2 * free.drag);
  });

  it('drag falls with Reynolds number and with the turbulence that a bubble feeds on', () => {
    expect(flow(cambered, { alpha: 3 * DEGREE, reynolds: 6e5 }).drag).toBeLessThan(
      flow(cambered, { alpha: 3 * DEGREE, reynolds: 1.5e5 }).drag,
    );
    const quiet = flow(cambered, { alpha: 3 * DEGREE, reynolds: 1e5, critical: 11 });
    const rough = flow(cambered, { alpha: 3 * DEGREE, reynolds: 1e5, critical: 5 });
    expect(rough.drag).toBeLessThan(quiet.drag);
    expect(rough.upper.transition).toBeLessThan(quiet.upper.transition);
  });

  it('separates laminar and reattaches turbulent behind transition', () => {
    const { upper } = flow(cambered, { alpha: 3 * DEGREE, reynolds: 1.5e5 });
    expect(upper.separation).toBeDefined();
    expect(upper.separation!).toBeLessThan(upper.transition);
    expect(upper.reattachment!).toBeGreaterThan(upper.transition);
  });

  it('loses lift slope past stall and returns finite numbers', () => {
    let state: Parameters<typeof solveViscous>[2];
    const lifts: number[] = [];
    for (let a = 0; a <= 15; a++) {
      const solved = solveViscous(cambered, { alpha: a * DEGREE, reynolds: 3e5, critical: 9 }, state);
      if (!solved.ok) continue;
      state = solved.value.state;
      lifts.push(solved.value.flow.lift);
      expect(Number.isFinite(solved.value.flow.drag)).toBe(true);
    }
    expect(lifts.length).toBeGreaterThan(12);
    expect(Math.max(...lifts)).toBeLessThan(1.7);
    expect(lifts[lifts.length - 1]! - lifts[lifts.length - 2]!).toBeLessThan(0.06);
  });

  it('friction and pressure drag are both positive and add up', () => {
    const at = flow(symmetric, {});
    expect(at.frictionDrag).toBeGreaterThan(0.5 * at.drag);
    expect(at.frictionDrag).toBeLessThan(at.drag);
  });

  it('says that it has not converged where nothing can', () => {
    const solved = solveViscous(symmetric, { alpha: 60 * DEGREE, reynolds: 3e4, critical: 9 });
    if (solved.ok) expect(Number.isFinite(solved.value.flow.drag)).toBe(true);
    else expect(solved.code).toBe('section.not-converged');
  });

  it('refuses an outline without a shape', () => {
    const mesh = sectionMesh([1, 0, 1], [0, 0, 0]);
    expect(mesh.ok).toBe(false);
  });

  it('finds surface lengths on both sides', () => {
    const { mesh } = symmetric;
    expect(surfaceLength(mesh, 0, 1)).toBeCloseTo(0, 3);
    expect(surfaceLength(mesh, 1, 1)).toBeCloseTo(mesh.s[mesh.count - 1]!, 3);
    expect(surfaceLength(mesh, 0, 0.5)).toBeLessThan(mesh.s[mesh.nose]!);
  });
});
