import { describe, expect, it } from 'vitest';
import { cellFlatness } from './flatness.js';
import { nacaSection } from './naca.js';
import { arcPlateSection, flatPlateSection } from './plates.js';

const made = <T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

describe('cellFlatness', () => {
  it('gives the height of the arc over its chord line on a circular arc: width squared / (8 radius)', () => {
    const camber = 0.05;
    const radius = (0.25 + camber * camber) / (2 * camber);
    const found = cellFlatness(made(arcPlateSection({ thickness: 0.01, camber })), 0.3);
    expect(found?.flattest.bulge).toBeCloseTo(0.09 / (8 * radius), 3);
  });

  it('finds nothing to bridge on a flat plate, and more towards a round nose', () => {
    const plate = cellFlatness(made(flatPlateSection({ thickness: 0.02 })), 0.4);
    expect(Math.abs(plate!.flattest.bulge)).toBeLessThan(1e-9);
    const round = cellFlatness(made(nacaSection('3410')), 0.25);
    expect(round!.roundest.from).toBeLessThan(0.1);
    expect(round!.flattest.from).toBeGreaterThan(0.4);
    expect(round!.roundest.bulge).toBeGreaterThan(2 * round!.flattest.bulge);
  });

  it('has no answer for a cell that does not lie on the chord', () => {
    const section = made(nacaSection('3410'));
    for (const width of [0, -1, 0.95, Number.NaN]) expect(cellFlatness(section, width)).toBeUndefined();
  });
});
