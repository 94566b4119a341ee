import { standardGravity } from '../air/index.js';
import type { Relation, RelationValues } from '../relation.js';
import { gustLoad } from './gust.js';
import { bungeeSpeed, lineLoadFactor } from './lineLaunch.js';
import { widePlateFlutter } from './plateFlutter.js';
import { touchdownLoad } from './touchdown.js';
import { sectionDivergence, sectionFlutter } from './typicalSection.js';
import { sweptDivergenceRatio, uniformDivergence, uniformReversal } from './uniformWing.js';

const numbers = <K extends string>(values: RelationValues, keys: readonly K[]) =>
  Object.fromEntries(keys.map((key) => [key, Number(values[key])])) as Record<K, number>;

const uniformInputs = [
  {
    key: 'torque',
    kind: 'torque',
    help: 'that twists the tip of one half by `twist` while its root is held',
    default: 1,
  },
  { key: 'twist', kind: 'angle', help: 'of the tip under that torque', default: Math.PI / 90 },
  { key: 'semispan', kind: 'length', help: 'from the held root to the tip', default: 1.2 },
  { key: 'chord', kind: 'length', help: 'of the wing', default: 0.22 },
  {
    key: 'axis',
    kind: 'ratio',
    help: 'elastic axis (where a load bends without twisting), aft of the leading edge / chord',
    default: 0.35,
  },
  {
    key: 'liftSlope',
    kind: 'ratio',
    help: 'of the wing per radian; 2 pi aspect ratio / (2 + aspect ratio) or so',
    default: 5,
  },
  { key: 'density', kind: 'density', help: 'of the air', default: 1.225 },
] as const;

const uniformKeys = ['torque', 'twist', 'semispan', 'chord', 'axis', 'liftSlope', 'density'] as const;

/** Divergence pressure of a wing whose torsion was measured, or why there is none. */
function measuredDivergence(values: RelationValues): number | { reason: string; remedy: string } {
  const { torque, twist, semispan, chord, axis, liftSlope, density } = numbers(values, uniformKeys);
  const positive = [torque, twist, semispan, chord, liftSlope, density].every((value) => value > 0 && value < 1e6);
  if (!positive || !(axis > -1 && axis < 1))
    return {
      reason: 'torque, twist, lengths, lift slope and density must be positive, and the axis within the chord',
      remedy: 'hold the root, twist the tip by a weight on an arm and state both',
    };
  const torsionStiffness = (torque * semispan) / twist;
  const pressure = uniformDivergence({ torsionStiffness, semispan, chord, arm: (axis - 0.25) * chord, liftSlope });
  return (
    pressure ?? {
      reason:
        'the elastic axis is not behind the quarter chord: lift does not twist the wing nose up, it does not diverge',
      remedy: 'look at reversal and flutter instead',
    }
  );
}

const divergence: Relation = {
  topic: 'divergence',
  title: 'Airspeed at which a uniform wing twists off, from a twist measured on the bench (strip theory)',
  inputs: [
    ...uniformInputs,
    { key: 'sweep', kind: 'angle', help: 'of the elastic axis, aft positive', default: 0 },
    { key: 'stiffnessRatio', kind: 'ratio', help: 'bending / torsion stiffness EI / GJ, for swept wings', default: 2 },
  ],
  outputs: [
    { key: 'airspeed', kind: 'speed', help: 'of divergence' },
    { key: 'dynamicPressure', kind: 'pressure', help: 'of divergence' },
  ],
  compute: (values) => {
    const unswept = measuredDivergence(values);
    if (typeof unswept !== 'number') return unswept;
    const { sweep, stiffnessRatio, axis, chord, semispan, density } = numbers(values, [
      'sweep',
      'stiffnessRatio',
      'axis',
      'chord',
      'semispan',
      'density',
    ]);
    if (!(Math.abs(sweep) < 1.1) || !(stiffnessRatio > 0.05 && stiffnessRatio < 1e3))
      return {
        reason: 'sweep below 63 degrees and a stiffness ratio of 0.05 to 1000 are meant',
        remedy: 'state such values',
      };
    const ratio = sweep === 0 ? 1 : sweptDivergenceRatio(sweep, stiffnessRatio, ((axis - 0.25) * chord) / semispan);
    if (ratio === undefined)
      return {
        reason: 'swept back so far, bending takes off incidence faster than lift twists: no divergence',
        remedy: 'look at flutter',
      };
    const dynamicPressure = ratio * unswept;
    return { airspeed: Math.sqrt((2 * dynamicPressure) / density), dynamicPressure };
  },
};

