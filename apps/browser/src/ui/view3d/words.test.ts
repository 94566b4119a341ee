import { expect, describe as group, it } from 'vitest';
import type { BalanceView, FacetShape, ShapeView } from '../../core/view.js';
import { fitRings } from './orbit.js';
import { type Box, covers, type Label, placeLabels } from './overlay.js';
import { bearing, compassPoint, type Described, describe, facetName, lightEnds } from './words.js';

const facet = (row: string, side: 'right' | 'left'): FacetShape => ({
  row,
  surface: 'wing',
  side,
  cells: 8,
  centre: [0, 0, 0],
  normal: [0, 0, -1],
  area: 0.12,
});
const shape: ShapeView = {
  surfaces: [],
  bodies: [],
  rows: [],
  facets: [facet('top', 'right'), facet('front left', 'left')],
  masses: [],
  wingArea: 0,
  span: 0,
};
const degree = Math.PI / 180;
const given: Described = {
  name: 'Alondra',
  shape,
  at: 10.5,
  attitude: { heading: 60 * degree, pitch: 0, bank: -8 * degree },
  sun: { elevation: 38 * degree, azimuth: 90 * degree },
  light: [487.2, 508.7],
  balance: { neutralPoint: 0.1, balancePoint: { x: 0.064, y: 0, z: 0 } } as BalanceView,
};

group('the picture in words', () => {
  it('says hour, heading, sun, light and balance', () => {
    expect(describe(given)).toBe(
      'Alondra at 10:30, heading 60° (north-east), banked 8° to the left; the sun stands 38° above the horizon in the east (azimuth 90°). Most light: front left, 509 W/m²; least: top, right, 487 W/m². The balance point (CG) is 36 mm ahead of the neutral point.',
    );
  });

  it('says what is not known yet, and night', () => {
    const { light: _, balance: __, ...early } = given;
    expect(describe(early)).toContain('The light on the cells is being computed.');
    expect(describe({ ...given, light: [1] })).toContain('is being computed');
    expect(describe({ ...given, sun: undefined })).toContain('the place of the sun is not known yet');
    expect(describe({ ...given, sun: { elevation: -0.1, azimuth: 0 } })).toContain('6° below the horizon');
    expect(describe({ ...given, light: [0, 0.2] })).toContain('All cells get 0 W/m²');
    expect(describe({ ...given, shape: { ...shape, facets: [] } })).toContain('No cells.');
    expect(describe({ ...given, light: [Number.NaN, Number.NaN] })).not.toContain('NaN');
  });

  it('says a balance point behind the neutral point', () => {
    const behind = { neutralPoint: 0.1, balancePoint: { x: 0.12, y: 0, z: 0 } } as BalanceView;
    expect(describe({ ...given, balance: behind })).toContain('20 mm behind the neutral point');
  });

  it('names bearings from 0 to 359 and the side of a row once', () => {
    expect(bearing(-Math.PI / 2)).toBe(270);
    expect(bearing(2 * Math.PI)).toBe(0);
    expect(compassPoint(-10 * degree)).toBe('north');
    expect(facetName(facet('front left', 'left'))).toBe('front left');
    expect(facetName(facet('top', 'left'))).toBe('top, left');
  });

  it('finds the ends of the light', () => {
    expect(lightEnds([3, 9, Number.NaN, 1])).toEqual({ most: 1, least: 3 });
    expect(lightEnds([])).toBeUndefined();
  });
});

group('labels', () => {
  const frame: Box = { left: 0, top: 0, width: 400, height: 300 };
  const label = (id: string, more: Partial<Label> = {}): Label => ({
    id,
    text: id,
    sides: ['above', 'below'],
    ...more,
  });
  const size = [60, 16] as const;

  it('take the first side that is free, and give way where none is', () => {
    const at = [200, 150] as const;
    const wanted = [label('a'), label('b'), label('c')].map((each) => ({ label: each, at, size }));
    const placed = placeLabels(wanted, frame);
    expect(placed.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(placed[0]!.box.top).toBeLessThan(150);
    expect(placed[1]!.box.top).toBeGreaterThan(150);
    expect(covers(placed[0]!.box, placed[1]!.box)).toBe(false);
  });

  it('stay inside the picture, unless they are kept', () => {
    const wanted = [
      { label: label('out'), at: [-50, 150] as const, size },
      { label: label('kept', { kept: true }), at: [-50, 200] as const, size },
    ];
    expect(placeLabels(wanted, frame).map(({ id }) => id)).toEqual(['kept']);
  });

  it('never cover a mark', () => {
    const wanted = [
      { label: label('free'), at: [200, 165] as const, size },
      { label: label('mark', { glyph: 'balance', gap: 40 }), at: [200, 150] as const, size },
    ];
    const [free] = placeLabels(wanted, frame);
    expect(covers(free!.box, { left: 194, top: 144, width: 12, height: 12 })).toBe(false);
  });
});

group('fit of the eye', () => {
  const rings = [
    { radius: 2, height: -0.5 },
    { radius: 0.7, height: 1.9 },
  ];
  const slopes = { across: 0.4, upright: 0.25 };

  it('sees every point of the rings, and no more than is needed', () => {
    for (const elevation of [-0.8, 0, 0.42, 1.2, Math.PI / 2 - 1e-3]) {
      const { distance, shift } = fitRings(rings, elevation, slopes);
      const [c, s] = [Math.cos(elevation), Math.sin(elevation)];
      let most = 0;
      for (const { radius, height } of rings) {
        for (let i = 0; i < 36; i++) {
          const [across, away] = [radius * Math.sin((i * Math.PI) / 18), radius * Math.cos((i * Math.PI) / 18)];
          const depth = distance - (height * s + away * c);
          const up = height * c - away * s - shift;
          most = Math.max(most, Math.abs(up) / depth / slopes.upright, Math.abs(across) / depth / slopes.across);
        }
      }
      expect(most).toBeCloseTo(1, 9);
    }
  });
});
