import { brentRoot } from '../math/index.js';
import {
  type ArraySource,
  type Converter,
  type ConverterLoss,
  type ConverterOutput,
  type ConverterQuestion,
  type ConverterReason,
  convertedPower,
  diodeDropOf,
  inputWindow,
  neededInput,
  sketchedCurrent,
  type Tracking,
} from './converter.js';

/** Static tracking efficiency that is assumed where none is given. Common practice, no source: 0.98 to 0.999. */
export const defaultTrackingEfficiency = 0.99;

/** Where the string is held, and why, before current and power limits. */
interface Operating {
  readonly voltage: number;
  readonly reason: ConverterReason;
  readonly passesThrough: boolean;
}

/** Input voltage that a tracker asks for [V]. */
function wantedVoltage(source: ArraySource, tracking: Tracking): number {
  if (tracking.method === 'maximum power') return source.maximum.voltage;
  return tracking.method === 'fixed voltage' ? tracking.voltage : tracking.fraction * source.openCircuitVoltage;
}

/**
 * Share of the greatest power that a way of choosing the input voltage takes from a string.
 *
 * @param source - the string
 * @param tracking - maximum power with its static efficiency, a fixed voltage, or a fraction of open circuit
 * @returns share, 0 to 1; 0 in the dark
 * Source: static tracking efficiency as defined by EN 50530 and IEC 62891, at one operating point.
 */
export function trackingFraction(source: ArraySource, tracking: Tracking): number {
  if (!(source.maximum.power > 0)) return 0;
  if (tracking.method === 'maximum power') return tracking.efficiency ?? defaultTrackingEfficiency;
  const voltage = wantedVoltage(source, tracking);
  return (voltage * currentOf(source, voltage)) / source.maximum.power;
}

/** Input voltage that the tracker asks for, held inside the window. */
function operatingVoltage(question: ConverterQuestion): Operating {
  const { converter, source, batteryVoltage } = question;
  const window = inputWindow(converter, batteryVoltage);
  const { tracking, topology } = converter;
  if (topology === 'direct') {
    return { voltage: window.low, reason: 'no converter: the battery sets the string voltage', passesThrough: true };
  }
  const wanted = wantedVoltage(source, tracking);
  const reason: ConverterReason =
    tracking.method === 'maximum power' ? 'the light on the cells' : 'the input voltage at which the converter is set';
  if (wanted < window.low) {
    return {
      voltage: window.low,
      reason: 'the string voltage is too low for the battery with this converter',
      passesThrough: false,
    };
  }
  if (wanted <= (topology === 'boost' ? Math.min(batteryVoltage, window.high) : window.high)) {
    return { voltage: wanted, reason, passesThrough: false };
  }
  if (topology === 'boost' && window.high > batteryVoltage) {
    return {
      voltage: Math.min(window.high, Math.max(wanted, batteryVoltage)),
      reason: 'the string voltage is above the battery: a boost converter can only pass it through',
      passesThrough: true,
    };
  }
  return { voltage: window.high, reason: 'the string voltage is too high for this converter', passesThrough: false };
}

const currentOf = (source: ArraySource, voltage: number): number => {
  if (voltage === source.maximum.voltage) return source.maximum.current;
  if (voltage >= source.openCircuitVoltage) return 0;
  return Math.max(source.currentAt === undefined ? sketchedCurrent(source, voltage) : source.currentAt(voltage), 0);
};

/** Output in stand-by. */
function standby(question: ConverterQuestion, limitedBy: ConverterReason): ConverterOutput {
  const draw = question.converter.standbyPower;
  return {
    power: -draw,
    current: -draw / question.batteryVoltage,
    inputVoltage: question.source.openCircuitVoltage,
    inputPower: 0,
    losses: { tracking: 0, conversion: draw, unused: question.source.maximum.power },
    limitedBy,
    uncontrolledPower: 0,
  };
}

/**
 * The tightest of the limits on output, as power [W] with its reason. A string that is connected straight through is
 * not limited by the converter's ratings.
 */
function outputLimit(
  question: ConverterQuestion,
  operating: Operating,
): { readonly power: number; readonly reason: ConverterReason } {
  const { acceptance, batteryVoltage } = question;
  const limits = operating.passesThrough ? {} : question.converter.limits;
  const most = 1e30; // stands for 'no limit' and keeps products finite
  let power = limits.outputPower ?? most;
  let reason: ConverterReason = 'the output power limit of the converter';
  const byCurrent = (limits.outputCurrent ?? most) * batteryVoltage;
  if (byCurrent < power) {
    power = byCurrent;
    reason = 'the output current limit of the converter';
  }
  let accepted = acceptance?.power ?? most;
  if (acceptance?.current !== undefined) accepted = Math.min(accepted, acceptance.current * batteryVoltage);
  if (accepted < power) {
    power = Math.max(accepted, 0);
    reason = 'the battery accepts no more';
  }
  return { power, reason };
}

/** Voltage above `from` at which the string gives less: `excess` falls through zero there. */
const retreat = (source: ArraySource, from: number, excess: (voltage: number) => number): number =>
  brentRoot(excess, from, source.openCircuitVoltage, { tolerance: 1e-7 }) ?? source.openCircuitVoltage;

