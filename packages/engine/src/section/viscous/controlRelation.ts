import type { Relation } from '../../relation.js';
import { nacaFourDigitMeanLine, nacaHalfThickness, sectionFromLaws } from '../naca.js';
import { controlTurning, type DeflectedState, TURNING_SETTINGS, type TurningRow } from './storedTurning.js';
import { computeTurning } from './turnings.js';

const DEGREE = Math.PI / 180;

/** Numbers of a deflected state beside the neutral one. */
function beside(states: readonly DeflectedState[], deflection: number) {
  const neutral = states.find((one) => one.deflection === 0);
  const turned = states.find((one) => one.deflection === deflection);
  if (neutral === undefined || turned === undefined) return undefined;
  const { alpha, drag, moment, hingeMoment } = turned;
  return {
    incidence: alpha - neutral.alpha,
    drag: drag / neutral.drag,
    moment: moment - neutral.moment,
    hingeMoment: hingeMoment - neutral.hingeMoment,
  };
}

const notConverged = {
  reason: 'one of the layers has not converged',
  remedy: 'change deflection, lift or Reynolds number a little',
};

/** A control of a four-digit section at one deflection, with the layer ahead of its hinge free and tripped. */
export const sectionControlRelation: Relation = {
  topic: 'section-control',
  title: 'A control of a four-digit section with its boundary layers, computed',
  inputs: [
    { key: 'thickness', kind: 'ratio', help: 'greatest thickness / chord', default: 0.08 },
    { key: 'camber', kind: 'ratio', help: 'greatest camber / chord', default: 0 },
    { key: 'camberPosition', kind: 'ratio', help: 'its chord station', default: 0.4 },
    { key: 'hinge', kind: 'ratio', help: 'chord station of the hinge, sealed', default: 0.7 },
    { key: 'deflection', kind: 'angle', help: 'trailing edge down positive', default: 5 * DEGREE },
    { key: 'reynolds', kind: 'count', help: 'Reynolds number on the chord', default: 1e5 },
    { key: 'lift', kind: 'ratio', help: 'lift coefficient, the same with and without deflection', default: 0 },
    { key: 'critical', kind: 'ratio', help: 'logarithm of amplitude at transition: 9 in quiet air', default: 9 },
  ],
  outputs: [
    {
      key: 'turning',
      kind: 'ratio',
      help: 'real / ideal turning, between a free and a tripped layer; hinge and gap not counted',
    },
    { key: 'turningSpread', kind: 'ratio', help: 'its standard deviation, all between both being evenly likely' },
    { key: 'incidence', kind: 'angle', help: 'change of incidence at the same lift, free layer' },
    { key: 'drag', kind: 'ratio', help: 'drag over that without deflection, free layer' },
    { key: 'moment', kind: 'ratio', help: 'change of the moment about the quarter chord, free layer' },
    {
      key: 'hingeMoment',
      kind: 'ratio',
      help: 'change of the moment about the hinge, on the chord squared; negative pushes back',
    },
    { key: 'trippedIncidence', kind: 'angle', help: 'change of incidence with the layer turbulent ahead of the hinge' },
    { key: 'trippedDrag', kind: 'ratio', help: 'drag over that without deflection there' },
  ],
  compute: (values) => {
    const of = (key: string): number => Number(values[key]);
    if (!(of('thickness') >= 0.05 && of('thickness') <= 0.2))
      return { reason: 'thickness lies outside 5 to 20 %', remedy: 'give 0.05 to 0.2' };
    if (!(Math.abs(of('camber')) <= 0.08 && of('camberPosition') >= 0.1 && of('camberPosition') <= 0.9))
      return { reason: 'camber lies outside its range', remedy: 'give at most 0.08 at 0.1 to 0.9' };
    if (!(of('hinge') >= 0.5 && of('hinge') <= 0.9))
      return { reason: 'the hinge lies outside 50 to 90 % of the chord', remedy: 'give 0.5 to 0.9' };
    if (!(of('reynolds') >= 4e4 && of('reynolds') <= 5e6))
      return { reason: 'Reynolds number outside 4e4 to 5e6', remedy: 'give 4e4 to 5e6' };
    const size = Math.abs(of('deflection'));
    if (!(size >= DEGREE - 1e-9 && size <= 20 * DEGREE + 1e-9))
      return { reason: 'the deflection lies outside 1 to 20 degrees', remedy: 'give 1 to 20 degrees, up or down' };
    if (!(Math.abs(of('lift')) <= 1.2 && of('critical') >= 1 && of('critical') <= 15))
      return { reason: 'lift beyond 1.2, or critical outside 1 to 15', remedy: 'give less' };
    const section = sectionFromLaws('section', nacaFourDigitMeanLine(of('camber'), of('camberPosition')), (x) =>
      nacaHalfThickness(x, of('thickness')),
    );
    const settings = {
      ...TURNING_SETTINGS,
      hinge: of('hinge'),
      lift: of('lift'),
      critical: of('critical'),
      reynolds: [of('reynolds')],
      deflections: [of('deflection')],
    };
    return answerOf(computeTurning(section, settings), settings) ?? notConverged;
  },
};

function answerOf(rows: readonly TurningRow[], settings: Parameters<typeof controlTurning>[1]) {
  const [deflection] = settings.deflections;
  const [free, tripped] = [rows[0]?.free ?? [], rows[0]?.tripped ?? []].map((states) => beside(states, deflection));
  const turning = controlTurning(rows, settings);
  if (free === undefined || tripped === undefined || turning === undefined) return undefined;
  return {
    turning: turning.ratio[0],
    turningSpread: turning.spread[0],
    ...free,
    trippedIncidence: tripped.incidence,
    trippedDrag: tripped.drag,
  };
}
