import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flapReynoldsLoss } from '../section/flap.js';
import { turningDeflection } from '../section/turning.js';
import { type ControlSurface, type LiftingSurface, type Shape, trapezoidalWing } from '../shape/index.js';
import { wingDerivatives } from './derivatives.js';
import { wingForces } from './forces.js';
import { maximumLift } from './maximumLift.js';
import { solveWing } from './solve.js';
import type { StripSection, WingModel, WingOptions } from './types.js';

const degree = Math.PI / 180;
const state = { airspeed: 10, kinematicViscosity: 1.46e-5, momentReference: { x: 0.1, z: 0 } };
const plain: StripSection = {
  dragCoefficient: (lift) => 0.012 + 0.01 * lift * lift,
  maximumLift: () => 1.2,
  minimumLift: () => -1.2,
  momentCoefficient: 0,
};
const sections = { section: plain };

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
const aircraft = shapeOf(mainWing, tail(0.9), fin(0.05));

/** Slopes of a parabolic arc of camber `height`: dz/dx = 4 h (1 - 2 x). */
const arc = (height: number) => ({ chordFractions: [0, 1], slopes: [4 * height, -4 * height] });

describe('wingForces', () => {
  const model = modelOf({
    ...aircraft,
    bodies: [{ name: 'pod', length: 0.8, width: 0.08, height: 0.08, x: -0.2, z: 0 }],
  });
  const at = (alpha: number, other: object = {}) => wingForces(model, { ...state, alpha, ...other }, sections);

  it('a control behind a slow layer turns less, by its Reynolds number, and as much as another at a high one', () => {
    const slow = modelOf(shapeOf(mainWing, { ...tail(0.9), controls: [{ ...elevator, layerAhead: 0.6 }] }, fin(0.05)));
    const plain = modelOf(aircraft);
    const effect = (of: typeof model, kinematicViscosity: number) => {
      const moment = (deflection: number) =>
        wingForces(of, { ...state, alpha: 0.02, kinematicViscosity, controls: { elevator: deflection } }, sections)
          .pitchingMomentCoefficient;
      return moment(0.05) - moment(0);
    };
    const control = slow.controls.find(({ name }) => name === 'elevator')!;
    // Chord 0.15 m: span 0.6 m and aspect ratio 4.
    expect(control.chord).toBeCloseTo(0.15, 3);
    const viscosityAt = (reynolds: number) => (state.airspeed * control.chord) / reynolds;
    for (const reynolds of [5e4, 1e5, 2e5]) {
      const kept = effect(slow, viscosityAt(reynolds)) / effect(plain, viscosityAt(reynolds));
      expect(kept).toBeCloseTo(1 - flapReynoldsLoss(reynolds, 0.6), 2);
    }
    expect(effect(slow, viscosityAt(5e6)) / effect(plain, viscosityAt(5e6))).toBeCloseTo(1, 6);
  });

  it('have the slopes of the linear derivatives near zero', () => {
    const h = 1e-4;
    const { alpha, pitchRate, controls } = wingDerivatives(model, state.momentReference);
    const zero = at(0);
    const slope = (forces: typeof zero, key: 'liftCoefficient' | 'pitchingMomentCoefficient') =>
      (forces[key] - zero[key]) / h;
    expect(slope(at(h), 'liftCoefficient')).toBeCloseTo(alpha.lift, 2);
    expect(slope(at(h), 'pitchingMomentCoefficient')).toBeCloseTo(alpha.moment, 2);
    expect(slope(at(0, { pitchRate: h }), 'liftCoefficient')).toBeCloseTo(pitchRate.lift, 1);
    expect(slope(at(0, { pitchRate: h }), 'pitchingMomentCoefficient')).toBeCloseTo(pitchRate.moment, 1);
    expect(slope(at(0, { controls: { elevator: h } }), 'pitchingMomentCoefficient')).toBeCloseTo(
      controls.elevator.moment,
      2,
    );
  });

  it('transfer the moment with the reference: a shift aft adds normal force x shift', () => {
    const a = at(4 * degree);
    const b = at(4 * degree, { momentReference: { x: 0.15, z: 0 } });
    const change = ((b.pitchingMomentCoefficient - a.pitchingMomentCoefficient) * model.reference.chord) / 0.05;
    expect(change).toBeCloseTo(a.liftCoefficient, 2);
  });

  it('profile drag of a section with constant drag is that of the total area', () => {
    const constant = { section: { ...plain, dragCoefficient: () => 0.02 } };
    const { profileDragCoefficient } = wingForces(model, { ...state, alpha: 0.03 }, constant);
    const area = 1.2 * 0.48 * 1 + 0.09 + 0.03125;
    expect(profileDragCoefficient * model.reference.area).toBeCloseTo(0.02 * area, 3);
  });

  it('strip moments are those of the sections on an unswept wing of high aspect ratio at zero lift', () => {
    const slender = modelOf(shapeOf(trapezoidalWing({ span: 2, aspectRatio: 20 })), { camber: { section: arc(0.03) } });
    const cambered = { section: { ...plain, momentCoefficient: -0.07 } };
    const { strips } = wingForces(slender, { ...state, alpha: -0.061 }, cambered);
    for (let i = 0; i < slender.strips.count; i++)
      expect(Math.abs(strips.momentCoefficient[i] + 0.07)).toBeLessThan(0.02);
  });

  it('lost suction raises the drag of a plate to lift x tan(alpha), and never lowers it', () => {
    const drag = (suction: number) => {
      const plate = modelOf(shapeOf({ ...trapezoidalWing({ span: 1, aspectRatio: 6 }), suction, sideEdge: 0 }));
      const { liftCoefficient, inducedDragCoefficient } = wingForces(plate, { ...state, alpha: 4 * degree }, sections);
      return { liftCoefficient, inducedDragCoefficient };
    };
    const none = drag(0);
    expect(none.inducedDragCoefficient / (none.liftCoefficient * Math.tan(4 * degree))).toBeCloseTo(1, 2);
    expect(drag(0.5).inducedDragCoefficient).toBeGreaterThan(drag(1).inducedDragCoefficient);
    expect(none.inducedDragCoefficient).toBeGreaterThan(drag(0.5).inducedDragCoefficient);
  });

  it('stay finite and bounded from -40 to 60 degrees, with any deflection', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40 * degree, max: 60 * degree, noNaN: true }),
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        (alpha, deflection) => {
          const forces = at(alpha, { controls: { elevator: deflection } });
          const numbers = [
            forces.liftCoefficient,
            forces.inducedDragCoefficient,
            forces.profileDragCoefficient,
            forces.pitchingMomentCoefficient,
            forces.stallMargin,
          ];
          return (
            numbers.every(Number.isFinite) &&
            Math.abs(forces.liftCoefficient) < 2 &&
            forces.inducedDragCoefficient > -1e-12 &&
            forces.strips.liftCoefficient.every((lift, i) => lift <= forces.strips.maximumLift[i] + 1e-4)
          );
        },
      ),
    );
  });

  it('a deflection beyond 15 degrees turns the flow less: all up to there, 0.8 at 30, half at 45', () => {
    expect(turningDeflection(0.2)).toBe(0.2);
    expect(turningDeflection(-30 * degree) / degree).toBeCloseTo(-24, 10);
    expect(turningDeflection(45 * degree) / degree).toBeCloseTo(22.5, 10);
  });

  it('refuse an unknown section', () => {
    expect(() => wingForces(model, { ...state, alpha: 0 }, {})).toThrow(RangeError);
  });
});

