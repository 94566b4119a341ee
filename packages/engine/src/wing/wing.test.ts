import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ControlSurface, type LiftingSurface, type Shape, trapezoidalWing } from '../shape/index.js';
import { datcomSlope, groundEffect, helmboldSlope, liftingLine } from './classical.js';
import { lateralDerivatives, wingDerivatives } from './derivatives.js';
import { downwashGradient } from './downwash.js';
import { summariseWing } from './planformSummary.js';
import { wingRelations } from './relations.js';
import { sideEdgeCoefficient } from './sideEdge.js';
import { solveWing } from './solve.js';
import type { WingModel, WingOptions } from './types.js';

const degree = Math.PI / 180;
const shapeOf = (...surfaces: LiftingSurface[]): Shape => ({ surfaces, bodies: [], parasites: [] });
function modelOf(shape: Shape, options: WingOptions = {}): WingModel {
  const solved = solveWing(shape, options);
  if (!solved.ok) throw new Error(solved.reason);
  return solved.value;
}
const moved = (surface: LiftingSurface, x: number, z: number): LiftingSurface => ({
  ...surface,
  stations: surface.stations.map((s) => ({ ...s, xLeadingEdge: s.xLeadingEdge + x, z: s.z + z })),
});
const elevator: ControlSurface = {
  name: 'elevator',
  kind: 'elevator',
  fromY: 0,
  toY: 0.3,
  chordFraction: 0.3,
  effectiveness: 0.8,
};
const mainWing = trapezoidalWing({ span: 2.4, aspectRatio: 10, taper: 0.7, dihedral: 4 * degree });
const tail = (x: number): LiftingSurface => ({
  ...moved(trapezoidalWing({ name: 'tail', span: 0.6, aspectRatio: 4 }), x, 0.05),
  kind: 'horizontal tail',
  controls: [elevator],
});
const fin = (z: number, below = false): LiftingSurface => ({
  name: 'fin',
  kind: 'fin',
  mirrored: false,
  stations: [
    { y: 0, xLeadingEdge: 0.9, z, chord: 0.15, twist: 0, section: 'section' },
    { y: 0, xLeadingEdge: 0.93, z: below ? z - 0.25 : z + 0.25, chord: 0.1, twist: 0, section: 'section' },
  ],
  controls: [{ name: 'rudder', kind: 'rudder', fromY: 0, toY: 0.25, chordFraction: 0.4, effectiveness: 0.8 }],
});
/** Semi-span 1, cut off a little before the pointed tip. */
function ellipticWing(rootChord: number): LiftingSurface {
  const angles = Array.from({ length: 16 }, (_, i) => (i * Math.PI) / 2 / 15.4);
  const stations = angles.map((angle) => {
    const chord = rootChord * Math.cos(angle);
    return { y: Math.sin(angle), xLeadingEdge: -chord / 4, z: 0, chord, twist: 0, section: 'section' };
  });
  return { ...mainWing, stations };
}
const aircraft = shapeOf(mainWing, tail(0.9), fin(0.05));

/** Slopes of a parabolic arc of camber `height`: dz/dx = 4 h (1 - 2 x). */
const arc = (height: number) => ({ chordFractions: [0, 1], slopes: [4 * height, -4 * height] });

