import type { Relation, RelationInput, RelationValues } from '../relation.js';
import { actuatorDisc, propellerCoefficients } from './actuatorDisc.js';
import { bladeElementLoads } from './bladeElement.js';
import { genericBladeSection } from './bladeSection.js';
import { driveAtThrust } from './match.js';
import { directDrive, motor, motorFromTorque, motorLandmarks } from './motor.js';
import { uncorrectedPropeller } from './propeller.js';
import { designPropeller, genericPropeller } from './propellerDesign.js';
import { nominalPitch } from './propellerGeometry.js';
import { buildPropellerTable } from './propellerTable.js';
import { genericSpeedController, type SpeedController, speedControllerLoss } from './speedController.js';
import { maximumThrust } from './throttle.js';

const number = (values: RelationValues, key: string): number => Number(values[key]);

const rpm = (perMinute: number) => (perMinute * Math.PI) / 30;

const airInputs: readonly RelationInput[] = [
  { key: 'density', kind: 'density', help: 'density of the air', default: 1.225 },
  { key: 'viscosity', kind: 'dynamic viscosity', help: 'viscosity of the air', default: 1.7894e-5 },
];

const airOf = (values: RelationValues) => ({
  density: number(values, 'density'),
  dynamicViscosity: number(values, 'viscosity'),
  soundSpeed: 340.294,
});

const propellerInputs: readonly RelationInput[] = [
  { key: 'diameter', kind: 'length', help: 'propeller diameter', default: 0.254 },
  { key: 'pitch', kind: 'length', help: 'nominal pitch at 0.75 of the radius', default: 0.1524 },
  { key: 'blades', kind: 'count', help: 'number of blades', default: 2 },
  { key: 'chord', kind: 'ratio', help: 'chord over tip radius at 0.75 of the radius', default: 0.13 },
  {
    ...{ key: 'zeroLiftAngle', kind: 'angle', help: 'zero-lift angle of the blade section' },
    default: genericBladeSection.zeroLiftAngle,
  },
];

const motorInputs: readonly RelationInput[] = [
  {
    key: 'speedConstant',
    kind: 'motor speed constant',
    help: 'speed constant of the motor',
    default: (1000 * Math.PI) / 30,
  },
  { key: 'resistance', kind: 'resistance', help: 'resistance between the motor terminals', default: 0.1 },
  { key: 'noLoadCurrent', kind: 'current', help: 'current of the unloaded motor', default: 0.6 },
];

const controllerInputs: readonly RelationInput[] = [
  { key: 'switchResistance', kind: 'resistance', help: 'resistance of one switch', default: 0.003 },
  {
    ...{ key: 'rectification', kind: 'choice', choices: ['diode', 'synchronous'], default: 'diode' },
    help: 'what conducts while the switches are off',
  },
  { key: 'diodeVoltage', kind: 'voltage', help: 'forward voltage of the diode', default: 0.7 },
  { key: 'switchingTime', kind: 'time', help: 'rise and fall time of a switch', default: 200e-9 },
  { key: 'switchingPeriod', kind: 'time', help: 'time between two pulses', default: 1 / 16000 },
  { key: 'standbyPower', kind: 'power', help: 'power without load', default: 0.3 },
];

const controllerOf = (values: RelationValues): SpeedController => ({
  switchResistance: number(values, 'switchResistance'),
  synchronous: values.rectification === 'synchronous',
  diodeVoltage: number(values, 'diodeVoltage'),
  switchingTime: number(values, 'switchingTime'),
  switchingFrequency: 1 / number(values, 'switchingPeriod'),
  standbyPower: number(values, 'standbyPower'),
});

interface Refusal {
  readonly reason: string;
  readonly remedy: string;
}

/** Refuses inputs that are not positive. */
function notPositive(values: RelationValues, keys: readonly string[]): Refusal | undefined {
  const wrong = keys.find((key) => !(number(values, key) > 0));
  return wrong === undefined
    ? undefined
    : { reason: `${wrong} is not positive.`, remedy: `Give ${wrong} a value above zero.` };
}

function negative(values: RelationValues, keys: readonly string[]): Refusal | undefined {
  const wrong = keys.find((key) => !(number(values, key) >= 0));
  return wrong === undefined ? undefined : { reason: `${wrong} is negative.`, remedy: `Give ${wrong} zero or more.` };
}

const geometryOf = (values: RelationValues) =>
  genericPropeller({
    diameter: number(values, 'diameter'),
    pitch: number(values, 'pitch'),
    bladeCount: Math.round(number(values, 'blades')),
    chordFraction: number(values, 'chord'),
    section: { ...genericBladeSection, zeroLiftAngle: number(values, 'zeroLiftAngle') },
  });

