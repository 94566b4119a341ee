import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  FLAP_EFFICIENCY,
  flapEffect,
  flapEfficiency,
  flapGapLoss,
  flapReynoldsLoss,
  glauertFlap,
  LAYER_AHEAD,
} from './flap.js';
import { laminarPlateFriction, mixedPlateFriction, turbulentPlateFriction } from './friction.js';
import { cosineStations } from './geometry.js';
import { thinAirfoil } from './thinAirfoil.js';

describe('thinAirfoil', () => {
  const stations = cosineStations(300);
  const parabola = (h: number) =>
    thinAirfoil(
      stations,
      stations.map((x) => 4 * h * x * (1 - x)),
    );
  it('parabola: zero lift at -2h, moment -pi h, ideal angle 0', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.1, max: 0.1, noNaN: true }), (h) => {
        const t = parabola(h);
        expect(t.zeroLiftAngle).toBeCloseTo(-2 * h, 4);
        expect(t.moment).toBeCloseTo(-Math.PI * h, 4);
        expect(t.idealAngle).toBeCloseTo(0, 9);
        expect(t.idealLift).toBeCloseTo(4 * Math.PI * h, 3);
      }),
    );
  });
  it('a straight inclined line only turns the section', () => {
    const t = thinAirfoil(
      stations,
      stations.map((x) => -0.05 * x),
    );
    expect(t.zeroLiftAngle).toBeCloseTo(-0.05, 12);
    expect(t.moment).toBeCloseTo(0, 12);
  });
  it('is linear in the mean line', () => {
    const line = (a: number, b: number) => stations.map((x) => a * x * (1 - x) + b * x * x * (1 - x));
    const [p, q, sum] = [line(0.1, 0), line(0, -0.2), line(0.1, -0.2)].map((y) => thinAirfoil(stations, y));
    expect(sum.zeroLiftAngle).toBeCloseTo(p.zeroLiftAngle + q.zeroLiftAngle, 12);
    expect(sum.moment).toBeCloseTo(p.moment + q.moment, 12);
  });
  it('a bent line is a flap: Glauert', () => {
    const hinge = 0.75;
    const grid = [...stations, hinge].sort((a, b) => a - b);
    const t = thinAirfoil(
      grid,
      grid.map((x) => (x > hinge ? -0.1 * (x - hinge) : 0)),
    );
    const flap = glauertFlap(0.25);
    expect(t.zeroLiftAngle / 0.1).toBeCloseTo(-flap.effectiveness, 3);
    expect(t.moment / 0.1).toBeCloseTo(flap.moment, 3);
  });
});

describe('flaps', () => {
  it.each([
    [0.1, 0.39582, -0.54],
    [0.15, 0.4805, -0.60702],
    [0.2, 0.54982, -0.64],
    [0.3, 0.66075, -0.64156],
    [0.5, 0.81831, -0.5],
  ])('Glauert at %f of chord', (fraction, effectiveness, moment) => {
    expect(glauertFlap(fraction).effectiveness).toBeCloseTo(effectiveness, 5);
    expect(glauertFlap(fraction).moment).toBeCloseTo(moment, 5);
  });
  it('no flap does nothing; a flap of the whole chord is incidence', () => {
    expect(glauertFlap(0).effectiveness).toBeCloseTo(0, 12);
    expect(glauertFlap(1).effectiveness).toBeCloseTo(1, 12);
    expect(glauertFlap(1).moment).toBeCloseTo(0, 12);
  });
  it('a real flap does less, and less still far down', () => {
    const small = flapEffect(0.25);
    expect(small.zeroLiftShift).toBeCloseTo(-FLAP_EFFICIENCY * 0.609, 4);
    fc.assert(
      fc.property(fc.double({ min: 0.27, max: 1, noNaN: true }), (deflection) => {
        const large = flapEffect(0.25, deflection);
        expect(large.zeroLiftShift).toBeGreaterThan(small.zeroLiftShift);
        expect(large.zeroLiftShift).toBeLessThan(0);
        expect(flapEffect(0.25, -deflection)).toEqual(large);
      }),
    );
  });
});

