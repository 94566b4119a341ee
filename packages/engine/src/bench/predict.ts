import {
  type ArraySource,
  cellString,
  climbedMaximum,
  converterOutput,
  evenDiodes,
  faimanTemperature,
  groupStates,
  maximumPowerPoint,
  openCircuitVoltage,
  type SeriesString,
  shortCircuitCurrent,
  stringMaxima,
  stringSource,
  stringVoltageAtCurrent,
} from '../array/index.js';
import { type BenchSky, benchLight, benchSky } from './light.js';
import type { BenchReading, BenchSetup, BenchUnit, Fault, Observables } from './types.js';

/** What is not known about a bench, as deviations from the model. */
export interface Deviations {
  /** Relative: light of a clear sky; current of the cells under their film; conversion; voltage of the cells. */
  readonly light: number;
  readonly array: number;
  readonly converter: number;
  readonly voltage: number;
  /** [K] */
  readonly warmth: number;
  /** [rad] */
  readonly tilt: number;
  readonly facing: number;
}

export const noDeviation: Deviations = { light: 0, array: 0, converter: 0, voltage: 0, warmth: 0, tilt: 0, facing: 0 };

export type DeviationName = keyof Deviations;

/** Wind at a bench in the open, where none is noted [m/s] (judgement). */
export const benchWind = 2;

/** Light and warmth of the cells at a reading. */
interface Conditions {
  readonly total: number;
  readonly effective: number;
  readonly temperature: number;
}

/** A string on the bench: all cells in one light, some of them shaded or cracked. */
function unitString(unit: BenchUnit, at: Conditions, deviations: Deviations, shaded: Fault['shaded']): SeriesString {
  const irradiance = at.effective * (1 + deviations.array);
  const { temperature } = at;
  const dim = Math.min(shaded?.cells ?? 0, unit.cells);
  // Shaded cells lie side by side, so that they share diodes as in a real shadow.
  const cells = Array.from({ length: unit.cells }, (_, k) => ({
    irradiance: k < dim ? irradiance * shaded!.share : irradiance,
    temperature,
    ...(deviations.voltage === 0 ? {} : { voltageFactor: 1 + deviations.voltage }),
  }));
  const diodes = unit.cellsPerDiode > 0 ? evenDiodes(unit.cells, unit.cellsPerDiode) : [];
  return cellString({ cell: unit.cell, diodes, seriesResistance: unit.seriesResistance }, cells);
}

/** A sound string by one of its cells. */
function soundSource(string: SeriesString, cells: number): ArraySource {
  const { curve } = string.substrings[0]!.groups[0]!;
  const shared = { ...curve, seriesResistance: curve.seriesResistance + string.seriesResistance / cells };
  const one = maximumPowerPoint(shared);
  return {
    maximum: { voltage: cells * one.voltage, current: one.current, power: cells * one.power },
    openCircuitVoltage: cells * openCircuitVoltage(curve),
    shortCircuitCurrent: shortCircuitCurrent(shared),
    currentAt: stringSource(string).currentAt!,
  };
}

/** Strings side by side take the same voltage: sources of one kind with so many times the current. */
const timesCurrent = (source: ArraySource, count: number): ArraySource =>
  count === 1
    ? source
    : {
        maximum: {
          voltage: source.maximum.voltage,
          current: count * source.maximum.current,
          power: count * source.maximum.power,
        },
        openCircuitVoltage: source.openCircuitVoltage,
        shortCircuitCurrent: count * source.shortCircuitCurrent,
        currentAt: (voltage) => count * source.currentAt!(voltage),
      };

/** The maximum on which a climber from open circuit is caught, in place of the greatest; undefined where there is no other. */
function trappedSource(source: ArraySource, string: SeriesString): ArraySource | undefined {
  const maxima = stringMaxima(string);
  const powerAt = (voltage: number) => voltage * source.currentAt!(voltage);
  const caught = climbedMaximum(maxima, powerAt, source.openCircuitVoltage * 0.999);
  if (caught === undefined || caught.power > 0.94 * maxima[0]!.power) return undefined;
  return { ...source, maximum: caught };
}

/** What one unit gives, as the instruments would see it. */
interface UnitAnswer {
  readonly batteryCurrent: number;
  readonly arrayVoltage: number;
  readonly arrayCurrent: number;
  readonly openCircuitVoltage: number;
  readonly shortCircuitCurrent: number;
  readonly maximumPower: number;
  readonly worstCellVoltage: number;
}