const reversal: Relation = {
  topic: 'reversal',
  title: 'Airspeed at which full-span controls of a uniform wing lose their effect (strip theory)',
  inputs: [...uniformInputs, { key: 'chordFraction', kind: 'ratio', help: 'control chord / chord', default: 0.25 }],
  outputs: [
    { key: 'rollReversal', kind: 'speed', help: 'both sides opposed' },
    { key: 'liftReversal', kind: 'speed', help: 'both sides together' },
    { key: 'divergence', kind: 'speed', help: 'of the same wing' },
  ],
  compute: (values) => {
    const pressure = measuredDivergence(values);
    if (typeof pressure !== 'number') return pressure;
    const { axis, chordFraction, density } = numbers(values, ['axis', 'chordFraction', 'density']);
    if (!(chordFraction >= 0.02 && chordFraction <= 0.98))
      return { reason: 'a control has 0.02 to 0.98 of the chord', remedy: 'state its share of the chord' };
    const { roll, lift } = uniformReversal(chordFraction, axis - 0.25);
    if (roll === undefined || lift === undefined)
      return {
        reason: 'with the elastic axis so far aft the wing diverges before its controls reverse',
        remedy: 'ask for divergence',
      };
    const speed = (share: number) => Math.sqrt((2 * share * pressure) / density);
    return { rollReversal: speed(roll), liftReversal: speed(lift), divergence: speed(1) };
  },
};

const flutter: Relation = {
  topic: 'flutter',
  title: 'Flutter of a section that heaves and pitches on springs, in unsteady flow (Theodorsen)',
  inputs: [
    { key: 'chord', kind: 'length', help: 'of the section', default: 0.22 },
    { key: 'mass', kind: 'linear density', help: 'per length of span', default: 0.5 },
    { key: 'axis', kind: 'ratio', help: 'elastic axis, aft of the leading edge / chord', default: 0.35 },
    {
      key: 'balancePoint',
      kind: 'ratio',
      help: 'centre of mass of the section, aft of the leading edge / chord',
      default: 0.42,
    },
    { key: 'gyration', kind: 'ratio', help: 'radius of gyration about the elastic axis / chord', default: 0.25 },
    { key: 'bending', kind: 'frequency', help: 'of bending without air, plucked', default: 2 * Math.PI * 6 },
    { key: 'torsion', kind: 'frequency', help: 'of torsion without air', default: 2 * Math.PI * 25 },
    { key: 'density', kind: 'density', help: 'of the air', default: 1.225 },
  ],
  outputs: [
    { key: 'airspeed', kind: 'speed', help: 'at which the motion begins to grow' },
    { key: 'frequency', kind: 'frequency', help: 'of that motion' },
    { key: 'reducedFrequency', kind: 'ratio', help: 'frequency x semichord / airspeed' },
  ],
  compute: (values) => {
    const of = numbers(values, ['chord', 'mass', 'axis', 'balancePoint', 'gyration', 'bending', 'torsion', 'density']);
    const semichord = of.chord / 2;
    const massRatio = of.mass / (Math.PI * of.density * semichord ** 2);
    const section = {
      axis: 2 * of.axis - 1,
      balance: 2 * of.balancePoint - 1,
      massRatio,
      gyrationSquared: (2 * of.gyration) ** 2,
      frequencyRatio: of.bending / of.torsion,
    };
    const sensible =
      massRatio > 0.05 &&
      massRatio < 1e4 &&
      Math.abs(section.axis) < 1 &&
      Math.abs(section.balance) < 1 &&
      section.gyrationSquared > (section.balance - section.axis) ** 2 &&
      section.gyrationSquared < 4 &&
      section.frequencyRatio > 0.001 &&
      section.frequencyRatio < 20;
    if (!sensible)
      return {
        reason:
          'axis and balance point must lie within the chord, the radius of gyration be larger than their distance, and all other values positive',
        remedy: 'state a section as it can be built',
      };
    const found = sectionFlutter(section, 'theodorsen', 30);
    if (found === undefined)
      return {
        reason: `no flutter below ${(30 * semichord * of.torsion).toFixed(0)} m/s${sectionDivergence(section) === undefined ? '' : ', but it diverges'}`,
        remedy: 'a balance point at or ahead of the elastic axis does this',
      };
    const airspeed = found.speed * semichord * of.torsion;
    const frequency = found.frequency * of.torsion;
    return { airspeed, frequency, reducedFrequency: (frequency * semichord) / airspeed };
  },
};

