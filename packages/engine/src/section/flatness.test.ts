import { describe, expect, it } from 'vitest';
import { facetDrag, sectionModel } from './estimate.js';
import { cellFlatness, greatestBulge } from './flatness.js';
import { sectionDragCoefficient, sectionDragSpread } from './model.js';
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

describe('flat cells on a curved surface', () => {
  const section = made(nacaSection('3410'));
  const bulge = (width: number) => greatestBulge(section, { from: 0.1, to: 0.8, width });

  it('stand off by the arc over its chord line, the less the narrower they are, and not at all on a plate', () => {
    const camber = 0.05;
    const radius = (0.25 + camber * camber) / (2 * camber);
    const arc = made(arcPlateSection({ thickness: 0.01, camber }));
    expect(greatestBulge(arc, { from: 0.2, to: 0.8, width: 0.3 })).toBeCloseTo(0.09 / (8 * radius), 3);
    expect(bulge(0.1)).toBeLessThan(bulge(0.2));
    expect(bulge(0.2)).toBeLessThan(bulge(0.7));
    expect(greatestBulge(made(flatPlateSection({ thickness: 0.02 })), { from: 0.2, to: 0.8, width: 0.3 })).toBeLessThan(
      1e-9,
    );
    for (const width of [0, Number.NaN]) expect(bulge(width)).toBe(0);
  });

  it.each([
    // Mean logarithm of faceted / smooth drag by the solver, four sections, 1e5 to 3e5, lift 0.3 to 0.9; 0.03: what the formula smooths.
    [0.0015, 0],
    [0.004, 0.06],
    [0.0065, 0.13],
    [0.0115, 0.26],
    [0.029, 0.46],
  ])('cost at a bulge of %d what was computed', (height, mean) => {
    expect(Math.abs(Math.log(facetDrag(height).factor) - mean)).toBeLessThan(0.03);
    expect(facetDrag(height).spread).toBeGreaterThan(0.03);
  });

  it('raise the drag of the section and widen what is known of it', () => {
    const [smooth, faceted] = [undefined, { from: 0.1, to: 0.8, width: 0.35 }].map((flats) =>
      sectionModel(section, flats === undefined ? {} : { flats }),
    );
    const ratio = sectionDragCoefficient(faceted!, 0.6, 2e5) / sectionDragCoefficient(smooth!, 0.6, 2e5);
    expect(ratio).toBeCloseTo(facetDrag(bulge(0.35)).factor, 6);
    expect(sectionDragSpread(faceted!, 0.6, 2e5)).toBeGreaterThan(sectionDragSpread(smooth!, 0.6, 2e5) + 0.02);
  });
});
