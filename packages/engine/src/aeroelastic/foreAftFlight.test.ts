import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dragLimitSpeed, foreAftFlight, forwardMoment } from './foreAftFlight.js';

const still = { massMoment: 0, acceleration: 0 };
/** Elliptic lift of 10 N on a half span of 0.75 m. */
const elliptic = Array.from({ length: 2000 }, (_, i) => {
  const eta = (i + 0.5) / 2000;
  return { along: 0.75 * eta, lift: ((10 * 4) / Math.PI) * (Math.sqrt(1 - eta * eta) / 2000), drag: 0 };
});

describe('bending forward by lift', () => {
  it('of an elliptic half wing is 4 W L / (3 pi) sin(tilt) at the root (statics)', () => {
    for (const tilt of [-0.1, 0, 0.05, 0.25])
      expect(forwardMoment(elliptic, 0, tilt, still)).toBeCloseTo(
        ((4 * 10 * 0.75) / (3 * Math.PI)) * Math.sin(tilt),
        3,
      );
    expect(forwardMoment(elliptic, 0.75, 0.2, still)).toBe(0);
  });

  it('is nothing in a glide, where drag stands against it: tan(tilt) = drag / lift', () => {
    const glide = elliptic.map(({ along, lift }) => ({ along, lift, drag: lift / 15 }));
    expect(forwardMoment(glide, 0, Math.atan(1 / 15), still)).toBeCloseTo(0, 9);
    expect(forwardMoment(glide, 0, 0, still)).toBeLessThan(0);
  });

  it('is taken away by inertia where mass is spread as lift is', () => {
    const [mass, tilt] = [0.8, 0.2];
    const massMoment = elliptic.reduce((sum, { along, lift }) => sum + (along * lift * mass) / 10, 0);
    const acceleration = (10 * Math.sin(tilt)) / mass;
    expect(forwardMoment(elliptic, 0, tilt, { massMoment, acceleration })).toBeCloseTo(0, 9);
  });

  it('falls outwards and grows with the tilt', () => {
    const range = { min: 0, max: 0.7, noNaN: true };
    fc.assert(
      fc.property(fc.double(range), fc.double(range), fc.double({ min: 0.01, max: 0.3, noNaN: true }), (a, b, tilt) => {
        const [inner, outer] = [Math.min(a, b), Math.max(a, b)];
        const at = (y: number, by = tilt) => forwardMoment(elliptic, y, by, still);
        expect(at(inner)).toBeGreaterThanOrEqual(at(outer));
        expect(at(inner, 1.5 * tilt)).toBeGreaterThan(at(inner));
      }),
      { numRuns: 30 },
    );
  });
});

describe('what bending fore and aft does', () => {
  const strain = { tension: 1, compression: 1, wrinkles: false };
  const part = { part: 'spar', byCurvature: -1, byMoment: 0.01, roundByCurvature: 0, roundByMoment: 0, strain };
  const strength = {
    surface: 'wing',
    y: [0],
    up: [1],
    down: [1],
    reasons: ['spar torn'],
    foreAft: { strengths: [{ bending: 1, parts: [part] }], massMoments: [1] },
  };
  const moments = { tilt: 0.2, pullUp: [5], held: [8], straight: (airspeed: number) => [-(airspeed ** 2) / 10] };

  it('is told where it comes close, and not where it is far', () => {
    expect(foreAftFlight(moments, strength, { up: 15, down: -15, reason: '' }, 15)).toMatchObject({ loadFactor: 20 });
    expect(foreAftFlight(moments, strength, { up: 5, down: -5, reason: '' }, 5.1)).toBeUndefined();
    expect(foreAftFlight(moments, strength, { up: 5, down: -5, reason: '' }, 6)!.without).toBe(6);
  });

  it('lets drag break a wing at the speed at which its strain is used up, 0.5 of it by its own lift', () => {
    const found = dragLimitSpeed(moments, [0.5], strength, [8, 60])!;
    expect(found.airspeed).toBeCloseTo(Math.sqrt((0.5 / 0.01) * 10), 2);
    expect(found.reason).toBe('spar crushed');
    expect(dragLimitSpeed(moments, [0.5], strength, [8, 20])).toBeUndefined();
    expect(dragLimitSpeed(moments, [0.5], strength, [30, 30])).toBeUndefined();
  });
});
