import type { Relation } from '../relation.js';
import { trapezoidalWing } from '../shape/index.js';
import { datcomDownwash, datcomSlope, groundEffect, liftingLine, taperedChord } from './classical.js';
import { downwashGradient } from './downwash.js';
import { maximumLift } from './maximumLift.js';
import { summariseWing } from './planformSummary.js';
import { solveWing } from './solve.js';
import type { StripSection } from './types.js';

const planformInputs = [
  { key: 'aspectRatio', kind: 'ratio', help: 'span squared / area' },
  { key: 'taper', kind: 'ratio', help: 'tip chord / root chord', default: 1 },
  { key: 'sweep', kind: 'angle', help: 'of the quarter chord, aft positive', default: 0 },
] as const;

const outOfRange = (aspectRatio: number, taper: number, sweep: number) =>
  aspectRatio >= 0.3 && aspectRatio <= 60 && taper >= 0.05 && taper <= 2 && Math.abs(sweep) <= 1.1
    ? undefined
    : {
        reason: 'the lattice is meant for aspect ratios of 0.3 to 60, tapers of 0.05 to 2 and sweeps below 63 degrees',
        remedy: 'state values inside these ranges',
      };

/** Relations of wing: linear properties of a planform, downwash, ground effect. */
export const wingRelations: readonly Relation[] = [
  {
    topic: 'wing',
    title:
      'Lift slope, span efficiency and neutral point of a straight-tapered wing (vortex lattice, with lifting line and DATCOM beside it)',
    inputs: planformInputs,
    outputs: [
      { key: 'liftSlope', kind: 'ratio', help: 'per radian' },
      { key: 'spanEfficiency', kind: 'ratio', help: 'from the wake far behind' },
      {
        key: 'neutralPoint',
        kind: 'ratio',
        help: 'aft of the leading edge of the mean aerodynamic chord, in mean aerodynamic chords',
      },
      { key: 'liftSlopeDatcom', kind: 'ratio', help: 'per radian, runs 3 to 7 % high' },
      { key: 'liftSlopeLiftingLine', kind: 'ratio', help: 'per radian, unswept' },
    ],
    compute: (values) => {
      const [aspectRatio, taper, sweep] = [Number(values.aspectRatio), Number(values.taper), Number(values.sweep)];
      const refused = outOfRange(aspectRatio, taper, sweep);
      if (refused) return refused;
      const solved = summariseWing(trapezoidalWing({ span: 1, aspectRatio, taper, sweep }));
      if (!solved.ok) return solved;
      // A quarter chord behind the quarter-chord line, the sweep is less by the taper.
      const halfChordSweep = Math.atan(Math.tan(sweep) - (1 - taper) / (aspectRatio * (1 + taper)));
      return {
        liftSlope: solved.value.liftSlope,
        spanEfficiency: solved.value.spanEfficiency,
        neutralPoint: solved.value.neutralPoint,
        liftSlopeDatcom: datcomSlope({ aspectRatio, sweep: halfChordSweep }),
        liftSlopeLiftingLine: liftingLine({ aspectRatio, chordRatio: taperedChord(taper), terms: 40 }).liftSlope,
      };
    },
  },
  {
    topic: 'downwash',
    title: 'Downwash per angle of attack behind a wing in the plane of symmetry',
    inputs: [
      ...planformInputs,
      { key: 'distance', kind: 'ratio', help: 'behind the root quarter chord / span', default: 0.4 },
      { key: 'height', kind: 'ratio', help: 'above the wing plane / span', default: 0 },
    ],
    outputs: [
      { key: 'downwash', kind: 'ratio', help: 'lattice, wake straight aft' },
      { key: 'downwashDatcom', kind: 'ratio', help: 'empirical' },
    ],
    compute: (values) => {
      const [aspectRatio, taper, sweep] = [Number(values.aspectRatio), Number(values.taper), Number(values.sweep)];
      const [distance, height] = [Number(values.distance), Number(values.height)];
      const refused = outOfRange(aspectRatio, taper, sweep);
      if (refused) return refused;
      const wing = trapezoidalWing({ span: 1, aspectRatio, taper, sweep });
      const chord = wing.stations[0].chord;
      if (!(distance > chord))
        return { reason: 'the point lies within a chord of the wing', remedy: 'state a greater distance' };
      const solved = downwashGradient([wing], [{ x: chord / 4 + distance, z: height }]);
      if (!solved.ok) return solved;
      return {
        downwash: solved.value[0],
        downwashDatcom: datcomDownwash({ aspectRatio, taper, sweep, height, distance }),
      };
    },
  },
  {
    topic: 'maximum-lift',
    title:
      'Maximum lift of a straight-tapered wing whose section has the same maximum lift everywhere, and where stall begins',
    inputs: [
      ...planformInputs,
      { key: 'washout', kind: 'angle', help: 'tip less root incidence; negative lowers the tip', default: 0 },
      { key: 'sectionMaximumLift', kind: 'ratio', help: 'of the section at the Reynolds number flown', default: 1.2 },
    ],
    outputs: [
      { key: 'maximumLift', kind: 'ratio', help: 'greatest lift coefficient of the wing' },
      { key: 'firstStall', kind: 'ratio', help: 'lift coefficient when the first strip reaches its maximum' },
      { key: 'stallStation', kind: 'ratio', help: 'where that is, as a fraction of the half span' },
      { key: 'stallAngle', kind: 'angle', help: 'of attack at the first stall, from zero lift of an untwisted root' },
    ],
    compute: (values) => {
      const [aspectRatio, taper, sweep] = [Number(values.aspectRatio), Number(values.taper), Number(values.sweep)];
      const [washout, most] = [Number(values.washout), Number(values.sectionMaximumLift)];
      const refused = outOfRange(aspectRatio, taper, sweep);
      if (refused) return refused;
      if (!(most > 0 && most < 5))
        return { reason: 'the section must lift', remedy: 'state a maximum lift of 0.3 to 3' };
      const wing = trapezoidalWing({ span: 1, aspectRatio, taper, sweep, washout });
      const solved = solveWing({ surfaces: [wing], bodies: [], parasites: [] }, { lateral: false });
      if (!solved.ok) return solved;
      const section: StripSection = {
        dragCoefficient: () => 0,
        maximumLift: () => most,
        minimumLift: () => -most,
        momentCoefficient: 0,
      };
      const state = { airspeed: 10, kinematicViscosity: 1.46e-5, momentReference: { x: 0, z: 0 } };
      const found = maximumLift(solved.value, state, { section });
      return {
        maximumLift: found.liftCoefficient,
        firstStall: found.first.liftCoefficient,
        stallStation: found.first.station,
        stallAngle: found.first.alpha,
      };
    },
  },
  {
    topic: 'ground-effect',
    title: 'Induced drag near the ground, elliptic load',
    inputs: [{ key: 'height', kind: 'ratio', help: 'of the wing above the ground / span' }],
    outputs: [{ key: 'inducedDrag', kind: 'ratio', help: 'of that far from the ground' }],
    compute: (values) => {
      const height = Number(values.height);
      if (!(height > 0)) return { reason: 'the height must be positive', remedy: 'state a height above zero' };
      return { inducedDrag: groundEffect(height) };
    },
  },
];