function unitAnswer(
  unit: BenchUnit,
  at: Conditions,
  reading: BenchReading,
  deviations: Deviations,
  fault: Fault,
): UnitAnswer | undefined {
  const isShaded = fault.shaded !== undefined;
  const string = unitString(unit, at, deviations, fault.shaded);
  const single = isShaded ? stringSource(string) : soundSource(string, unit.cells);
  const greatest = single.maximum.power;
  const isSwapped = reading.otherConverter === true;
  const trapped = fault.shaded?.trapped === true && !isSwapped ? trappedSource(single, string) : single;
  if (trapped === undefined) return undefined;
  const source = timesCurrent(trapped, unit.parallel);
  const held = isSwapped ? undefined : fault.heldShare;
  const converter =
    held === undefined
      ? unit.converter
      : {
          ...unit.converter,
          tracking: { method: 'fixed voltage' as const, voltage: held * unit.cells * openCircuitVoltage(unit.cell) },
        };
  const batteryVoltage = reading.batteryVoltage.value;
  const free = converterOutput({ converter, source, batteryVoltage });
  const output =
    fault.accepted === undefined || !(free.current > 0)
      ? free
      : converterOutput({ converter, source, batteryVoltage, acceptance: { current: fault.accepted * free.current } });
  const arrayCurrent = output.inputVoltage > 0 ? output.inputPower / output.inputVoltage : 0;
  return {
    batteryCurrent: output.current * (output.current > 0 ? 1 + deviations.converter : 1),
    arrayVoltage: output.inputVoltage,
    arrayCurrent,
    openCircuitVoltage: source.openCircuitVoltage,
    shortCircuitCurrent: source.shortCircuitCurrent,
    maximumPower: greatest * unit.parallel,
    worstCellVoltage: worstCell(string, arrayCurrent / unit.parallel),
  };
}

/** Voltage of the cell that gives least at a current of its string. */
const worstCell = (string: SeriesString, current: number): number =>
  stringVoltageAtCurrent(string, current) > -1e3
    ? Math.max(-20, Math.min(...groupStates(string, current).map(({ voltage }) => voltage)))
    : -20;

/** Answers of a bench under any fault and deviation; skies are remembered by the hours that a clock is off. */
export interface BenchModel {
  /** Undefined where the fault cannot be (no second maximum to be caught on). */
  readonly predict: (reading: BenchReading, fault: Fault, deviations: Deviations) => Observables | undefined;
  /** Light on the plane of a reading by the model, and of what it takes the cell temperature to be. */
  readonly conditions: (reading: BenchReading, fault: Fault, deviations: Deviations) => Conditions;
}

/** Model of a bench. */
export function benchModel(setup: BenchSetup): BenchModel {
  const skies = new Map<string, BenchSky>();
  const skyOf = (reading: BenchReading, hours: number): BenchSky => {
    const { time, latitude, longitude, altitude } = reading;
    const key = `${time} ${hours} ${latitude} ${longitude} ${altitude}`;
    const known = skies.get(key);
    if (known !== undefined) return known;
    const { turbidity, albedo } = setup;
    const made = benchSky({ time: time + 3600 * hours, latitude, longitude, altitude, turbidity, albedo });
    skies.set(key, made);
    return made;
  };
  const conditions: BenchModel['conditions'] = (reading, fault, deviations) => {
    const sky = skyOf(reading, fault.hours ?? 0);
    const attitude = {
      tilt: reading.tilt.value + deviations.tilt,
      facing: reading.facing.value + deviations.facing,
    };
    const light = benchLight(sky, attitude, setup.incidence);
    const factor = (1 + deviations.light) * (fault.haze ?? 1);
    const total = light.total * factor;
    const air = reading.airTemperature.value;
    const cells = faimanTemperature({ irradiance: total, airTemperature: air, windSpeed: benchWind });
    return {
      total,
      effective: light.effective * factor * setup.lightFactor,
      temperature: cells + deviations.warmth + (fault.hotter ?? 0),
    };
  };
  const predict: BenchModel['predict'] = (reading, fault, deviations) => {
    const at = conditions(reading, fault, deviations);
    const sound: Fault = { unit: -1, ...(fault.accepted === undefined ? {} : { accepted: fault.accepted }) };
    const read = setup.units
      .map((unit, index) => ({ unit, index }))
      .filter(({ index }) => reading.unit === undefined || index === reading.unit);
    const answers: UnitAnswer[] = [];
    let last: { readonly unit: BenchUnit; readonly fault: Fault; readonly answer: UnitAnswer } | undefined;
    for (const { unit, index } of read) {
      const own = index === fault.unit ? fault : sound;
      const isSame = last?.unit === unit && last.fault === own;
      const answer = isSame ? last!.answer : unitAnswer(unit, at, reading, deviations, own);
      if (answer === undefined) return undefined;
      last = { unit, fault: own, answer };
      answers.push(answer);
    }
    return gathered(answers, at, fault);
  };
  return { predict, conditions };
}

/** Sum over the units that were read; what is read at one of them is read at the one that differs most. */
function gathered(answers: readonly UnitAnswer[], at: Conditions, fault: Fault): Observables {
  const sum = (of: (answer: UnitAnswer) => number) => answers.reduce((total, answer) => total + of(answer), 0);
  const first = answers[Math.max(0, Math.min(fault.unit, answers.length - 1))]!;
  const current = sum(({ batteryCurrent }) => batteryCurrent) + (fault.offset ?? 0);
  return {
    ...first,
    batteryCurrent: fault.reversed === true ? -current : current,
    arrayCurrent: sum(({ arrayCurrent }) => arrayCurrent),
    irradiance: at.total,
    cellTemperature: at.temperature,
    zeroCurrent: fault.offset ?? 0,
    clockError: fault.hours ?? 0,
  };
}