describe('maximumLift', () => {
  const of = (aspectRatio: number, taper: number) =>
    maximumLift(
      modelOf(shapeOf(trapezoidalWing({ span: 2.4, aspectRatio, taper })), { lateral: false }),
      state,
      sections,
    );

  it('stays below the section maximum above an aspect ratio of 4, and above 0.85 of it', () => {
    for (const aspectRatio of [4.5, 8, 14])
      for (const taper of [1, 0.6, 0.3]) {
        const { liftCoefficient, first } = of(aspectRatio, taper);
        expect(liftCoefficient).toBeLessThan(1.2);
        expect(liftCoefficient).toBeGreaterThan(0.85 * 1.2);
        expect(first.liftCoefficient).toBeLessThanOrEqual(liftCoefficient);
      }
  });

  it('begins further outboard as taper grows', () => {
    const stations = [1, 0.8, 0.6, 0.4, 0.25].map((taper) => of(8, taper).first.station);
    expect(stations[0]).toBeLessThan(0.1);
    for (let i = 1; i < stations.length; i++) expect(stations[i]).toBeGreaterThan(stations[i - 1]);
    expect(stations[4]).toBeGreaterThan(0.6);
  });

  it('washout moves the first stall inboard', () => {
    const wing = (washout: number) =>
      maximumLift(
        modelOf(shapeOf(trapezoidalWing({ span: 2.4, aspectRatio: 8, taper: 0.4, washout }))),
        state,
        sections,
      ).first.station;
    expect(wing(-4 * degree)).toBeLessThan(wing(0));
  });
});