describe('solveWing', () => {
  it('tends to slender-body theory, pi AR / 2, at small aspect ratio, and to 2 pi at large', () => {
    const slope = (aspectRatio: number) => {
      const solved = summariseWing(trapezoidalWing({ span: 1, aspectRatio }));
      if (!solved.ok) throw new Error(solved.reason);
      return solved.value.liftSlope;
    };
    expect(slope(0.3) / ((Math.PI * 0.3) / 2)).toBeCloseTo(1, 1);
    expect(slope(200)).toBeGreaterThan(6.1);
    expect(slope(200)).toBeLessThan(2 * Math.PI);
  });

  it('converges: twice the unknowns change lift slope by less than 0.2 % and neutral point by less than 0.2 % of the chord', () => {
    const coarse = wingDerivatives(modelOf(aircraft, { lateral: false }), { x: 0.1 });
    const fine = wingDerivatives(modelOf(aircraft, { lateral: false, unknowns: 300 }), { x: 0.1 });
    expect(Math.abs(coarse.alpha.lift / fine.alpha.lift - 1)).toBeLessThan(0.002);
    expect(Math.abs(coarse.staticMargin - fine.staticMargin)).toBeLessThan(0.004);
  });

  it('does not depend on where the datum is', () => {
    const shift = 0.37;
    const shifted = shapeOf(...aircraft.surfaces.map((surface) => moved(surface, shift, 0)));
    const a = wingDerivatives(modelOf(aircraft), { x: 0.1 });
    const b = wingDerivatives(modelOf(shifted), { x: 0.1 + shift });
    expect(b.alpha.moment).toBeCloseTo(a.alpha.moment, 8);
    expect(b.pitchRate.lift).toBeCloseTo(a.pitchRate.lift, 8);
    expect(b.pitchRate.moment).toBeCloseTo(a.pitchRate.moment, 8);
    const la = lateralDerivatives(modelOf(aircraft), { x: 0.1, z: 0 })!;
    const lb = lateralDerivatives(modelOf(shifted), { x: 0.1 + shift, z: 0 })!;
    expect(lb.yawRate.yawing).toBeCloseTo(la.yawRate.yawing, 8);
  });

  it('scales with size: coefficients stay', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 10, noNaN: true }), (size) => {
        const grown = summariseWing(trapezoidalWing({ span: 2 * size, aspectRatio: 7, taper: 0.6 }));
        const plainWing = summariseWing(trapezoidalWing({ span: 2, aspectRatio: 7, taper: 0.6 }));
        return grown.ok && plainWing.ok && Math.abs(grown.value.liftSlope - plainWing.value.liftSlope) < 1e-8;
      }),
      { numRuns: 10 },
    );
  });

  it('keeps lift slope, far-field drag and both drags consistent over planforms', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.5, max: 20, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        fc.double({ min: -0.3, max: 0.5, noNaN: true }),
        (aspectRatio, taper, sweep) => {
          const solved = summariseWing(trapezoidalWing({ span: 1, aspectRatio, taper, sweep }));
          if (!solved.ok) return false;
          const { liftSlope, spanEfficiency, nearOverFar } = solved.value;
          // Plane wings: below the slopes of the formula, never better than the elliptic load.
          return (
            liftSlope > 0 &&
            liftSlope < 1.01 * helmboldSlope(aspectRatio) &&
            spanEfficiency > 0.85 &&
            spanEfficiency < 1.003 &&
            Math.abs(nearOverFar - 1) < 0.05
          );
        },
      ),
      { numRuns: 40 },
    );
  });

  it('an elliptic planform has a span efficiency of 1 and a lift slope near 2 pi AR / (AR + 2)', () => {
    const solved = summariseWing(ellipticWing(0.16), { unknowns: 300 });
    if (!solved.ok) throw new Error(solved.reason);
    expect(solved.value.spanEfficiency).toBeCloseTo(1, 2);
    const { aspectRatio, liftSlope } = solved.value;
    expect(Math.abs(liftSlope / ((2 * Math.PI * aspectRatio) / (aspectRatio + 2)) - 1)).toBeLessThan(0.03);
  });

  it('a V-tail works as two tails, and a body moves the neutral point forward', () => {
    const vTail: LiftingSurface = {
      ...moved(trapezoidalWing({ name: 'tail', span: 0.6, aspectRatio: 4, dihedral: 35 * degree }), 0.9, 0.05),
      kind: 'v-tail',
      controls: [{ ...elevator, kind: 'ruddervator', name: 'ruddervator' }],
    };
    const model = modelOf(shapeOf(mainWing, vTail));
    const pitch = wingDerivatives(model, { x: 0.1 }).controls.ruddervator;
    const yaw = lateralDerivatives(model, { x: 0.1, z: 0 })!;
    expect(pitch.moment).toBeLessThan(-0.3);
    expect(Math.abs(yaw.controls.ruddervator.yawing)).toBeGreaterThan(0.01);
    expect(yaw.sideslip.yawing).toBeGreaterThan(0.02);
    const body = { name: 'fuselage', length: 1.1, width: 0.1, height: 0.1, x: -0.3, z: 0 };
    const bare = wingDerivatives(modelOf(aircraft), { x: 0.1 }).neutralPoint;
    const withBody = wingDerivatives(modelOf({ ...aircraft, bodies: [body] }), { x: 0.1 }).neutralPoint;
    expect(withBody).toBeLessThan(bare);
    expect(bare - withBody).toBeLessThan(0.05);
    const pods = { ...body, y: 0.3 };
    const [one, two] = [body, pods].map((item) => modelOf({ ...aircraft, bodies: [item] }).bodyMomentSlope);
    expect(two / one).toBeCloseTo(2, 10);
  });

  it('upturned or downturned tips of a tenth of the span raise the span efficiency by about a fifth, alike', () => {
    const wing = trapezoidalWing({ span: 2, aspectRatio: 8, taper: 0.7 });
    const tip = wing.stations[1];
    const efficiency = (z: number) => {
      const bent = { ...tip, z, chord: 0.1, xLeadingEdge: tip.xLeadingEdge + 0.08 };
      const solved = summariseWing({ ...wing, stations: [...wing.stations, bent] });
      return solved.ok ? solved.value : { spanEfficiency: 0, nearOverFar: 0 };
    };
    // An optimum end plate of height h gains about 1 + 1.9 h / b at small h (from memory, Hoerner 1975).
    expect(efficiency(0.2).spanEfficiency).toBeGreaterThan(1.15);
    expect(efficiency(0.2).spanEfficiency).toBeLessThan(1.25);
    expect(efficiency(-0.2).spanEfficiency).toBeCloseTo(efficiency(0.2).spanEfficiency, 10);
    expect(efficiency(0.2).nearOverFar).toBeCloseTo(1, 2);
  });

  it('couples sections: a lower slope lowers the wing slope by about its share, a shifted zero-lift angle shifts the wing', () => {
    const wing = shapeOf(trapezoidalWing({ span: 2, aspectRatio: 8 }));
    const free = wingDerivatives(modelOf(wing), { x: 0 });
    const sectionLift = { section: { liftSlope: 0.9 * 2 * Math.PI, zeroLiftAngle: -3 * degree } };
    const coupled = wingDerivatives(modelOf(wing, { sectionLift }), { x: 0 });
    const expected = datcomSlope({ aspectRatio: 8, sectionSlope: 0.9 * 2 * Math.PI }) / datcomSlope({ aspectRatio: 8 });
    expect(coupled.alpha.lift / free.alpha.lift).toBeCloseTo(expected, 2);
    expect(coupled.zero.lift / coupled.alpha.lift).toBeCloseTo(3 * degree, 6);
    const roll = (options: WingOptions) => lateralDerivatives(modelOf(wing, options), { x: 0, z: 0 })!.rollRate.rolling;
    // Rolling loads each half as a wing of about half the aspect ratio: the section counts for less.
    expect(roll({ sectionLift }) / roll({})).toBeGreaterThan(0.9);
    expect(roll({ sectionLift }) / roll({})).toBeLessThan(0.96);
  });

  it('camber shifts the wing as it shifts the section, and its moment is that of the section', () => {
    const wing = shapeOf(trapezoidalWing({ span: 2, aspectRatio: 8 }));
    const cambered = wingDerivatives(modelOf(wing, { camber: { section: arc(0.04) } }), { x: 0.0625 });
    // Incidence towards the trailing edge counts more on a finite wing (at vanishing span it alone counts), by about 3 % here.
    const shift = cambered.zero.lift / cambered.alpha.lift / degree / 4.5837;
    expect(shift).toBeGreaterThan(1);
    expect(shift).toBeLessThan(1.05);
    const atZeroLift = cambered.zero.moment - (cambered.alpha.moment * cambered.zero.lift) / cambered.alpha.lift;
    expect(Math.abs(atZeroLift + 0.1257)).toBeLessThan(0.006);
  });

  it('refuses what cannot be computed', () => {
    expect(solveWing(shapeOf(fin(0)))).toMatchObject({ ok: false, code: 'no-wing' });
    const crossed = { ...mainWing, stations: [...mainWing.stations].reverse() };
    expect(solveWing(shapeOf(crossed))).toMatchObject({ ok: false, code: 'stations-crossed' });
  });

  it('gives finite numbers or a reason for any stations', () => {
    const station = fc.record({
      dy: fc.double({ min: -0.1, max: 0.8, noNaN: true }),
      dz: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
      xLeadingEdge: fc.double({ min: -0.5, max: 1.5, noNaN: true }),
      chord: fc.double({ min: -0.01, max: 1, noNaN: true }),
      twist: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
    });
    const finite = (value: unknown): boolean => {
      if (typeof value === 'number') return Number.isFinite(value);
      if (value instanceof Float64Array) return value.every(Number.isFinite);
      return value === null || typeof value !== 'object' || Object.values(value).every(finite);
    };
    fc.assert(
      fc.property(fc.array(station, { minLength: 1, maxLength: 4 }), (steps) => {
        let y = 0;
        let z = 0;
        const stations = steps.map(({ dy, dz, ...other }, i) => {
          y += i === 0 ? 0 : dy;
          z += dz;
          return { ...other, y, z, section: 'section' };
        });
        const solved = solveWing(shapeOf({ ...mainWing, stations }, tail(2)));
        if (!solved.ok) return solved.reason !== '' && solved.remedy !== '';
        return finite(solved.value) && finite(wingDerivatives(solved.value, { x: 0 }));
      }),
      { numRuns: 60 },
    );
  });

  it('says where a planform leaves its range', () => {
    const codes = (surface: LiftingSurface) => {
      const solved = solveWing(shapeOf(surface), { lateral: false });
      return solved.ok ? solved.warnings.map((warning) => warning.code) : [];
    };
    expect(codes(mainWing)).toEqual([]);
    expect(codes(trapezoidalWing({ span: 1, aspectRatio: 0.4 }))).toEqual(['very-low-aspect-ratio']);
    expect(codes(trapezoidalWing({ span: 1, aspectRatio: 3, sweep: 50 * degree }))).toEqual(['high-sweep']);
    expect(codes(trapezoidalWing({ span: 1, aspectRatio: 6, washout: -20 * degree }))).toEqual(['large-incidence']);
  });

  it('stays finite where surfaces touch: fins on the tips, a tail in the plane of the wing', () => {
    const tipFin: LiftingSurface = {
      name: 'tip fins',
      kind: 'fin',
      mirrored: true,
      stations: [
        { y: 0.5, xLeadingEdge: 0.1, z: 0, chord: 0.3, twist: 0, section: 'section' },
        { y: 0.5, xLeadingEdge: 0.2, z: 0.25, chord: 0.2, twist: 0, section: 'section' },
      ],
      controls: [],
    };
    const plank = trapezoidalWing({ span: 1, aspectRatio: 2 });
    const bare = wingDerivatives(modelOf(shapeOf(plank)), { x: 0 });
    const finned = wingDerivatives(modelOf(shapeOf(plank, tipFin)), { x: 0 });
    // End plates add lift, by 10 to 35 % at this height and aspect ratio.
    expect(finned.alpha.lift / bare.alpha.lift).toBeGreaterThan(1.1);
    expect(finned.alpha.lift / bare.alpha.lift).toBeLessThan(1.35);
    const level = { ...tail(0.9), stations: tail(0.9).stations.map((s) => ({ ...s, z: 0 })) };
    const inPlane = wingDerivatives(modelOf(shapeOf(trapezoidalWing({ span: 2.4, aspectRatio: 10 }), level)), {
      x: 0.1,
    });
    const above = wingDerivatives(modelOf(shapeOf(trapezoidalWing({ span: 2.4, aspectRatio: 10 }), tail(0.9))), {
      x: 0.1,
    });
    expect(Math.abs(inPlane.staticMargin - above.staticMargin)).toBeLessThan(0.1);
  });
});