describe('a flap behind a slow layer', () => {
  it.each([
    // Means of the computed flaps, laminar up to the hinge and tripped ahead of it (see flapReynoldsLoss); 0.1: what the formula smooths.
    [4e4, 0.37, 0.82],
    [6e4, 0.44, 0.84],
    [1e5, 0.58, 0.89],
    [1.5e5, 0.7, 0.93],
    [2e5, 0.79, 0.95],
    [3e5, 0.91, 0.96],
  ])('at %d loses what was computed', (reynolds, laminar, turbulent) => {
    expect(Math.abs(1 - flapReynoldsLoss(reynolds, LAYER_AHEAD.laminar) - laminar)).toBeLessThan(0.1);
    expect(Math.abs(1 - flapReynoldsLoss(reynolds, LAYER_AHEAD.turbulent) - turbulent)).toBeLessThan(0.05);
  });
  it('turns the flow as much as the rule of 0.8 says where it is large and closed, and never by nothing', () => {
    expect(flapEfficiency({ reynolds: 2e6 }).value).toBeCloseTo(FLAP_EFFICIENCY, 6);
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e7, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (reynolds, layer, gap) => {
          const found = flapEfficiency({ reynolds, layer, gap });
          expect(found.value).toBeGreaterThan(0.15);
          expect(found.value).toBeLessThanOrEqual(FLAP_EFFICIENCY);
          expect(flapEfficiency({ reynolds: 2 * reynolds, layer, gap }).value).toBeGreaterThanOrEqual(found.value);
          expect(flapEfficiency({ reynolds, layer, gap: gap + 0.001 }).value).toBeLessThan(found.value);
        },
      ),
    );
  });
  // Source: NACA Report 721, 1941 (from memory): about a tenth at a gap of half a per cent of the chord.
  it('loses a tenth through a gap of half a per cent', () => {
    expect(flapGapLoss(0.005).loss).toBeCloseTo(0.1, 1);
    expect(flapGapLoss(0)).toEqual({ loss: 0, spread: 0 });
    expect(flapGapLoss(-1).loss).toBe(0);
  });
  it('is less sure where nobody knows whether the layer is laminar', () => {
    const relative = (layer?: number) => {
      const found = flapEfficiency({ reynolds: 6e4, ...(layer === undefined ? {} : { layer }) });
      return found.spread / found.value;
    };
    expect(relative()).toBeGreaterThan(1.5 * relative(LAYER_AHEAD.turbulent));
  });
});

describe('plate friction', () => {
  it.each([
    [1e5, 0.0042, 0.00716],
    [5e5, 0.00188, 0.00511],
    [1e6, 0.00133, 0.00447],
    [1e7, 0.00042, 0.003],
  ])('Re %f', (reynolds, laminar, turbulent) => {
    expect(laminarPlateFriction(reynolds)).toBeCloseTo(laminar, 5);
    expect(turbulentPlateFriction(reynolds)).toBeCloseTo(turbulent, 5);
  });
  it('with transition it lies between laminar and turbulent and never goes negative', () => {
    const exponent = fc.double({ min: 4.2, max: 8, noNaN: true });
    fc.assert(
      fc.property(exponent, exponent, (a, b) => {
        const reynolds = 10 ** a;
        const mixed = mixedPlateFriction(reynolds, 10 ** b);
        expect(mixed).toBeGreaterThanOrEqual(laminarPlateFriction(reynolds) * 0.999);
        expect(mixed).toBeLessThanOrEqual(turbulentPlateFriction(reynolds) * 1.001);
      }),
    );
  });
  it('joins the laminar law where transition reaches the trailing edge', () => {
    expect(mixedPlateFriction(3e5, 3e5 * (1 - 1e-9))).toBeCloseTo(laminarPlateFriction(3e5), 9);
  });
});
