import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionGeometry } from './geometry.js';
import { nacaSection } from './naca.js';
import { leadingEdgeIndex, normaliseOutline } from './outline.js';

const section = (designation: string) => {
  const outcome = nacaSection(designation, { points: 80 });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

/** Outline of a section without the points ahead of a station, its lower points from another. */
function withoutNose(designation: string, upperFrom: number, lowerFrom: number) {
  const { outlineX, outlineY } = section(designation);
  const nose = outlineX.length >> 1;
  const kept = outlineX.map((_, i) => i).filter((i) => outlineX[i] > (i <= nose ? upperFrom : lowerFrom));
  return { x: kept.map((i) => outlineX[i]), y: kept.map((i) => outlineY[i]) };
}

const turned = ({ x, y }: { readonly x: readonly number[]; readonly y: readonly number[] }, angle: number) => ({
  x: x.map((value, i) => value * Math.cos(angle) - y[i] * Math.sin(angle)),
  y: x.map((value, i) => value * Math.sin(angle) + y[i] * Math.cos(angle)),
});

describe('an outline that passes the nose without a point on it', () => {
  // Before, the farthest point stood for the nose and the section was turned about it: half a degree, half a per cent of camber.
  it.each([
    ['4412', 0.002, 0.002],
    ['2412', 0.004, 0.001],
    ['2412', 0.001, 0.004],
    ['6409', 0.0015, 0.003],
    ['0012', 0.01, 0.01],
  ])('keeps its published frame: NACA %s, points from %f above and from %f below', (designation, above, below) => {
    // From its outline, as the other: the mean line of the formula differs from the mean of the ordinates at the nose.
    const { outlineX, outlineY } = section(designation);
    const whole = sectionGeometry({ name: 'whole', x: outlineX, y: outlineY });
    const { x, y } = withoutNose(designation, above, below);
    const g = sectionGeometry({ name: 'gap', x, y });
    expect(g.outlineX[leadingEdgeIndex(g.outlineX, g.outlineY)]).toBe(0);
    expect(g.outlineX.filter((value) => value !== 0)).toEqual(x);
    expect(Math.abs(g.maximumCamber - whole.maximumCamber)).toBeLessThan(5e-4);
    expect(Math.abs(g.maximumThickness - whole.maximumThickness)).toBeLessThan(2e-4);
    // 0.05 degrees.
    expect(Math.abs(g.thinAirfoil.zeroLiftAngle - whole.thinAirfoil.zeroLiftAngle)).toBeLessThan(1e-3);
  });

  it('is set on the longest chord of the whole one in any other frame', () => {
    const { outlineX, outlineY } = section('4412');
    const gap = withoutNose('4412', 0.003, 0.003);
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.4, noNaN: true }), fc.boolean(), (size, isNegative) => {
        const angle = isNegative ? -size : size;
        const whole = sectionGeometry({ name: 'whole', ...turned({ x: outlineX, y: outlineY }, angle) });
        const g = sectionGeometry({ name: 'gap', ...turned(gap, angle) });
        expect(g.outlineX).toHaveLength(gap.x.length + 1);
        expect(Math.abs(g.maximumCamber - whole.maximumCamber)).toBeLessThan(5e-4);
        expect(Math.abs(g.thinAirfoil.zeroLiftAngle - whole.thinAirfoil.zeroLiftAngle)).toBeLessThan(1.5e-3);
      }),
      { numRuns: 40 },
    );
  });

  it('gets no nose where its front is a corner: unequal bevels in another frame', () => {
    const plate = { x: [1, 0.92, 0.01, 0, 0.005, 0.9, 1], y: [0, 0.01, 0.01, 0, -0.003, -0.004, 0] };
    for (const angle of [-0.2, 0.1, 0.3]) {
      const { x } = normaliseOutline(turned(plate, angle).x, turned(plate, angle).y);
      expect(x).toHaveLength(plate.x.length);
      expect(Math.min(...x)).toBeCloseTo(0, 6);
    }
  });
});

describe('an outline with a point on its nose', () => {
  it.each(['0012', '2412', '23012'])('is left alone in its frame, on any chord: NACA %s', (designation) => {
    const { outlineX, outlineY } = section(designation);
    expect(normaliseOutline(outlineX, outlineY)).toEqual({ x: outlineX, y: outlineY });
    const longer = normaliseOutline(
      outlineX.map((value) => 250 * value),
      outlineY.map((value) => 250 * value),
    );
    expect(longer.x).toHaveLength(outlineX.length);
    longer.y.forEach((value, i) => {
      expect(value).toBeCloseTo(outlineY[i], 12);
    });
  });
});

/** Measured sections: Selig et al., Summary of Low-Speed Airfoil Data, vol. 1 to 3, 1995 to 1998. */
const folder = fileURLToPath(new URL('../../../../../shared/data/sections/', import.meta.url));
const isThere = existsSync(folder);
const absent = isThere ? '' : ' (skipped: ../shared/data/sections is absent)';

describe.skipIf(!isThere)(`measured sets of coordinates${absent}`, () => {
  const setOf = (name: string, kind: string) => {
    const lines = readFileSync(`${folder}${name}_coords.csv`, 'utf8').trim().split('\n');
    const points = lines.map((line) => line.split(',')).filter((row) => row[2].startsWith(kind));
    return { name, x: points.map((row) => Number(row[4])), y: points.map((row) => Number(row[5])) };
  };

  it('E387 (C), which has no point on its nose: mean line within 0.1 % of chord of its design from 5 % on', () => {
    // The model was built that well; about its farthest point its camber came out as 3.37 % instead of 3.71 %.
    const [design, measured] = [sectionGeometry(setOf('E387', 'design')), sectionGeometry(setOf('E387', 'measured'))];
    expect(Math.abs(measured.maximumCamber - design.maximumCamber)).toBeLessThan(1e-3);
    measured.camber.forEach((value, i) => {
      if (measured.stations[i] >= 0.05) expect(Math.abs(value - design.camber[i])).toBeLessThan(1e-3);
    });
  });

  it.each(['E387', 'E374', 'A18', 'SD7080'])('%s: design and model keep their frame', (name) => {
    for (const kind of ['design', 'measured']) {
      const set = setOf(name, kind);
      const { x, y } = normaliseOutline(set.x, set.y);
      expect(x.filter((value, i) => value !== 0 || y[i] !== 0)).toEqual(
        set.x.filter((value, i) => value !== 0 || set.y[i] !== 0),
      );
    }
  });
});
