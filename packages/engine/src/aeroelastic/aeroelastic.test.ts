import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { trapezoidalWing } from '../shape/index.js';
import { influenceMatrices } from '../wing/influence.js';
import { buildLattice } from '../wing/lattice.js';
import { diveTo, steadyDiveSpeed } from './dive.js';
import { flutterPoints } from './flutter.js';
import { generalisedForces, latticeForces } from './forces.js';
import { gustLimitSpeed, gustLoad } from './gust.js';
import { abscissae, oscillatoryWeights } from './kernel.js';
import { rigidMotions } from './lattice.checks.js';
import { oscillatingInfluence } from './oscillatingInfluence.js';
import { sectionDivergence, sectionFlutter } from './typicalSection.js';
import { uniformDivergence, uniformReversal } from './uniformWing.js';

const swept = trapezoidalWing({ span: 3, aspectRatio: 5, taper: 0.6, sweep: 0.3, dihedral: 0.1 });

function certain<T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

describe('weights of oscillating integrals', () => {
  it('integrate t^n exp(i theta t) as a fine sum does', () => {
    const out = new Float64Array(10);
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), fc.integer({ min: 0, max: 4 }), (theta, power) => {
        oscillatoryWeights(theta, out);
        let [re, im, sumRe, sumIm] = [0, 0, 0, 0];
        abscissae.forEach((t, j) => {
          re += t ** power * out[j];
          im += t ** power * out[5 + j];
        });
        const steps = 4000;
        for (let i = 0; i < steps; i++) {
          const t = (2 * (i + 0.5)) / steps - 1;
          sumRe += (t ** power * Math.cos(theta * t) * 2) / steps;
          sumIm += (t ** power * Math.sin(theta * t) * 2) / steps;
        }
        expect(re).toBeCloseTo(sumRe, 4);
        expect(im).toBeCloseTo(sumIm, 4);
      }),
    );
  });
});

describe('oscillating lattice', () => {
  const lattice = buildLattice([swept], { panels: { chordwise: 4, spanwise: 6 } });

  it('holds the steady matrix, and tends to it as the frequency vanishes', () => {
    const { symmetric, antisymmetric } = oscillatingInfluence(lattice, Float64Array.of(1e-6), true);
    const steady = influenceMatrices(lattice, true);
    const worst = (a: Float64Array, b: Float64Array) => Math.max(...a.map((value, i) => Math.abs(value - b[i])));
    expect(worst(symmetric.steady, steady.symmetric)).toBeLessThan(1e-12);
    expect(worst(antisymmetric!.steady, steady.antisymmetric!)).toBeLessThan(1e-12);
    expect(worst(symmetric.oscillating[0].re, steady.symmetric)).toBeLessThan(1e-4);
    expect(Math.max(...symmetric.oscillating[0].im.map(Math.abs))).toBeLessThan(1e-4);
  });

  it('does not depend on the unit of length', () => {
    const scaled = trapezoidalWing({ span: 0.3, aspectRatio: 5, taper: 0.6, sweep: 0.3, dihedral: 0.1 });
    const small = buildLattice([scaled], { panels: { chordwise: 4, spanwise: 6 } });
    const a = oscillatingInfluence(lattice, Float64Array.of(1.3), false).symmetric.oscillating[0];
    const b = oscillatingInfluence(small, Float64Array.of(13), false).symmetric.oscillating[0];
    a.re.forEach((value, i) => {
      expect(b.re[i] / 10).toBeCloseTo(value, 6);
      expect(b.im[i] / 10).toBeCloseTo(a.im[i], 6);
    });
  });

  it('gives between tabulated frequencies what it gives there', () => {
    const waves = Float64Array.of(0.1, 0.25, 0.5, 0.9, 1.4, 2, 3);
    const motions = rigidMotions(lattice);
    const table = certain(generalisedForces(lattice, oscillatingInfluence(lattice, waves, false).symmetric, motions));
    for (const kappa of [0.05, 0.37, 1.1, 2.6]) {
      const { symmetric } = oscillatingInfluence(lattice, Float64Array.of(kappa), false);
      const exact = certain(latticeForces(lattice, symmetric, 0, motions));
      const between = table.at(kappa);
      exact.re.forEach((value, i) => {
        const size = Math.hypot(value, exact.im[i]);
        expect(Math.hypot(between.re[i] - value, between.im[i] - exact.im[i]) / size).toBeLessThan(0.01);
      });
    }
  });
});