describe('derivatives', () => {
  it('have the signs of a stable tailed aircraft', () => {
    const model = modelOf(aircraft);
    const { alpha, pitchRate, controls, staticMargin } = wingDerivatives(model, { x: 0.08 });
    expect(staticMargin).toBeGreaterThan(0);
    expect(alpha.moment).toBeLessThan(0);
    expect(pitchRate.moment).toBeLessThan(-5);
    expect(controls.elevator.lift).toBeGreaterThan(0);
    expect(controls.elevator.moment).toBeLessThan(0);
    const lateral = lateralDerivatives(model, { x: 0.08, z: 0 })!;
    expect(lateral.sideslip.side).toBeLessThan(0);
    expect(lateral.sideslip.rolling).toBeLessThan(0);
    expect(lateral.sideslip.yawing).toBeGreaterThan(0);
    expect(lateral.rollRate.rolling).toBeLessThan(-0.3);
    expect(lateral.yawRate.yawing).toBeLessThan(0);
    expect(lateral.controls.rudder.side).toBeGreaterThan(0);
    expect(lateral.controls.rudder.yawing).toBeLessThan(0);
  });

  it('a fin below steers and steadies as one above, but rolls the other way', () => {
    const [above, below] = [fin(0), fin(0, true)].map(
      (surface) =>
        lateralDerivatives(modelOf(shapeOf(trapezoidalWing({ span: 2.4, aspectRatio: 10 }), surface)), {
          x: 0.1,
          z: 0,
        })!,
    );
    expect(below.controls.rudder.yawing).toBeCloseTo(above.controls.rudder.yawing, 8);
    expect(below.sideslip.yawing).toBeCloseTo(above.sideslip.yawing, 8);
    expect(below.controls.rudder.rolling).toBeCloseTo(-above.controls.rudder.rolling, 8);
  });

  it('dihedral rolls by less than strip theory says (upper bound -0.1124 for AR 10, 5 degrees), and not at all when flat', () => {
    const roll = (dihedral: number) =>
      lateralDerivatives(modelOf(shapeOf(trapezoidalWing({ span: 2, aspectRatio: 10, dihedral }))), { x: 0, z: 0 })!
        .sideslip.rolling;
    expect(roll(0)).toBeCloseTo(0, 10);
    expect(roll(5 * degree)).toBeLessThan(-0.06);
    expect(roll(5 * degree)).toBeGreaterThan(-0.1124);
  });

  it('are absent when the antisymmetric half was not solved', () => {
    expect(lateralDerivatives(modelOf(aircraft, { lateral: false }), { x: 0, z: 0 })).toBeUndefined();
  });
});