const motorOf = (values: RelationValues) =>
  motor({
    speedConstant: number(values, 'speedConstant'),
    resistance: number(values, 'resistance'),
    noLoadCurrent: number(values, 'noLoadCurrent'),
  });

const motorRelation: Relation = {
  topic: 'motor',
  title: 'Three-constant motor: current, voltage and efficiency for a torque at a speed',
  inputs: [
    ...motorInputs,
    { key: 'torque', kind: 'torque', help: 'shaft torque', default: 0.09 },
    { key: 'speed', kind: 'angular speed', help: 'shaft speed', default: rpm(9500) },
  ],
  outputs: [
    { key: 'current', kind: 'current', help: 'motor current' },
    { key: 'voltage', kind: 'voltage', help: 'motor voltage' },
    { key: 'shaftPower', kind: 'power', help: 'power at the shaft' },
    { key: 'efficiency', kind: 'ratio', help: 'shaft power over electric power' },
    { key: 'bestEfficiency', kind: 'ratio', help: 'highest efficiency at that voltage' },
    { key: 'bestCurrent', kind: 'current', help: 'current at the highest efficiency' },
    { key: 'stallCurrent', kind: 'current', help: 'current of the blocked motor' },
    { key: 'noLoadSpeed', kind: 'angular speed', help: 'speed of the unloaded motor' },
  ],
  compute: (values) => {
    const refused =
      notPositive(values, ['speedConstant', 'resistance']) ?? negative(values, ['noLoadCurrent', 'torque', 'speed']);
    if (refused !== undefined) return refused;
    const given = motorOf(values);
    const { current, voltage, efficiency, torque, rotationRate } = motorFromTorque(
      given,
      number(values, 'torque'),
      number(values, 'speed'),
    );
    if (!(voltage > given.noLoadCurrent * given.resistance))
      return { reason: 'The motor stands still without torque.', remedy: 'Give a torque or a speed above zero.' };
    const { bestEfficiency, bestCurrent, stallCurrent, noLoadSpeed } = motorLandmarks(given, voltage);
    const shaftPower = torque * rotationRate;
    return { current, voltage, shaftPower, efficiency, bestEfficiency, bestCurrent, stallCurrent, noLoadSpeed };
  },
};

const propellerRelation: Relation = {
  topic: 'propeller',
  title: 'Generic propeller by blade elements: thrust, power and coefficients at an airspeed and a speed',
  inputs: [
    ...propellerInputs,
    { key: 'airspeed', kind: 'speed', help: 'airspeed along the axis', default: 10 },
    { key: 'speed', kind: 'angular speed', help: 'propeller speed', default: rpm(6000) },
    ...airInputs,
  ],
  outputs: [
    { key: 'thrust', kind: 'force', help: 'thrust, negative when it brakes' },
    { key: 'shaftPower', kind: 'power', help: 'power at the shaft, negative when the air drives' },
    { key: 'advanceRatio', kind: 'ratio', help: 'airspeed over revolutions per second times diameter' },
    { key: 'thrustCoefficient', kind: 'ratio', help: 'CT = T / (rho n^2 D^4)' },
    { key: 'powerCoefficient', kind: 'ratio', help: 'CP = P / (rho n^3 D^5)' },
    { key: 'efficiency', kind: 'ratio', help: 'thrust times airspeed over shaft power, 0 where it has no meaning' },
    { key: 'idealEfficiency', kind: 'ratio', help: 'of an actuator disc with the same thrust, 0 without thrust' },
  ],
  compute: (values) => {
    const refused = notPositive(values, ['speed', 'density', 'viscosity']) ?? negative(values, ['airspeed']);
    if (refused !== undefined) return refused;
    const geometry = geometryOf(values);
    if (!geometry.ok) return geometry;
    const air = airOf(values);
    const operation = { airspeed: number(values, 'airspeed'), rotationRate: number(values, 'speed') };
    const { thrust, torque } = bladeElementLoads({ geometry: geometry.value, ...operation, ...air });
    const shaftPower = torque * operation.rotationRate;
    const { diameter } = geometry.value;
    const { density } = air;
    const coefficients = propellerCoefficients({ thrust, power: shaftPower, ...operation, diameter, density });
    const { advanceRatio, thrustCoefficient, powerCoefficient, efficiency } = coefficients;
    const idealEfficiency =
      thrust > 0 ? actuatorDisc({ thrust, airspeed: operation.airspeed, diameter, density }).efficiency : 0;
    return { thrust, shaftPower, advanceRatio, thrustCoefficient, powerCoefficient, efficiency, idealEfficiency };
  },
};