const buzz: Relation = {
  topic: 'buzz',
  title: 'Airspeed at which a thin plate behind a spar begins to buzz (plane flow, no damping: a low estimate)',
  inputs: [
    { key: 'modulus', kind: 'pressure', help: 'of elasticity of the plate along the flow', default: 15e6 },
    { key: 'thickness', kind: 'length', help: 'of the plate', default: 0.006 },
    { key: 'length', kind: 'length', help: 'from where it is held to its trailing edge', default: 0.15 },
    { key: 'arealMass', kind: 'areal density', help: 'of the plate', default: 0.22 },
    { key: 'density', kind: 'density', help: 'of the air', default: 1.225 },
  ],
  outputs: [
    { key: 'airspeed', kind: 'speed', help: 'at which a travelling wave begins to grow' },
    { key: 'frequency', kind: 'frequency', help: 'of that wave' },
  ],
  compute: (values) => {
    const { modulus, thickness, length, arealMass, density } = numbers(values, [
      'modulus',
      'thickness',
      'length',
      'arealMass',
      'density',
    ]);
    const stiffness = (modulus * thickness ** 3) / (12 * (1 - 0.3 ** 2));
    const massRatio = (density * length) / arealMass;
    if (!(stiffness > 0) || !(massRatio > 0.02 && massRatio < 6))
      return {
        reason:
          'the plane theory is meant for air of 0.02 to 6 times the mass of the plate (density x length / areal mass)',
        remedy: 'state a plate of such mass',
      };
    const found = widePlateFlutter(massRatio);
    if (found === undefined) return { reason: 'no flutter was found', remedy: 'state a softer or lighter plate' };
    const scale = Math.sqrt(stiffness / arealMass);
    return { airspeed: (found.speed * scale) / length, frequency: (found.frequency * scale) / length ** 2 };
  },
};

const gust: Relation = {
  topic: 'gust',
  title: 'Load factor in a vertical gust, with what the wing can lift as a limit',
  inputs: [
    { key: 'mass', kind: 'mass', help: 'of the aircraft', default: 1.3 },
    { key: 'area', kind: 'area', help: 'of the wing', default: 0.5 },
    { key: 'meanChord', kind: 'length', help: 'of the wing', default: 0.22 },
    { key: 'airspeed', kind: 'speed', help: 'flown', default: 8 },
    { key: 'gustSpeed', kind: 'speed', help: 'upwards', default: 7.62 },
    { key: 'liftSlope', kind: 'ratio', help: 'of the aircraft per radian', default: 5 },
    { key: 'maximumLift', kind: 'ratio', help: 'greatest lift coefficient', default: 1.2 },
    { key: 'density', kind: 'density', help: 'of the air', default: 1.225 },
  ],
  outputs: [
    { key: 'loadFactor', kind: 'ratio', help: 'in the gust' },
    { key: 'withoutStall', kind: 'ratio', help: 'load factor by the rule, as if the wing did not stall' },
    { key: 'massRatio', kind: 'ratio', help: 'of aircraft and air' },
    { key: 'alleviation', kind: 'ratio', help: 'part of the gust that acts' },
  ],
  compute: (values) => {
    const of = numbers(values, [
      'mass',
      'area',
      'meanChord',
      'airspeed',
      'gustSpeed',
      'liftSlope',
      'maximumLift',
      'density',
    ]);
    if (
      !['mass', 'area', 'meanChord', 'airspeed', 'liftSlope', 'maximumLift', 'density'].every(
        (key) => of[key as keyof typeof of] > 0,
      )
    )
      return { reason: 'all values must be positive', remedy: 'state them' };
    const aircraft = { ...of, wingLoading: (of.mass * standardGravity) / of.area };
    const limited = gustLoad(aircraft, of.airspeed, of.gustSpeed);
    const { wingLoading, meanChord, liftSlope, density } = aircraft;
    const free = gustLoad({ wingLoading, meanChord, liftSlope, density }, of.airspeed, of.gustSpeed);
    return {
      loadFactor: limited.loadFactor,
      withoutStall: free.loadFactor,
      massRatio: limited.massRatio,
      alleviation: limited.alleviation,
    };
  },
};

