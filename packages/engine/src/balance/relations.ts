import type { Relation, RelationValues } from '../relation.js';
import { closedFormLiftSlope, tailDownwashGradient, wingAndTailStability } from './neutralPoint.js';
import { additionEffect, ballastAt } from './placement.js';
import { balancePointForMargin, staticMargin } from './range.js';
import { weigh } from './weighing.js';

const number = (values: RelationValues, key: string): number => Number(values[key]);

const balanceRelation: Relation = {
  topic: 'balance',
  title: 'What an added item does to the balance point, and what restores it',
  inputs: [
    { key: 'mass', kind: 'mass', help: 'of the aircraft before' },
    { key: 'balancePoint', kind: 'length', help: 'before, aft of the datum' },
    { key: 'addedMass', kind: 'mass', help: 'of the item, e.g. a row of cells' },
    { key: 'addedPosition', kind: 'length', help: 'of the item, aft of the datum' },
    { key: 'batteryMass', kind: 'mass', help: 'of what can be moved' },
    { key: 'ballastPosition', kind: 'length', help: 'where ballast could sit, aft of the datum', default: 0 },
  ],
  outputs: [
    { key: 'newMass', kind: 'mass', help: 'with the item' },
    { key: 'newBalancePoint', kind: 'length', help: 'with the item, nothing else moved' },
    { key: 'shift', kind: 'length', help: 'aft positive' },
    { key: 'batteryMove', kind: 'length', help: 'that restores the balance point, aft positive' },
    { key: 'ballast', kind: 'mass', help: 'that restores it instead' },
  ],
  compute: (values) => {
    const mass = number(values, 'mass');
    const batteryMass = number(values, 'batteryMass');
    const addedMass = number(values, 'addedMass');
    if (!(mass > 0 && batteryMass > 0 && mass + addedMass > 0)) {
      return { reason: 'aircraft and battery must have mass', remedy: 'give mass=1.3kg batteryMass=300g' };
    }
    const x = number(values, 'balancePoint');
    const effect = additionEffect({ mass, x }, { mass: addedMass, x: number(values, 'addedPosition') }, batteryMass);
    const ballast = ballastAt(effect, x, number(values, 'ballastPosition'));
    if (!ballast.ok) return ballast;
    return {
      newMass: effect.mass,
      newBalancePoint: effect.x,
      shift: effect.shift,
      batteryMove: effect.batteryMove,
      ballast: ballast.value.mass,
    };
  },
};