describe('flutter search', () => {
  it('finds nothing where springs hold two motions apart that the air does not couple', () => {
    const at = () => ({ re: new Float64Array(4), im: new Float64Array(4) });
    const model = {
      mass: Float64Array.of(1, 0, 0, 1),
      stiffness: Float64Array.of(1, 0, 0, 4),
      forces: { count: 2, highestWaveNumber: 10, at },
      density: 1,
    };
    expect(flutterPoints(model, { lowest: 0.01, highest: 5 }, 100)).toEqual([]);
  });

  it('rises as the balance point moves forward, and ends at the quarter chord', () => {
    const section = { axis: -0.2, massRatio: 20, gyrationSquared: 0.24, frequencyRatio: 0.4 };
    const speeds = [0.1, 0, -0.1].map((balance) => sectionFlutter({ ...section, balance })!.speed);
    expect(speeds[0]).toBeLessThan(speeds[1]);
    expect(speeds[1]).toBeLessThan(speeds[2]);
    expect(sectionFlutter({ ...section, balance: -0.6 })).toBeUndefined();
  });

  it('scales with the pitch frequency alone: stiffer springs in proportion, no other answer', () => {
    const section = { axis: -0.3, balance: -0.1, massRatio: 12, gyrationSquared: 0.25, frequencyRatio: 0.3 };
    const a = sectionFlutter(section)!;
    expect(sectionFlutter(section, 'jones')!.speed / a.speed).toBeGreaterThan(0.97);
    expect(sectionFlutter(section, 'jones')!.speed / a.speed).toBeLessThan(1.03);
  });
});

describe('closed forms', () => {
  it('know no divergence ahead of the quarter chord, and no reversal behind it by a quarter chord', () => {
    const wing = { torsionStiffness: 1, semispan: 1, chord: 0.2, liftSlope: 5 };
    expect(uniformDivergence({ ...wing, arm: -0.01 })).toBeUndefined();
    expect(
      sectionDivergence({ axis: -0.5, balance: 0, massRatio: 10, gyrationSquared: 0.2, frequencyRatio: 0.3 }),
    ).toBeUndefined();
    expect(uniformReversal(0.25, 0.25)).toEqual({ section: undefined, roll: undefined, lift: undefined });
  });
});

describe('gusts and dives', () => {
  const aircraft = { wingLoading: 20, meanChord: 0.3, liftSlope: 5, density: 1.225, maximumLift: 1.2 };

  it('cap the load by what the wing can lift', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.double({ min: -16, max: 16, noNaN: true }),
        (v, u) => {
          const { loadFactor, alleviation } = gustLoad(aircraft, v, u);
          const most = (0.6125 * (v * v + u * u) * 1.2) / 20;
          expect(Math.abs(loadFactor)).toBeLessThanOrEqual(most * (1 + 1e-12));
          expect(alleviation).toBeGreaterThan(0);
          expect(alleviation).toBeLessThan(0.88);
        },
      ),
    );
  });

  it('load exactly what is allowed at the limit speed', () => {
    const speed = gustLimitSpeed(aircraft, 7.62, 4)!;
    expect(gustLoad(aircraft, speed, 7.62).loadFactor).toBeCloseTo(4, 5);
    expect(gustLimitSpeed(aircraft, 7.62, 0.5)).toBe(0);
  });

  it('falls as in vacuo without drag: height gained equals kinetic energy', () => {
    const body = { mass: 1, area: 0.3, density: 1.2, zeroLiftDrag: 0, inducedFactor: 0 };
    const { time, height } = diveTo(body, 8, 20, Math.PI / 6)!;
    expect(height).toBeCloseTo((400 - 64) / (2 * 9.80665), 3);
    expect(time).toBeCloseTo(12 / (9.80665 * 0.5), 3);
    const real = diveTo({ ...body, zeroLiftDrag: 0.03, inducedFactor: 0.08 }, 8, 20, Math.PI / 6)!;
    expect(real.time).toBeGreaterThan(time);
    expect(diveTo({ ...body, zeroLiftDrag: 0.5 }, 8, 60, 0.17)).toBeUndefined();
  });

  it('end at the airspeed where drag holds the weight along the path', () => {
    const body = { mass: 1, area: 0.3, density: 1.2, zeroLiftDrag: 0, inducedFactor: 0 };
    const real = { ...body, zeroLiftDrag: 0.03, inducedFactor: 0.08 };
    const steady = steadyDiveSpeed(real, Math.PI / 6)!;
    expect(diveTo(real, 8, 0.999 * steady, Math.PI / 6)).toBeDefined();
    expect(diveTo(real, 8, 1.01 * steady, Math.PI / 6)).toBeUndefined();
    // Straight down there is no lift: m g = q S CD0.
    const down = steadyDiveSpeed(real, Math.PI / 2)!;
    expect((real.density / 2) * down ** 2 * real.area * real.zeroLiftDrag).toBeCloseTo(real.mass * 9.80665, 9);
    expect(steadyDiveSpeed(real, 0.01)).toBeUndefined();
    expect(steadyDiveSpeed({ ...real, zeroLiftDrag: 0 }, 0.5)).toBeUndefined();
  });
});
