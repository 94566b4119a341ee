import type { Warning } from '@noonwing/engine';
import {
  type ConverterOutput,
  cellAt,
  cellString,
  converterOutput,
  groupsOf,
  hotSpots,
  isLit,
  maximumPowerPoint,
  type ParallelStrings,
  type PowerPoint,
  parallelCurrentAtVoltage,
  parallelMaxima,
  parallelSource,
  type SeriesString,
  type StringCell,
  stringCurrentAtVoltage,
  stringMaxima,
  stringOpenCircuitVoltage,
  stringVoltageAtCurrent,
} from '@noonwing/engine/array';
import { type ArrayPlan, type ArrayString, sideBySide } from '@noonwing/engine/day';
import { cellLightAt } from '@noonwing/engine/light';
import { kindsOfCells } from './cell-sheets.js';
import { cellsWarmthAt } from './cell-warmth.js';
import type { Verdict } from './central.js';
import { skyTermsAtStep, stepAt, sunAt } from './sky-at.js';

/** One cell at an instant. */
export interface CellNow {
  /** Light that gets in, before film and dust [W/m2]. */
  readonly light: number;
  /** What shade takes of the light on its plane [W/m2]. */
  readonly shade: number;
  /** Share of the beam that is shaded, 0 to 1. */
  readonly shadedBeam: number;
  /** Where it lies in its boundary layer, in the mean light of the turn flown [K]. */
  readonly temperature: number;
  /** At its own maximum [W]. */
  readonly power: number;
}

/** A string at an instant, with what its converter makes of it. */
export interface StringNow {
  readonly name: string;
  readonly converter: number;
  /** Current [A] and power [W] by voltage [V], from zero to open circuit; all parallel strings together. */
  readonly voltage: Float64Array;
  readonly current: Float64Array;
  readonly power: Float64Array;
  /** Local maxima by falling power. */
  readonly maxima: readonly PowerPoint[];
  /** Every cell at its own maximum [W]. */
  readonly cells: number;
  /** Where the converter holds it and what it takes of it, and why no more; strings on one converter share its voltage, and without blocking diodes one may take power from the others (below zero). */
  readonly held: { readonly voltage: number; readonly power: number; readonly because: string };
  /** Diodes that conduct there, by their place from 1, of each parallel string. */
  readonly conducting: readonly (readonly number[])[];
  readonly warnings: readonly Warning[];
}

/** Cells and strings at an instant under one sky. */
export interface CellsNow {
  readonly cells: readonly CellNow[];
  readonly strings: readonly StringNow[];
}

/**
 * Light, temperature and power of every cell, and the curves of the strings, at an instant of a flight as the day has it.
 *
 * @param at.hour - after the first local midnight [h]
 * @param at.heading - from north, clockwise [rad]
 * @returns undefined where no cells are placed one by one or the aircraft cannot fly
 */
export function cellsNow(
  verdict: Verdict,
  sky: number,
  at: { readonly hour: number; readonly heading: number },
): CellsNow | undefined {
  const { prepared, flight, courses, light } = verdict;
  const { array } = prepared.run;
  const step = stepAt(verdict, at.hour);
  const terms = skyTermsAtStep(verdict, sky, step);
  const course = courses[sky];
  if (array?.cells === undefined || light === undefined || terms === undefined || course === undefined)
    return undefined;
  const attitude = {
    heading: at.heading,
    pitch: flight?.chosen?.flight.trim.alpha ?? light.attitude.pitch,
    bank: flight?.bank ?? light.attitude.bank,
  };
  const scene = { cells: array.cells, shade: array.shade, incidence: array.incidence };
  const found = cellLightAt(scene, { sun: sunAt(verdict, at.hour).direction, terms, attitude });
  const [warmth, kinds] = [cellsWarmthAt(verdict, course, step), kindsOfCells(array)];
  const cells = found.map(({ effective, shadeLoss, shadedFraction }, c): CellNow => {
    const temperature = warmth[c]!;
    const irradiance = effective * array.lightFactor;
    const power = irradiance > 0 ? maximumPowerPoint(cellAt(kinds[c]!, { irradiance, temperature })).power : 0;
    return { light: effective, shade: shadeLoss, shadedBeam: shadedFraction, temperature, power };
  });
  const held = verdict.skies[sky]?.run.course.terminalVoltage[step] ?? 0;
  const bus = held > 0 ? held : prepared.run.busVoltage;
  return { cells, strings: stringsNow(array, cells, bus) };
}

/** Strings of every converter in their light: those on one converter are held at one voltage. */
function stringsNow(array: ArrayPlan, cells: readonly CellNow[], bus: number): readonly StringNow[] {
  const sets = array.strings.map((string) => litSet(array, string, cells));
  const outputs = array.converters.map((converter, c) => {
    const hung = sets.filter((_, s) => array.strings[s]!.converter === c);
    const output = converterOutput({ converter, source: parallelSource(hung), batteryVoltage: bus });
    const current = output.inputPower > 0 ? sum(hung, (set) => parallelCurrentAtVoltage(set, output.inputVoltage)) : 0;
    return { ...output, given: current };
  });
  return array.strings.map((string, s) => stringNow(array, string, cells, sets[s]!, outputs[string.converter]!));
}

