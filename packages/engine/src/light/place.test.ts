import { describe, expect, it } from 'vitest';
import { dot, norm, subtract } from '../math/index.js';
import { nacaSection } from '../section/index.js';
import { facet, type LiftingSurface, type Station, trapezoidalWing } from '../shape/index.js';
import { cellOutline, cutCell } from './cell-size.js';
import { polygonArea } from './convex.js';
import { type CellRow, evenSpots, placeCells } from './place.js';
import { bodyAxes, surfaceLength } from './surface-point.js';

const whole = { length: 0.125, width: 0.125, area: 0.0153, bendRadius: 0.3 };
const cell = cutCell(whole, { parts: 1 });
const station = (y: number, xLeadingEdge: number, z: number, chord: number, twist = 0): Station => ({
  y,
  xLeadingEdge,
  z,
  chord,
  twist,
  section: 'naca',
});
const flat = new Map();
const wing = trapezoidalWing({ span: 2.4, aspectRatio: 10, dihedral: 0.07, sweep: 0.1, taper: 0.8 });

function rowOn(surface: LiftingSurface, more: Partial<CellRow> = {}, count = 6, at = 0.5): CellRow {
  const spots = evenSpots({ from: 0.02, to: surfaceLength(surface) - 0.05, count, station: at, length: 0.125 });
  return { name: 'row', surface, side: 'right', face: 'upper', cell, spots, ...more };
}

describe('pieces of a cell', () => {
  it('keeps the lit area in the outline, whole and cut', () => {
    for (const [parts, corners] of [
      [1, 8],
      [2, 6],
      [3, 4],
    ] as const) {
      const outline = cellOutline(cutCell(whole, { parts }));
      expect(outline).toHaveLength(corners);
      const area = polygonArea(outline.flat());
      // Strips from the middle have no cut corners; the mean area of the pieces is kept, the outline is the full strip.
      expect(area).toBeCloseTo(parts === 3 ? 0.125 ** 2 / 3 : 0.0153 / parts, 9);
    }
  });

  it('turns a strip along the chord', () => {
    expect(cutCell(whole, { parts: 5, turned: true })).toMatchObject({ length: 0.025, width: 0.125, share: 0.2 });
    expect(() => cutCell(whole, { parts: 0 })).toThrow(RangeError);
  });
});

