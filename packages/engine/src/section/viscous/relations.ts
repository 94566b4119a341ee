import type { Relation } from '../../relation.js';
import { nacaFourDigitMeanLine, nacaHalfThickness, sectionFromLaws } from '../naca.js';
import { preparedOutline } from './covering.js';
import { solveViscous } from './solve.js';

/** Flow about a four-digit section at one incidence. */
export const sectionFlowRelation: Relation = {
  topic: 'section-flow',
  title: 'A four-digit section with its boundary layer, computed',
  inputs: [
    { key: 'thickness', kind: 'ratio', help: 'greatest thickness / chord', default: 0.1 },
    { key: 'camber', kind: 'ratio', help: 'greatest camber / chord', default: 0.03 },
    { key: 'camberPosition', kind: 'ratio', help: 'its chord station', default: 0.4 },
    { key: 'reynolds', kind: 'count', help: 'Reynolds number on the chord', default: 2e5 },
    { key: 'incidence', kind: 'angle', help: 'angle of attack, nose up positive', default: (3 * Math.PI) / 180 },
    { key: 'critical', kind: 'ratio', help: 'logarithm of amplitude at transition: 9 in quiet air', default: 9 },
    { key: 'trip', kind: 'ratio', help: 'chord station of a trip on the upper surface; 1 for none', default: 1 },
  ],
  outputs: [
    { key: 'lift', kind: 'ratio', help: 'lift coefficient' },
    { key: 'drag', kind: 'ratio', help: 'drag coefficient' },
    { key: 'frictionDrag', kind: 'ratio', help: 'part of it that is friction' },
    { key: 'moment', kind: 'ratio', help: 'about the quarter chord, nose up positive' },
    { key: 'upperTransition', kind: 'ratio', help: 'chord station where the upper layer becomes turbulent' },
    { key: 'lowerTransition', kind: 'ratio', help: 'the same below' },
    { key: 'separation', kind: 'ratio', help: 'chord station of first separation above; 1 where there is none' },
    { key: 'reattachment', kind: 'ratio', help: 'where it comes back; 1 where it does not' },
  ],
  compute: (values) => {
    const of = (key: string): number => Number(values[key]);
    if (!(of('thickness') >= 0.04 && of('thickness') <= 0.25))
      return { reason: 'thickness lies outside 4 to 25 %', remedy: 'give 0.04 to 0.25' };
    if (!(Math.abs(of('camber')) <= 0.1 && of('camberPosition') >= 0.1 && of('camberPosition') <= 0.9))
      return { reason: 'camber lies outside its range', remedy: 'give at most 0.1 at 0.1 to 0.9' };
    if (!(of('reynolds') >= 3e4 && of('reynolds') <= 1e7))
      return { reason: 'Reynolds number outside 3e4 to 1e7', remedy: 'give 3e4 to 1e7' };
    if (!(Math.abs(of('incidence')) <= 0.35 && of('critical') >= 1 && of('critical') <= 15))
      return { reason: 'incidence beyond 20 degrees, or critical outside 1 to 15', remedy: 'give less' };
    if (!(of('trip') >= 0.01 && of('trip') <= 1))
      return { reason: 'the trip lies outside 1 to 100 % of the chord', remedy: 'give 0.01 to 1' };
    const section = sectionFromLaws('section', nacaFourDigitMeanLine(of('camber'), of('camberPosition')), (x) =>
      nacaHalfThickness(x, of('thickness')),
    );
    const prepared = preparedOutline(section.outlineX, section.outlineY);
    if (!prepared.ok) return { reason: prepared.reason, remedy: prepared.remedy };
    const trip = of('trip') < 0.99 ? of('trip') : Number.NaN;
    const solved = solveViscous(prepared.value, {
      alpha: of('incidence'),
      reynolds: of('reynolds'),
      critical: of('critical'),
      trips: [trip, Number.NaN],
    });
    if (!solved.ok) return { reason: solved.reason, remedy: solved.remedy };
    const { lift, drag, frictionDrag, moment, upper, lower } = solved.value.flow;
    return {
      lift,
      drag,
      frictionDrag,
      moment,
      upperTransition: upper.transition,
      lowerTransition: lower.transition,
      separation: upper.separation ?? 1,
      reattachment: upper.reattachment ?? 1,
    };
  },
};