const designRelation: Relation = {
  topic: 'propeller-design',
  title: 'Propeller of minimum induced loss for a thrust',
  inputs: [
    { key: 'diameter', kind: 'length', help: 'propeller diameter', default: 0.5 },
    { key: 'blades', kind: 'count', help: 'number of blades', default: 2 },
    { key: 'airspeed', kind: 'speed', help: 'design airspeed', default: 10 },
    { key: 'speed', kind: 'angular speed', help: 'propeller speed', default: rpm(2400) },
    { key: 'thrust', kind: 'force', help: 'design thrust', default: 5 },
    { key: 'liftCoefficient', kind: 'ratio', help: 'lift coefficient of every section', default: 0.5 },
    { key: 'dragToLift', kind: 'ratio', help: 'drag over lift of every section', default: 0.03 },
    { key: 'hub', kind: 'ratio', help: 'root radius over tip radius', default: 0.15 },
    { key: 'density', kind: 'density', help: 'density of the air', default: 1.225 },
  ],
  outputs: [
    { key: 'efficiency', kind: 'ratio', help: 'thrust times airspeed over shaft power' },
    { key: 'idealEfficiency', kind: 'ratio', help: 'of an actuator disc with the same thrust' },
    { key: 'shaftPower', kind: 'power', help: 'power at the shaft' },
    { key: 'displacementRatio', kind: 'ratio', help: 'displacement velocity of the wake over airspeed' },
    { key: 'pitch', kind: 'length', help: 'nominal pitch at 0.75 of the radius' },
    { key: 'widestChord', kind: 'length', help: 'largest chord of the blade' },
  ],
  compute: (values) => {
    const refused = notPositive(values, ['diameter', 'blades', 'airspeed', 'speed', 'thrust', 'density']);
    if (refused !== undefined) return refused;
    const [diameter, airspeed, density] = [
      number(values, 'diameter'),
      number(values, 'airspeed'),
      number(values, 'density'),
    ];
    const thrust = number(values, 'thrust');
    const design = designPropeller({
      ...{ diameter, airspeed, density, bladeCount: Math.round(number(values, 'blades')), load: { thrust } },
      rotationRate: number(values, 'speed'),
      liftCoefficient: number(values, 'liftCoefficient'),
      dragToLift: number(values, 'dragToLift'),
      hubFraction: number(values, 'hub'),
      section: genericBladeSection,
    });
    if (!design.ok) return design;
    const { geometry, efficiency, power, displacementRatio } = design.value;
    return {
      efficiency,
      idealEfficiency: actuatorDisc({ thrust, airspeed, diameter, density }).efficiency,
      shaftPower: power,
      displacementRatio,
      pitch: nominalPitch(geometry),
      widestChord: (Math.max(...geometry.stations.map((s) => s.chordFraction)) * diameter) / 2,
    };
  },
};

const controllerRelation: Relation = {
  topic: 'speed-controller',
  title: 'Loss and efficiency of a speed controller (ESC)',
  inputs: [
    { key: 'voltage', kind: 'voltage', help: 'voltage at the input', default: 11.1 },
    { key: 'current', kind: 'current', help: 'motor current', default: 5 },
    { key: 'duty', kind: 'ratio', help: 'share of the voltage that is passed on', default: 0.6 },
    ...controllerInputs,
  ],
  outputs: [
    { key: 'loss', kind: 'power', help: 'power lost' },
    { key: 'outputPower', kind: 'power', help: 'duty times voltage times motor current' },
    { key: 'batteryCurrent', kind: 'current', help: 'current from the battery' },
    { key: 'efficiency', kind: 'ratio', help: 'output over output and loss' },
  ],
  compute: (values) => {
    const refused = notPositive(values, ['voltage', 'current', 'duty', 'switchingPeriod']);
    if (refused !== undefined) return refused;
    const duty = number(values, 'duty');
    if (duty > 1) return { reason: 'The duty exceeds 1.', remedy: 'Give a duty up to 1.' };
    const [busVoltage, motorCurrent] = [number(values, 'voltage'), number(values, 'current')];
    const loss = speedControllerLoss(controllerOf(values), { busVoltage, motorCurrent, duty });
    const outputPower = duty * busVoltage * motorCurrent;
    const batteryCurrent = (outputPower + loss) / busVoltage;
    return { loss, outputPower, batteryCurrent, efficiency: outputPower / (outputPower + loss) };
  },
};