describe('side edges, downwash, ground', () => {
  it('side-edge lift fades with aspect ratio and with a pointed tip', () => {
    expect(sideEdgeCoefficient(8)).toBeLessThan(sideEdgeCoefficient(2) / 3);
    expect(sideEdgeCoefficient(2, 0)).toBe(0);
  });

  it('downwash far behind an elliptic-like load tends to 2 CLalpha / (pi AR) and is an upwash ahead', () => {
    const wing = ellipticWing(0.16);
    const solved = downwashGradient(
      [wing],
      [
        { x: 20, z: 0 },
        { x: -0.3, z: 0 },
      ],
    );
    const summary = summariseWing(wing);
    if (!solved.ok || !summary.ok) throw new Error('unsolved');
    expect(solved.value[0] / ((2 * summary.value.liftSlope) / (Math.PI * summary.value.aspectRatio))).toBeGreaterThan(
      0.95,
    );
    expect(solved.value[0] / ((2 * summary.value.liftSlope) / (Math.PI * summary.value.aspectRatio))).toBeLessThan(
      1.05,
    );
    expect(solved.value[1]).toBeLessThan(0);
  });

  it('the ground takes all induced drag at no height and none far away', () => {
    expect(groundEffect(10)).toBeGreaterThan(0.999);
    expect(groundEffect(0.02)).toBeLessThan(0.25);
    expect(() => groundEffect(0)).toThrow(RangeError);
  });

  it('lifting line gives the elliptic wing exactly', () => {
    const { liftSlope, delta } = liftingLine({
      aspectRatio: 8,
      chordRatio: (s) => (4 / Math.PI) * Math.sqrt(1 - s * s + 1e-18),
    });
    expect(liftSlope).toBeCloseTo((2 * Math.PI) / 1.25, 6);
    expect(delta).toBeCloseTo(0, 10);
  });
});

describe('relations', () => {
  it('answer plain questions with every output, and refuse impossible ones', () => {
    const asked: Record<string, Record<string, number>> = {
      wing: { aspectRatio: 8, taper: 0.6, sweep: 0.1 },
      downwash: { aspectRatio: 8, taper: 1, sweep: 0, distance: 0.4, height: 0 },
      'maximum-lift': { aspectRatio: 8, taper: 0.6, sweep: 0, washout: 0, sectionMaximumLift: 1.2 },
      'ground-effect': { height: 0.2 },
    };
    for (const relation of wingRelations) {
      const answer = relation.compute(asked[relation.topic]);
      expect(Object.keys(answer).sort()).toEqual(relation.outputs.map((output) => output.key).sort());
      for (const value of Object.values(answer)) expect(Number.isFinite(value)).toBe(true);
      const worst = { ...asked[relation.topic], aspectRatio: -1, height: -1 };
      expect(relation.compute(worst)).toHaveProperty('reason');
    }
  });
});