/** The parallel strings of a string, cell by cell, behind their blocking diodes. */
function litSet(array: ArrayPlan, string: ArrayString, cells: readonly CellNow[]): ParallelStrings {
  const { cell, diodes = [], seriesResistance, members = [], blockingVoltage, conditions } = string;
  const strings = members.map((list, n) => {
    const own = list.map((index, k): StringCell => {
      const { light, temperature } = cells[index]!;
      const condition = conditions?.get(n * list.length + k);
      return { irradiance: Math.max(light, 0) * array.lightFactor, temperature, ...condition };
    });
    return cellString({ cell, diodes, seriesResistance }, own);
  });
  return sideBySide(strings, blockingVoltage);
}

const sum = <T>(list: readonly T[], of: (one: T) => number): number => list.reduce((all, one) => all + of(one), 0);

/** Reasons of a converter that takes all there is, and of a string that others on it keep off its own maximum. */
const [byLight, byOthers] = ['the light on the cells', 'the voltage that it shares with the others on its converter'];
/** Share of its own maximum below which a string is pulled, not merely missed by its tracker (judgement). */
const pulledBelow = 0.96;

/** Points of a curve. */
const points = 160;

function stringNow(
  array: ArrayPlan,
  string: ArrayString,
  cells: readonly CellNow[],
  set: ParallelStrings,
  /** Of its converter, with the current of all its strings. */
  output: ConverterOutput & { readonly given: number },
): StringNow {
  const members = string.members ?? [];
  const { strings, blockingVoltage: drop = 0 } = set;
  const open = Math.max(0, ...strings.map((one) => openVoltage(one) - drop));
  const voltage = Float64Array.from({ length: points + 1 }, (_, k) => (open * k) / points);
  const current = voltage.map((volts) => Math.max(0, parallelCurrentAtVoltage(set, volts)));
  const power = voltage.map((volts, k) => volts * current[k]!);
  const maxima = strings.length === 1 && drop === 0 ? stringMaxima(strings[0]!) : parallelMaxima(set);
  const at = output.inputVoltage;
  const part = output.given > 0 ? parallelCurrentAtVoltage(set, at) / output.given : 0;
  const area = array.cells?.[members[0]?.[0] ?? 0]?.area ?? 0;
  const held = part * output.inputPower;
  const isPulled = output.limitedBy === byLight && held < pulledBelow * (maxima[0]?.power ?? 0);
  return {
    name: string.name,
    converter: string.converter,
    voltage,
    current,
    power,
    maxima,
    cells: sum(members.flat(), (cell) => cells[cell]!.power),
    held: { voltage: at, power: held, because: isPulled ? byOthers : output.limitedBy },
    conducting: strings.map((one) => conductingDiodes(one, currentOf(one, at + drop))),
    warnings: strings
      .flatMap(
        (one, n) => hotSpots(one, area, (group) => cellOfGroup(array, string, cells, one, { n, group })).warnings,
      )
      .slice(0, 2)
      .map((warning) => ({ ...warning, where: `array.strings.${string.name}` })),
  };
}

/** The cell of a group of a string, the nearest to it in current: its row, number and side. */
function cellOfGroup(
  array: ArrayPlan,
  string: ArrayString,
  cells: readonly CellNow[],
  made: SeriesString,
  { n, group }: { readonly n: number; readonly group: number },
): string {
  const wanted = groupsOf(made)[group]?.curve.photocurrent ?? 0;
  const list = string.members?.[n] ?? [];
  const apart = list.map((index, k) => {
    const { light, temperature } = cells[index]!;
    const lost = string.conditions?.get(n * list.length + k)?.lostArea ?? 0;
    const irradiance = Math.max(light, 0) * array.lightFactor;
    const current = irradiance > 0 ? (1 - lost) * cellAt(string.cell, { irradiance, temperature }).photocurrent : 0;
    return Math.abs(current - wanted);
  });
  const cell = array.cells?.[list[apart.indexOf(Math.min(...apart))] ?? -1];
  return cell === undefined ? 'one cell' : `cell ${cell.index + 1} of row "${cell.row}", ${cell.side},`;
}

const openVoltage = (string: SeriesString): number => (isLit(string) ? stringOpenCircuitVoltage(string) : 0);
const currentOf = (string: SeriesString, volts: number): number =>
  isLit(string) ? Math.max(0, stringCurrentAtVoltage(string, volts)) : 0;

/** Which diodes carry a current past their cells, from 1. */
function conductingDiodes(string: SeriesString, current: number): readonly number[] {
  const guarded = string.substrings.flatMap(({ groups, bypass }) => (bypass === undefined ? [] : [{ groups, bypass }]));
  return guarded.flatMap((part, k) => {
    if (!(current > 0)) return [];
    const across = stringVoltageAtCurrent({ substrings: [part], seriesResistance: 0 }, current);
    return across <= -0.99 * part.bypass.forwardVoltage ? [k + 1] : [];
  });
}
