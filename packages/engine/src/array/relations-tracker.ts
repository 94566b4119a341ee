import type { Relation, RelationValues } from '../relation.js';
import { compassDeviation, longWireField, wirePairField } from './magnetic.js';
import { numberOf, outOfRange, sheetCell } from './relation-inputs.js';
import { shadedString, stringInputs, stringRanges } from './relations-power.js';
import { type SeriesString, seriesString, stringOpenCircuitVoltage } from './string.js';
import { stringMaxima } from './string-maximum.js';
import type { Tracker } from './tracker.js';
import { trackerCourse } from './tracker-course.js';
import type { CellParameters } from './translate.js';

const methods = ['perturb and observe', 'fraction of open circuit', 'fixed voltage', 'sweep'] as const;

/** Tracker of a relation's inputs. */
function trackerOf(values: RelationValues): Tracker {
  const period = numberOf(values, 'period');
  switch (values.method) {
    case 'fraction of open circuit':
      return { method: values.method, fraction: numberOf(values, 'fraction'), period, pause: 0.3 };
    case 'fixed voltage':
      return { method: values.method, voltage: numberOf(values, 'fixedVoltage') };
    case 'sweep':
      return { method: values.method, period, duration: Math.min(numberOf(values, 'sweepTime'), period / 2) };
    default:
      return { method: 'perturb and observe', step: numberOf(values, 'step'), period };
  }
}

/** Light on the string as it turns: a cosine about its mean, in steps of 0.5 % so that few strings are solved. */
function turningString(values: RelationValues, cell: CellParameters): (time: number) => SeriesString {
  const swing = numberOf(values, 'swing');
  const turn = numberOf(values, 'turnTime');
  const known = new Map<number, SeriesString>();
  return (time) => {
    const factor = 1 + swing * Math.cos((2 * Math.PI * time) / turn);
    const level = Math.round(200 * factor);
    let string = known.get(level);
    if (string === undefined) {
      const lit = (key: string) => (numberOf(values, key) * level) / 200;
      string = seriesString(
        shadedString({ ...values, irradiance: lit('irradiance'), shadedIrradiance: lit('shadedIrradiance') }, cell),
      );
      known.set(level, string);
    }
    return string;
  };
}

const trackerRelation: Relation = {
  topic: 'tracker',
  title: 'What a tracker takes from a string through a turn, and where it is caught',
  inputs: [
    { key: 'method', kind: 'choice', choices: methods, help: 'how the input voltage is found', default: methods[0] },
    { key: 'step', kind: 'voltage', help: 'of perturb and observe', default: 0.05 },
    { key: 'period', kind: 'time', help: 'between steps, looks or sweeps', default: 0.05 },
    { key: 'fraction', kind: 'ratio', help: 'of the open-circuit voltage', default: 0.8 },
    { key: 'fixedVoltage', kind: 'voltage', help: 'of a fixed setting', default: 6.5 },
    { key: 'sweepTime', kind: 'time', help: 'of one sweep; at most half of the period', default: 0.2 },
    { key: 'timeConstant', kind: 'time', help: 'of the input voltage behind its setting', default: 0.02 },
    { key: 'startVoltage', kind: 'voltage', help: 'at which it is switched on; 0 for open circuit', default: 0 },
    { key: 'duration', kind: 'time', help: 'looked at', default: 20 },
    { key: 'swing', kind: 'ratio', help: 'of the light about its mean in the turn', default: 0 },
    { key: 'turnTime', kind: 'time', help: 'of one circle', default: 20 },
    ...stringInputs,
  ],
  outputs: [
    { key: 'share', kind: 'ratio', help: 'energy taken over the energy that was there' },
    { key: 'caught', kind: 'ratio', help: 'of the time with less than 95 % of the greatest power' },
    { key: 'endVoltage', kind: 'voltage', help: 'at which the string is held at the end' },
    { key: 'endPower', kind: 'power', help: 'taken at the end' },
    { key: 'greatestPower', kind: 'power', help: 'there at the end' },
    { key: 'greatestVoltage', kind: 'voltage', help: 'at which that would be' },
    { key: 'trapVoltage', kind: 'voltage', help: 'of the next lower maximum; 0 for none' },
    { key: 'trapPower', kind: 'power', help: 'of the next lower maximum; 0 for none' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, {
      ...stringRanges,
      step: [1e-4, 10],
      period: [1e-3, 1000],
      fraction: [0.05, 1],
      fixedVoltage: [0, 1000],
      sweepTime: [1e-3, 100],
      timeConstant: [0, 60],
      startVoltage: [0, 1000],
      duration: [0.1, 600],
      swing: [0, 1],
      turnTime: [0.1, 1e4],
    });
    if (refusal !== undefined) return refusal;
    const cell = sheetCell(values);
    if ('reason' in cell) return cell;
    const stringAt = turningString(values, cell);
    const duration = numberOf(values, 'duration');
    const startVoltage = numberOf(values, 'startVoltage');
    const course = trackerCourse({
      tracker: trackerOf(values),
      stringAt,
      duration,
      step: Math.max(duration / 5000, 0.005),
      timeConstant: numberOf(values, 'timeConstant'),
      ...(startVoltage > 0 ? { startVoltage } : {}),
    });
    const end = stringAt(duration);
    if (!(stringOpenCircuitVoltage(end) > 0)) return { reason: 'there is no light', remedy: 'give an irradiance' };
    const [best, trap] = stringMaxima(end);
    return {
      share: course.share,
      caught: course.caught,
      endVoltage: course.voltage.at(-1)!,
      endPower: course.power.at(-1)!,
      greatestPower: best?.power ?? 0,
      greatestVoltage: best?.voltage ?? 0,
      trapVoltage: trap?.voltage ?? 0,
      trapPower: trap?.power ?? 0,
    };
  },
};

const wireFieldRelation: Relation = {
  topic: 'wire-field',
  title: 'Magnetic field of a wire or pair of wires at the compass',
  inputs: [
    { key: 'current', kind: 'current', help: 'in the wire', default: 5 },
    { key: 'distance', kind: 'length', help: 'of the compass from the nearer wire', default: 0.1 },
    { key: 'spacing', kind: 'length', help: 'to the return wire; 0 for a single wire', default: 0 },
    { key: 'latitudeField', kind: 'ratio', help: 'horizontal field of the earth in microtesla', default: 25 },
  ],
  outputs: [
    { key: 'microtesla', kind: 'ratio', help: 'flux density at the compass, in microtesla' },
    { key: 'deviation', kind: 'angle', help: 'largest deviation of the compass' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, {
      current: [0, 1000],
      distance: [1e-3, 100],
      spacing: [0, 100],
      latitudeField: [1, 100],
    });
    if (refusal !== undefined) return refusal;
    const [current, distance, spacing] = ['current', 'distance', 'spacing'].map((key) => numberOf(values, key));
    const field = spacing! > 0 ? wirePairField(current!, distance!, spacing!) : longWireField(current!, distance!);
    return {
      microtesla: field * 1e6,
      deviation: compassDeviation(field, numberOf(values, 'latitudeField') * 1e-6),
    };
  },
};

/** Relations of trackers and of the field of wires. */
export const trackerRelations: readonly Relation[] = [trackerRelation, wireFieldRelation];
