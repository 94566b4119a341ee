import type { Relation } from '../relation.js';
import { sectionModel } from './estimate.js';
import { flapEffect, flapEfficiency, LAYER_AHEAD } from './flap.js';
import { laminarPlateFriction, mixedPlateFriction, turbulentPlateFriction } from './friction.js';
import {
  sectionDragAtLift,
  sectionLiftSlope,
  sectionMaximumLift,
  sectionMoment,
  sectionZeroLiftAngle,
} from './model.js';
import { nacaFourDigitMeanLine, nacaHalfThickness, sectionFromLaws } from './naca.js';
import { sectionControlRelation } from './viscous/controlRelation.js';
import { sectionFlowRelation } from './viscous/relations.js';

const sectionRelation: Relation = {
  topic: 'section',
  title:
    'Lift, drag and moment of a wing section from its thickness, camber and Reynolds number, by the first estimate',
  inputs: [
    { key: 'thickness', kind: 'ratio', help: 'greatest thickness / chord', default: 0.09 },
    { key: 'camber', kind: 'ratio', help: 'greatest camber / chord', default: 0.03 },
    { key: 'camberPosition', kind: 'ratio', help: 'chord station of the greatest camber', default: 0.4 },
    { key: 'reynolds', kind: 'count', help: 'Reynolds number on the chord', default: 2e5 },
    { key: 'lift', kind: 'ratio', help: 'lift coefficient at which drag is wanted', default: 0.5 },
    { key: 'cells', kind: 'choice', choices: ['none', 'upper'], help: 'cells laid on the surface', default: 'none' },
  ],
  outputs: [
    { key: 'zeroLiftAngle', kind: 'angle', help: 'angle of attack of zero lift' },
    { key: 'liftSlope', kind: 'ratio', help: 'lift-curve slope per radian' },
    { key: 'angleOfAttack', kind: 'angle', help: 'angle of attack of the lift coefficient, attached flow' },
    { key: 'moment', kind: 'ratio', help: 'moment coefficient about the quarter chord' },
    { key: 'maximumLift', kind: 'ratio', help: 'greatest lift coefficient' },
    { key: 'maximumLiftLow', kind: 'ratio', help: 'lower end of its 90 % interval' },
    { key: 'maximumLiftHigh', kind: 'ratio', help: 'upper end of its 90 % interval' },
    { key: 'drag', kind: 'ratio', help: 'profile drag coefficient' },
    { key: 'dragLow', kind: 'ratio', help: 'lower end of its 90 % interval' },
    { key: 'dragHigh', kind: 'ratio', help: 'upper end of its 90 % interval' },
  ],
  compute: (values) => {
    const thickness = Number(values.thickness);
    const camber = Number(values.camber);
    const position = Number(values.camberPosition);
    const reynolds = Number(values.reynolds);
    const lift = Number(values.lift);
    if (!(thickness >= 0.02 && thickness <= 0.3))
      return { reason: 'thickness lies outside 2 to 30 %', remedy: 'give 0.02 to 0.3' };
    if (!(Math.abs(camber) <= 0.12)) return { reason: 'camber exceeds 12 %', remedy: 'give -0.12 to 0.12' };
    if (!(position >= 0.1 && position <= 0.9))
      return { reason: 'camber position lies outside 10 to 90 %', remedy: 'give 0.1 to 0.9' };
    if (!(reynolds >= 1e4 && reynolds <= 2e7))
      return { reason: 'Reynolds number outside 1e4 to 2e7', remedy: 'give 1e4 to 2e7' };
    const geometry = sectionFromLaws('section', nacaFourDigitMeanLine(camber, position), (x) =>
      nacaHalfThickness(x, thickness),
    );
    const model = sectionModel(geometry, values.cells === 'upper' ? { cells: { from: 0.1, to: 0.9 } } : {});
    const greatest = sectionMaximumLift(model, reynolds);
    if (!(lift < greatest.value && lift > -greatest.value)) {
      return {
        reason: `the section stalls at ${greatest.value.toFixed(2)}`,
        remedy: 'give a smaller lift coefficient',
      };
    }
    const drag = sectionDragAtLift(model, lift, reynolds);
    const zeroLiftAngle = sectionZeroLiftAngle(model, reynolds);
    const liftSlope = sectionLiftSlope(model, reynolds);
    const angleOfAttack = zeroLiftAngle + lift / liftSlope;
    return {
      zeroLiftAngle,
      liftSlope,
      angleOfAttack,
      moment: sectionMoment(model, zeroLiftAngle, reynolds),
      maximumLift: greatest.value,
      maximumLiftLow: greatest.low,
      maximumLiftHigh: greatest.high,
      drag: drag.value,
      dragLow: drag.low,
      dragHigh: drag.high,
    };
  },
};