const touchdown: Relation = {
  topic: 'touchdown',
  title: 'Force when skid or belly ends the sink: stopped evenly, and by ground that pushes back like a spring',
  inputs: [
    { key: 'sinkRate', kind: 'speed', help: 'at the ground', default: 1 },
    { key: 'way', kind: 'length', help: 'by which skid, belly or grass give', default: 0.02 },
    { key: 'carried', kind: 'ratio', help: 'share of the weight that the wing still carries', default: 1 },
  ],
  outputs: [
    { key: 'dropHeight', kind: 'length', help: 'of a fall that ends with this sink rate' },
    { key: 'even', kind: 'ratio', help: 'force / weight, the least that the way allows' },
    { key: 'spring', kind: 'ratio', help: 'force / weight at the end of the way of a spring' },
  ],
  compute: (values) => {
    const of = numbers(values, ['sinkRate', 'way', 'carried']);
    if (!(of.sinkRate >= 0 && of.sinkRate < 100 && of.way > 0 && of.carried >= 0 && of.carried <= 1))
      return {
        reason: 'the sink rate must not be negative, the way positive and the share carried between 0 and 1',
        remedy: 'give sinkRate=1m/s way=20mm',
      };
    return { dropHeight: of.sinkRate ** 2 / (2 * standardGravity), ...touchdownLoad(of) };
  },
};

const launch: Relation = {
  topic: 'launch',
  title: 'Launch on a line: how fast a bungee lets go, and what the pull asks of the wing',
  inputs: [
    { key: 'mass', kind: 'mass', help: 'of the aircraft', default: 2 },
    { key: 'pull', kind: 'force', help: 'greatest pull of the line; of a bungee its first', default: 40 },
    { key: 'way', kind: 'length', help: 'over which a bungee pulls until it is slack', default: 5 },
    { key: 'stallSpeed', kind: 'speed', help: 'of the aircraft', default: 7 },
  ],
  outputs: [
    { key: 'airspeed', kind: 'speed', help: 'at which a bungee lets go, drag left out: at most' },
    { key: 'push', kind: 'ratio', help: 'acceleration of the start over gravity, line straight ahead' },
    { key: 'loadFactor', kind: 'ratio', help: 'lift over weight in the climb, line straight down' },
    { key: 'climbSpeed', kind: 'speed', help: 'least airspeed that carries this' },
  ],
  compute: (values) => {
    const { mass, pull, way, stallSpeed } = numbers(values, ['mass', 'pull', 'way', 'stallSpeed']);
    if (![mass, pull, way, stallSpeed].every((value) => value > 0 && value < 1e6))
      return {
        reason: 'mass, pull, way and stall speed must be positive',
        remedy: 'give mass=2kg pull=40N way=5m stallSpeed=7m/s',
      };
    const loadFactor = lineLoadFactor(pull, mass * standardGravity);
    return {
      airspeed: bungeeSpeed(pull / 2, way, mass),
      push: pull / (mass * standardGravity),
      loadFactor,
      climbSpeed: stallSpeed * Math.sqrt(loadFactor),
    };
  },
};

/** Relations of launches, divergence, reversal, flutter, buzz, gusts and touchdown. */
export const aeroelasticRelations: readonly Relation[] = [divergence, reversal, flutter, buzz, gust, touchdown, launch];