const driveRelation: Relation = {
  topic: 'drive',
  title: 'Battery power for a thrust at an airspeed with a generic propeller',
  inputs: [
    { key: 'thrust', kind: 'force', help: 'thrust of all propellers', default: 1.5 },
    { key: 'airspeed', kind: 'speed', help: 'airspeed along the axis', default: 10 },
    { key: 'voltage', kind: 'voltage', help: 'bus voltage, open-circuit with a battery resistance', default: 11.1 },
    { key: 'batteryResistance', kind: 'resistance', help: 'internal resistance of battery and leads', default: 0 },
    { key: 'motors', kind: 'count', help: 'number of equal motors', default: 1 },
    { key: 'gearRatio', kind: 'ratio', help: 'motor speed over propeller speed', default: 1 },
    { key: 'gearEfficiency', kind: 'ratio', help: 'efficiency of the gear', default: 1 },
    ...propellerInputs,
    ...motorInputs,
    ...airInputs,
  ],
  outputs: [
    { key: 'electricPower', kind: 'power', help: 'power at the battery terminals' },
    { key: 'duty', kind: 'ratio', help: 'throttle duty' },
    { key: 'batteryCurrent', kind: 'current', help: 'current at the battery terminals' },
    { key: 'motorCurrent', kind: 'current', help: 'current of one motor' },
    { key: 'speed', kind: 'angular speed', help: 'propeller speed' },
    { key: 'propellerEfficiency', kind: 'ratio', help: 'thrust times airspeed over shaft power' },
    { key: 'motorEfficiency', kind: 'ratio', help: 'efficiency of the motor' },
    { key: 'controllerEfficiency', kind: 'ratio', help: 'efficiency of the speed controller' },
    { key: 'efficiency', kind: 'ratio', help: 'thrust times airspeed over electric power' },
    { key: 'maximumThrust', kind: 'force', help: 'greatest thrust at that airspeed' },
  ],
  compute: (values) => {
    const positive = ['voltage', 'motors', 'gearRatio', 'gearEfficiency', 'speedConstant', 'resistance'];
    const refused =
      notPositive(values, [...positive, 'density', 'viscosity']) ??
      negative(values, ['thrust', 'airspeed', 'batteryResistance', 'noLoadCurrent']);
    if (refused !== undefined) return refused;
    const geometry = geometryOf(values);
    if (!geometry.ok) return geometry;
    const gear = { ratio: number(values, 'gearRatio'), efficiency: number(values, 'gearEfficiency') };
    const conditions = {
      drive: {
        propeller: uncorrectedPropeller(buildPropellerTable(geometry.value)),
        motor: motorOf(values),
        gear: gear.ratio === 1 && gear.efficiency === 1 ? directDrive : gear,
        controller: genericSpeedController,
        count: Math.max(1, Math.round(number(values, 'motors'))),
      },
      ...{ airspeed: number(values, 'airspeed'), air: airOf(values), busVoltage: number(values, 'voltage') },
      batteryResistance: number(values, 'batteryResistance'),
    };
    const matched = driveAtThrust({ ...conditions, thrust: number(values, 'thrust') });
    if (!matched.ok) return matched;
    const greatest = maximumThrust(conditions);
    if (!greatest.ok) return greatest;
    const { electricPower, duty, batteryCurrent, motorCurrent, rotationRate, efficiency } = matched.value;
    const { propellerEfficiency, motorEfficiency, controllerEfficiency } = matched.value;
    return {
      ...{ electricPower, duty, batteryCurrent, motorCurrent, speed: rotationRate, efficiency },
      ...{ propellerEfficiency, motorEfficiency, controllerEfficiency },
      maximumThrust: greatest.value.state.thrust,
    };
  },
};

/** Refuses a number that is none before the relation sees it. */
const guarded = (relation: Relation): Relation => ({
  ...relation,
  compute: (values) => {
    const wrong = relation.inputs.find(({ key, kind }) => kind !== 'choice' && !Number.isFinite(values[key]));
    if (wrong !== undefined) return { reason: `${wrong.key} is not a number.`, remedy: `Give ${wrong.key} a number.` };
    return relation.compute(values);
  },
});

/** Relations of the drive that can be asked for on their own. */
export const driveRelations: readonly Relation[] = [
  motorRelation,
  propellerRelation,
  designRelation,
  controllerRelation,
  driveRelation,
].map(guarded);