const flapRelation: Relation = {
  topic: 'section-flap',
  title: 'What a plain trailing-edge flap does to a section',
  inputs: [
    { key: 'chordFraction', kind: 'ratio', help: 'flap chord / section chord', default: 0.25 },
    {
      key: 'deflection',
      kind: 'angle',
      help: 'deflection, trailing edge down positive',
      default: (10 * Math.PI) / 180,
    },
    {
      key: 'efficiency',
      kind: 'ratio',
      help: 'real / ideal effectiveness: 0.8 for tape and foam hinges',
      default: 0.8,
    },
  ],
  outputs: [
    { key: 'effectiveness', kind: 'ratio', help: 'ideal change of zero-lift angle per deflection' },
    { key: 'zeroLiftShift', kind: 'angle', help: 'change of the zero-lift angle, negative for a flap down' },
    { key: 'moment', kind: 'ratio', help: 'change of the moment coefficient about the quarter chord at constant lift' },
    { key: 'spread', kind: 'ratio', help: 'relative standard deviation of both changes' },
  ],
  compute: (values) => {
    const chordFraction = Number(values.chordFraction);
    const deflection = Number(values.deflection);
    const efficiency = Number(values.efficiency);
    if (!(chordFraction > 0 && chordFraction < 1))
      return { reason: 'the flap chord is not a part of the chord', remedy: 'give 0.05 to 0.6' };
    if (!(Math.abs(deflection) <= Math.PI / 3))
      return { reason: 'deflection exceeds 60 degrees', remedy: 'give at most 60 degrees' };
    if (!(efficiency > 0 && efficiency <= 1.2))
      return { reason: 'efficiency lies outside 0 to 1.2', remedy: 'give about 0.8' };
    const effect = flapEffect(chordFraction, deflection, efficiency);
    return {
      effectiveness: effect.idealEffectiveness,
      zeroLiftShift: effect.zeroLiftShift * deflection,
      moment: effect.moment * deflection,
      spread: effect.spread,
    };
  },
};

const flapEfficiencyRelation: Relation = {
  topic: 'flap-efficiency',
  title: 'How much of its theoretical effect a hinged flap reaches',
  inputs: [
    { key: 'reynolds', kind: 'count', help: 'Reynolds number on the chord', default: 1e5 },
    { key: 'gap', kind: 'ratio', help: 'open gap at the hinge / chord, 0 where closed', default: 0 },
    {
      key: 'layer',
      kind: 'ratio',
      help: 'layer ahead of the hinge: 1 laminar, 0.2 turbulent, 0.6 not known',
      default: LAYER_AHEAD.unknown,
    },
  ],
  outputs: [
    { key: 'efficiency', kind: 'ratio', help: 'real / theoretical effectiveness' },
    { key: 'spread', kind: 'ratio', help: 'its standard deviation' },
    { key: 'lostToLayer', kind: 'ratio', help: 'part lost to the slow layer ahead of the hinge' },
    { key: 'lostToGap', kind: 'ratio', help: 'part lost through the gap' },
  ],
  compute: (values) => {
    const [reynolds, gap, layer] = [Number(values.reynolds), Number(values.gap), Number(values.layer)];
    if (!(reynolds >= 1e4 && reynolds <= 1e7))
      return { reason: 'the Reynolds number lies outside the range of the formula', remedy: 'give 1e4 to 1e7' };
    if (!(gap >= 0 && gap <= 0.05)) return { reason: 'the gap is no part of the chord', remedy: 'give 0 to 5 %' };
    if (!(layer >= 0 && layer <= 1)) return { reason: 'the layer lies outside 0 to 1', remedy: 'give 0.2 to 1' };
    const { value, ...rest } = flapEfficiency({ reynolds, gap, layer });
    return { efficiency: value, ...rest };
  },
};

const frictionRelation: Relation = {
  topic: 'plate-friction',
  title: 'Mean friction coefficient of one side of a smooth plate',
  inputs: [
    { key: 'reynolds', kind: 'count', help: 'Reynolds number on the plate length', default: 2e5 },
    { key: 'transitionReynolds', kind: 'count', help: 'Reynolds number on the distance to transition', default: 5e5 },
  ],
  outputs: [
    { key: 'laminar', kind: 'ratio', help: 'laminar all along' },
    { key: 'turbulent', kind: 'ratio', help: 'turbulent from the leading edge' },
    { key: 'mixed', kind: 'ratio', help: 'laminar to the transition, turbulent after it' },
  ],
  compute: (values) => {
    const reynolds = Number(values.reynolds);
    const transition = Number(values.transitionReynolds);
    if (!(reynolds >= 1e3 && reynolds <= 1e9))
      return { reason: 'Reynolds number outside 1e3 to 1e9', remedy: 'give 1e3 to 1e9' };
    if (!(transition >= 0)) return { reason: 'the transition Reynolds number is negative', remedy: 'give 0 or more' };
    return {
      laminar: laminarPlateFriction(reynolds),
      turbulent: turbulentPlateFriction(reynolds),
      mixed: mixedPlateFriction(reynolds, transition),
    };
  },
};

/** Relations of this folder for `figure`. */
export const sectionRelations: readonly Relation[] = [
  sectionRelation,
  sectionFlowRelation,
  sectionControlRelation,
  flapRelation,
  flapEfficiencyRelation,
  frictionRelation,
];
