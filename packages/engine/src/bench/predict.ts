import {
  type ArraySource,
  cellString,
  climbedMaximum,
  converterOutput,
  evenDiodes,
  groundCellTemperature,
  groupStates,
  maximumPowerPoint,
  openCircuitVoltage,
  type SeriesString,
  shortCircuitCurrent,
  stringMaxima,
  stringSource,
  stringVoltageAtCurrent,
} from '../array/index.js';
import { type BenchSky, benchLight, benchSky, type PatchLight, patchLight } from './light.js';
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
  /** Of the direction of the nose, in standard uncertainties: see `patchLight`. */
  readonly along: number;
  readonly across: number;
}

export const noDeviation: Deviations = {
  light: 0,
  array: 0,
  converter: 0,
  voltage: 0,
  warmth: 0,
  tilt: 0,
  facing: 0,
  along: 0,
  across: 0,
};

export type DeviationName = keyof Deviations;

/** Wind at the cells of a bench in the open, where none is noted [m/s] (judgement). */
export const benchWind = 2;

/** Light on the plane of the array at a reading [W/m2]. */
interface Conditions {
  readonly total: number;
  /** What gets through film and dust, straight on. */
  readonly effective: number;
}

/** Light on the patches of a unit, under film and dust [W/m2], and the temperature of its cells [K]. */
interface UnitConditions {
  readonly patches: readonly number[];
  readonly mean: number;
  readonly temperature: number;
}

/** Light along a string, cell by cell. */
const cellLight = (unit: BenchUnit, { patches }: UnitConditions): readonly number[] =>
  unit.patches.flatMap(({ cells }, k) => new Array<number>(cells).fill(patches[k]!));

/** Patches whose light differs by less count as one: the string loses less than a thousandth by it. */
const alike = 0.005;

const isEven = ({ patches, mean }: UnitConditions): boolean =>
  patches.every((light) => Math.abs(light - mean) <= alike * mean);

/** A string on the bench, some of its cells shaded or cracked. */
function unitString(
  unit: BenchUnit,
  at: UnitConditions,
  deviations: Deviations,
  shaded: Fault['shaded'],
): SeriesString {
  const { temperature } = at;
  const dim = Math.min(shaded?.cells ?? 0, unit.cells);
  const lights = isEven(at) ? new Array<number>(unit.cells).fill(at.mean) : cellLight(unit, at);
  // Shaded cells lie side by side, so that they share diodes as in a real shadow.
  const cells = lights.map((light, k) => ({
    irradiance: light * (1 + deviations.array) * (k < dim ? shaded!.share : 1),
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
  readonly cellTemperature: number;
}

function unitAnswer(
  unit: BenchUnit,
  at: UnitConditions,
  reading: BenchReading,
  deviations: Deviations,
  fault: Fault,
): UnitAnswer | undefined {
  const isUneven = fault.shaded !== undefined || !isEven(at);
  const string = unitString(unit, at, deviations, fault.shaded);
  const single = isUneven ? stringSource(string) : soundSource(string, unit.cells);
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
    cellTemperature: at.temperature,
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
  /** Light on the plane of a reading by the model. */
  readonly conditions: (reading: BenchReading, fault: Fault, deviations: Deviations) => Conditions;
  /** Light on the cells of a unit, and what it takes their temperature to be. */
  readonly unitConditions: (
    unit: BenchUnit,
    reading: BenchReading,
    fault: Fault,
    deviations: Deviations,
  ) => UnitConditions;
}

/** Light on the patches of a unit in the sky of a reading, each sky and attitude once. */
function rememberedPatches(setup: BenchSetup, skyOf: (reading: BenchReading, hours: number) => BenchSky) {
  const known = new Map<BenchUnit, Map<string, PatchLight>>();
  return (unit: BenchUnit, reading: BenchReading, hours: number): PatchLight => {
    const { time, latitude, longitude, altitude, tilt, facing, nose } = reading;
    const key = [time, hours, latitude, longitude, altitude, tilt.value, facing.value, nose?.value, nose?.sigma].join(
      ' ',
    );
    const ofUnit = known.get(unit) ?? new Map<string, PatchLight>();
    known.set(unit, ofUnit);
    const found =
      ofUnit.get(key) ??
      patchLight(
        skyOf(reading, hours),
        { tilt: tilt.value, facing: facing.value },
        nose,
        unit.patches.map(({ normal }) => normal),
        setup.incidence,
      );
    ofUnit.set(key, found);
    return found;
  };
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
    return { total: light.total * factor, effective: light.effective * factor * setup.lightFactor };
  };
  const lightOfUnit = rememberedPatches(setup, skyOf);
  const unitLight = (
    plane: Conditions,
    unit: BenchUnit,
    reading: BenchReading,
    fault: Fault,
    deviations: Deviations,
  ): UnitConditions => {
    const { shares, along, across } = lightOfUnit(unit, reading, fault.hours ?? 0);
    const { along: a, across: b } = deviations;
    const patches = shares.map((share, k) => plane.effective * Math.max(0, share + a * along[k]! + b * across[k]!));
    const mean = patches.reduce((sum, light, k) => sum + light * unit.patches[k]!.cells, 0) / unit.cells;
    const ground = groundCellTemperature(
      {
        irradiance: plane.effective > 0 ? (plane.total * mean) / plane.effective : 0,
        airTemperature: reading.airTemperature.value,
        windSpeed: reading.wind?.value ?? benchWind,
      },
      unit.row,
    );
    return { patches, mean, temperature: ground + deviations.warmth + (fault.hotter ?? 0) };
  };
  const unitConditions: BenchModel['unitConditions'] = (unit, reading, fault, deviations) =>
    unitLight(conditions(reading, fault, deviations), unit, reading, fault, deviations);
  const predict: BenchModel['predict'] = (reading, fault, deviations) => {
    const at = conditions(reading, fault, deviations);
    const sound: Fault = { unit: -1, ...(fault.accepted === undefined ? {} : { accepted: fault.accepted }) };
    const read = setup.units
      .map((unit, index) => ({ unit, index }))
      .filter(({ index }) => reading.unit === undefined || index === reading.unit);
    const answers: UnitAnswer[] = [];
    for (const { unit, index } of read) {
      const own = index === fault.unit ? fault : sound;
      const answer = unitAnswer(unit, unitLight(at, unit, reading, fault, deviations), reading, deviations, own);
      if (answer === undefined) return undefined;
      answers.push(answer);
    }
    return gathered(answers, at, fault);
  };
  return { predict, conditions, unitConditions };
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
    zeroCurrent: fault.offset ?? 0,
    clockError: fault.hours ?? 0,
  };
}