const staticMarginRelation: Relation = {
  topic: 'static-margin',
  title: 'Neutral point of a wing and a tail in closed form, and the static margin',
  inputs: [
    { key: 'wingArea', kind: 'area', help: 'reference area' },
    { key: 'meanChord', kind: 'length', help: 'mean aerodynamic chord' },
    { key: 'aspectRatio', kind: 'ratio', help: 'of the wing' },
    { key: 'taper', kind: 'ratio', help: 'tip chord / root chord', default: 1 },
    { key: 'tailArea', kind: 'area', help: 'of the horizontal tail; 0 without', default: 0 },
    { key: 'tailArm', kind: 'length', help: 'between the aerodynamic centres of wing and tail', default: 1 },
    { key: 'tailHeight', kind: 'length', help: 'of the tail above the wing', default: 0 },
    { key: 'tailAspectRatio', kind: 'ratio', help: 'of the tail', default: 4.5 },
    { key: 'tailEfficiency', kind: 'ratio', help: 'dynamic pressure at the tail / free stream', default: 0.95 },
    { key: 'balancePoint', kind: 'length', help: "aft of the wing's aerodynamic centre", default: 0 },
    { key: 'wantedMargin', kind: 'ratio', help: 'static margin to aim at', default: 0.1 },
  ],
  outputs: [
    { key: 'neutralPoint', kind: 'length', help: "aft of the wing's aerodynamic centre" },
    { key: 'staticMargin', kind: 'ratio', help: 'at the balance point' },
    { key: 'wantedBalancePoint', kind: 'length', help: "for the wanted margin, aft of the wing's aerodynamic centre" },
    { key: 'liftSlope', kind: 'ratio', help: 'of the aircraft, per radian' },
    { key: 'tailVolume', kind: 'ratio', help: 'horizontal; models 0.35 to 0.6' },
    { key: 'downwashGradient', kind: 'ratio', help: 'at the tail' },
  ],
  compute: (values) => {
    const [wingArea, meanChord, aspectRatio] = ['wingArea', 'meanChord', 'aspectRatio'].map((k) => number(values, k));
    const [tailArea, tailArm, tailAspectRatio] = ['tailArea', 'tailArm', 'tailAspectRatio'].map((k) =>
      number(values, k),
    );
    if (!(wingArea > 0 && meanChord > 0 && aspectRatio > 0 && tailArm > 0 && tailAspectRatio > 0 && tailArea >= 0)) {
      return {
        reason: 'areas, chord, arm and aspect ratios must be positive',
        remedy: 'give wingArea=0.4m2 meanChord=0.2m aspectRatio=10',
      };
    }
    const downwashGradient = tailDownwashGradient({
      aspectRatio,
      taper: number(values, 'taper'),
      quarterChordSweep: 0,
      height: number(values, 'tailHeight'),
      distance: tailArm,
      span: Math.sqrt(aspectRatio * wingArea),
    });
    const stability = wingAndTailStability({
      wingArea,
      meanChord,
      wingLiftSlope: closedFormLiftSlope(aspectRatio),
      tailArea,
      tailArm,
      tailLiftSlope: closedFormLiftSlope(tailAspectRatio),
      tailEfficiency: number(values, 'tailEfficiency'),
      downwashGradient,
    });
    const neutralPoint = stability.neutralPoint * meanChord;
    return {
      neutralPoint,
      staticMargin: staticMargin({ neutralPoint, meanChord, balancePoint: number(values, 'balancePoint') }),
      wantedBalancePoint: balancePointForMargin({
        neutralPoint,
        meanChord,
        staticMargin: number(values, 'wantedMargin'),
      }),
      liftSlope: stability.liftSlope,
      tailVolume: stability.tailVolume,
      downwashGradient,
    };
  },
};

const weighingRelation: Relation = {
  topic: 'weighing',
  title: 'Mass and balance point from two scales',
  inputs: [
    { key: 'frontReading', kind: 'mass', help: 'scale under the front support' },
    { key: 'rearReading', kind: 'mass', help: 'scale under the rear support' },
    { key: 'frontPosition', kind: 'length', help: 'aft of the datum' },
    { key: 'rearPosition', kind: 'length', help: 'aft of the datum' },
    { key: 'readingUncertainty', kind: 'mass', help: 'standard, of each scale', default: 0.001 },
    { key: 'positionUncertainty', kind: 'length', help: 'standard, of each support', default: 0.0005 },
    { key: 'tiltUncertainty', kind: 'angle', help: 'standard, of levelling', default: 0 },
    { key: 'height', kind: 'length', help: 'of the balance point above the supports', default: 0 },
  ],
  outputs: [
    { key: 'mass', kind: 'mass', help: 'total' },
    { key: 'massUncertainty', kind: 'mass', help: 'standard' },
    { key: 'balancePoint', kind: 'length', help: 'aft of the datum' },
    { key: 'balancePointUncertainty', kind: 'length', help: 'standard' },
  ],
  compute: (values) => {
    const spread = {
      y: 0,
      massUncertainty: number(values, 'readingUncertainty'),
      positionUncertainty: number(values, 'positionUncertainty'),
    };
    const outcome = weigh(
      [
        { name: 'front', x: number(values, 'frontPosition'), mass: number(values, 'frontReading'), ...spread },
        { name: 'rear', x: number(values, 'rearPosition'), mass: number(values, 'rearReading'), ...spread },
      ],
      { tiltUncertainty: number(values, 'tiltUncertainty'), heightAboveSupports: number(values, 'height') },
    );
    if (!outcome.ok) return outcome;
    const { mass, massUncertainty, x, xUncertainty } = outcome.value;
    return { mass, massUncertainty, balancePoint: x, balancePointUncertainty: xUncertainty };
  },
};

/** Balance relations that can be asked for one by one. */
export const balanceRelations: readonly Relation[] = [balanceRelation, staticMarginRelation, weighingRelation];