describe('cells on the surface', () => {
  it('point as a flat patch of the same surface does', () => {
    const { cells } = placeCells([rowOn(wing), rowOn(wing, { side: 'left' })], flat);
    for (const placed of cells) {
      const made = facet(wing, { fromY: 0.3, toY: 0.5, fromChord: 0.3, toChord: 0.7, slope: 0, side: placed.side });
      expect(made.ok && dot(made.value.normal, placed.normal)).toBeGreaterThan(0.99999);
    }
    expect(cells.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
  });

  it('mirror: the left cell of a pair has the same place and normal with the other sign across', () => {
    const rows = [rowOn(wing), rowOn(wing, { side: 'left' })];
    const { cells } = placeCells(rows, new Map([['section', naca()]]));
    for (let i = 0; i < 6; i++) {
      const [r, l] = [cells[i]!, cells[6 + i]!];
      expect([l.centre[0], -l.centre[1], l.centre[2]]).toEqual([...r.centre].map((value) => expect.closeTo(value, 12)));
      expect([l.normal[0], -l.normal[1], l.normal[2]]).toEqual([...r.normal].map((value) => expect.closeTo(value, 12)));
    }
  });

  it('lie flat about their middle, corners counter-clockwise as seen from outside, on every face', () => {
    for (const side of ['right', 'left'] as const) {
      for (const face of ['upper', 'lower'] as const) {
        const { cells } = placeCells([rowOn(wing, { side, face })], new Map([['section', naca()]]));
        for (const { corners, centre, normal, area } of cells) {
          const n = bodyAxes(normal);
          let twice = 0;
          corners.forEach((corner, i) => {
            const [a, b] = [subtract(corner, centre), subtract(corners[(i + 1) % corners.length]!, centre)];
            expect(dot(a, n)).toBeCloseTo(0, 9);
            twice +=
              (a[1] * b[2] - a[2] * b[1]) * n[0] +
              (a[2] * b[0] - a[0] * b[2]) * n[1] +
              (a[0] * b[1] - a[1] * b[0]) * n[2];
          });
          expect(twice / 2).toBeCloseTo(area, 9);
          expect(norm(normal)).toBeCloseTo(1, 12);
          expect(Math.sign(n[2])).toBe(face === 'upper' ? 1 : -1);
        }
      }
    }
  });

  it('stand on the curve of the section: above the chord, leaning back behind its crest', () => {
    const section = naca();
    const unswept = trapezoidalWing({ span: 2.4, aspectRatio: 10 });
    const { cells } = placeCells([rowOn(unswept, {}, 1, 0.65)], new Map([['section', section]]));
    const [placed] = cells;
    // NACA 2412 at 65 % of the chord: 6.1 % high, falling by about 13 %.
    expect(placed!.centre[2] / 0.24).toBeGreaterThan(0.055);
    expect(placed!.centre[2] / 0.24).toBeLessThan(0.068);
    expect(placed!.normal[0]).toBeLessThan(-0.1);
    expect(placed!.bendRadius).toBeGreaterThan(0.2);
    expect(placed!.flatness).toBeLessThan(1);
    expect(placed!.flatness).toBeGreaterThan(0.98);
  });

  it('both sides of a fin look away from each other', () => {
    const fin: LiftingSurface = {
      name: 'fin',
      kind: 'fin',
      mirrored: false,
      controls: [],
      stations: [station(0, 0, 0, 0.3), station(0, 0.05, 0.4, 0.25)],
    };
    const rows = (['upper', 'lower'] as const).map((face) => rowOn(fin, { face }, 2, 0.5));
    const { cells, findings } = placeCells(rows, flat);
    expect(findings).toEqual([]);
    expect(cells.map(({ normal }) => Math.round(normal[1]))).toEqual([-1, -1, 1, 1]);
  });
});

describe('what does not fit', () => {
  const codes = (row: CellRow, sections = flat) =>
    placeCells([row], sections).findings.map(({ code, where }) => [code, where]);

  it('says nothing about cells that fit', () => {
    expect(codes(rowOn(wing))).toEqual([]);
  });

  it('says that too many cells lie on one another, and that a row passes the tip', () => {
    expect(codes(rowOn(wing, {}, 12))).toEqual([['cells-do-not-fit', 'row']]);
    const spots = evenSpots({ from: 0.9, to: 1, count: 4, station: 0.5, length: 0.125, gap: 0.002 });
    expect(codes(rowOn(wing, { spots }))[0]).toEqual(['cells-do-not-fit', 'row']);
  });

  it('says that a cell reaches over an edge of the chord, and where it would fit', () => {
    const [found] = placeCells([rowOn(wing, {}, 4, 0.1)], flat).findings;
    expect(found!.code).toBe('cells-do-not-fit');
    expect(found!.message).toMatch(/chord station between \d+ % and \d+ % fits/);
  });

  it('says that a cell is bent too far, and where it lies flat enough', () => {
    const small = trapezoidalWing({ span: 1.2, aspectRatio: 6 });
    const row = { ...rowOn(small, { cell: cutCell(whole, { parts: 2 }) }, 2, 0.18) };
    const { findings } = placeCells([row], new Map([['section', naca()]]));
    expect(findings.map(({ code }) => code)).toContain('cells-bent');
    expect(findings.find(({ code }) => code === 'cells-bent')!.message).toMatch(/at \d+ % of the chord|narrower/);
  });

  it('says that cells lie across a break of the dihedral, over a hinge, or on another row', () => {
    const bent: LiftingSurface = {
      ...wing,
      stations: [station(0, 0, 0, 0.25), station(0.6, 0, 0, 0.25), station(1.2, 0, 0.2, 0.25)],
      controls: [{ name: 'aileron', kind: 'aileron', fromY: 0.6, toY: 1.2, chordFraction: 0.3, effectiveness: 0.8 }],
    };
    const across = { ...rowOn(bent), spots: [{ along: 0.62, station: 0.4 }] };
    expect(codes(across)).toEqual([['cells-across-break', 'row']]);
    const hinge = { ...rowOn(bent), spots: [{ along: 0.9, station: 0.65 }] };
    expect(codes(hinge)).toEqual([['cells-over-hinge', 'row']]);
    const rows = [rowOn(bent, {}, 1), { ...rowOn(bent, {}, 1, 0.6), name: 'second' }];
    expect(placeCells(rows, flat).findings.map(({ code, where }) => [code, where])).toContainEqual([
      'cells-overlap',
      'second',
    ]);
  });
});

function naca() {
  const made = nacaSection('2412');
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}