/**
 * What a converter delivers from a string to the battery.
 *
 * The tracker chooses an input voltage, topology and battery hold it inside a window, then limits on input current,
 * input power, output current, output power and the battery's acceptance move it towards open circuit.
 *
 * @param question - converter, source (`stringSource`, or three remembered points), battery voltage [V], acceptance
 * @returns power and current into the bus, input voltage, losses that add up to the available power, and the reason
 *   why it is not more
 */
export function converterOutput(question: ConverterQuestion): ConverterOutput {
  const { source, batteryVoltage } = question;
  if (!(source.maximum.power > 0)) return standby(question, 'no light');
  const { limits, topology } = question.converter;
  if (limits.startVoltage !== undefined && source.openCircuitVoltage < limits.startVoltage) {
    return standby(question, 'too little light to run the converter');
  }
  if (topology !== 'direct' && limits.outputVoltage !== undefined && batteryVoltage >= limits.outputVoltage) {
    return standby(question, 'the battery accepts no more');
  }
  const operating = operatingVoltage(question);
  const input = limitedInput(question, operating);
  if (!(input.power > 0)) return standby(question, tooLow(question.converter, input.reason));
  const loss = operating.passesThrough ? passThroughLoss(operating.voltage, batteryVoltage) : question.converter.loss;
  const converted = convertedPower(loss, input.power, batteryVoltage, input.voltage);
  const limit = outputLimit(question, operating);
  const limited = converted > limit.power;
  const power = limited ? limit.power : converted;
  const reason = limited ? limit.reason : input.reason;
  if (!(power > 0)) return standby(question, limited ? reason : 'too little light to run the converter');
  const inputPower = limited ? neededInput(loss, power, batteryVoltage, input.voltage) : input.power;
  const inputVoltage = limited
    ? heldVoltage(question, (v) => v * currentOf(source, v) - inputPower, input.voltage, operating)
    : input.voltage;
  return {
    power,
    current: power / batteryVoltage,
    inputVoltage,
    inputPower,
    losses: {
      tracking: source.maximum.power - input.tracked,
      conversion: inputPower - power,
      unused: input.tracked - inputPower,
    },
    limitedBy: reason,
    uncontrolledPower: limited ? Math.max(feedThroughPower(question) - power, 0) : 0,
  };
}

/** Power that a boost converter or a direct connection cannot hold back from the battery [W]. */
function feedThroughPower(question: ConverterQuestion): number {
  const { converter, source, batteryVoltage } = question;
  if (converter.topology !== 'boost' && converter.topology !== 'direct') return 0;
  return batteryVoltage * currentOf(source, batteryVoltage + diodeDropOf(converter));
}

/** Input voltage of a converter that holds its string back; no higher than where a boost converter feeds through. */
function heldVoltage(
  question: ConverterQuestion,
  excess: (voltage: number) => number,
  from: number,
  operating: Operating,
): number {
  if (operating.passesThrough) return from;
  const voltage = retreat(question.source, from, excess);
  if (question.converter.topology !== 'boost') return voltage;
  return Math.min(voltage, Math.max(from, question.batteryVoltage + diodeDropOf(question.converter)));
}

/** Input of the converter after its own input limits. */
interface LimitedInput {
  readonly voltage: number;
  readonly power: number;
  /** Power at the tracked point before any limit [W]. */
  readonly tracked: number;
  readonly reason: ConverterReason;
}

/** Input voltage and power after the limits on input current and power; a string connected straight through has none. */
function limitedInput(question: ConverterQuestion, operating: Operating): LimitedInput {
  const { converter, source } = question;
  let { voltage, reason } = operating;
  const current = currentOf(source, voltage);
  if (operating.passesThrough) return { voltage, power: voltage * current, tracked: voltage * current, reason };
  const efficiency =
    converter.tracking.method === 'maximum power' ? (converter.tracking.efficiency ?? defaultTrackingEfficiency) : 1;
  const tracked = voltage * current * efficiency;
  let power = tracked;
  const { inputCurrent, inputPower } = converter.limits;
  if (inputCurrent !== undefined && current > inputCurrent) {
    voltage = retreat(source, voltage, (v) => currentOf(source, v) - inputCurrent);
    power = Math.min(voltage * inputCurrent, tracked);
    reason = 'the input current limit of the converter';
  }
  if (inputPower !== undefined && power > inputPower) {
    voltage = retreat(source, voltage, (v) => v * currentOf(source, v) - inputPower);
    power = inputPower;
    reason = 'the input power limit of the converter';
  }
  return { voltage, power, tracked, reason };
}

/** Reason of an output of zero: a string that hangs on the battery through a diode is then below it. */
const tooLow = (converter: Converter, reason: ConverterReason): ConverterReason =>
  converter.topology === 'direct' ? 'the string voltage is too low for the battery with this converter' : reason;

/** Loss of the diode that carries the current straight to the battery. */
const passThroughLoss = (inputVoltage: number, batteryVoltage: number): ConverterLoss => ({
  fixed: 0,
  perAmpere: Math.max(inputVoltage - batteryVoltage, 0),
  resistance: 0,
});
