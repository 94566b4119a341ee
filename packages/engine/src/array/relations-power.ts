import type { Relation, RelationValues } from '../relation.js';
import type { ReverseBreakdown } from './cell.js';
import { type Converter, convertedPower, type Topology } from './converter.js';
import { converterOutput } from './converter-output.js';
import { hotSpotAtCurrent } from './hot-spot.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactBreakdown, frontContactBreakdown } from './reference.js';
import { numberOf, outOfRange, sheetCell, sheetInputs } from './relation-inputs.js';
import { type LightString, seriesString, stringOpenCircuitVoltage, stringShortCircuitCurrent } from './string.js';
import { stringVoltageFit } from './string-fit.js';
import { stringMaxima, stringMaximumPowerPoint } from './string-maximum.js';
import type { CellParameters } from './translate.js';

const breakdowns: Readonly<Record<string, ReverseBreakdown>> = {
  'back-contact': backContactBreakdown,
  'front-contact': frontContactBreakdown,
};

/** String of a relation's inputs: the shaded cells come first, a bypass spans every so many cells. */
export function shadedString(values: RelationValues, bare: CellParameters): LightString {
  const breakdown = breakdowns[String(values.breakdown)];
  const cell = breakdown === undefined ? bare : { ...bare, breakdown };
  const cells = Math.round(numberOf(values, 'cells'));
  const shaded = Math.min(Math.round(numberOf(values, 'shadedCells')), cells);
  const span = Math.round(numberOf(values, 'cellsPerBypass'));
  const temperature = numberOf(values, 'temperature');
  const groupsBetween = (from: number, to: number) => [
    {
      count: Math.max(Math.min(to, shaded) - from, 0),
      irradiance: numberOf(values, 'shadedIrradiance'),
      temperature,
    },
    { count: to - Math.max(from, Math.min(shaded, to)), irradiance: numberOf(values, 'irradiance'), temperature },
  ];
  const seriesResistance = numberOf(values, 'seriesResistance');
  if (span === 0) return { cell, groups: groupsBetween(0, cells), seriesResistance };
  const bypass = { forwardVoltage: numberOf(values, 'bypassVoltage') };
  const substrings = Array.from({ length: Math.ceil(cells / span) }, (_, k) => ({
    groups: groupsBetween(k * span, Math.min((k + 1) * span, cells)),
    bypass,
  }));
  return { cell, substrings, seriesResistance };
}

/** Inputs of a string some of whose cells are in another light. */
export const stringInputs: Relation['inputs'] = [
  { key: 'cells', kind: 'count', help: 'in series', default: 12 },
  { key: 'irradiance', kind: 'areal power', help: 'effective irradiance on the cells', default: 1000 },
  { key: 'temperature', kind: 'temperature', help: 'cell temperature', default: 298.15 },
  { key: 'shadedCells', kind: 'count', help: 'of them in the other light', default: 0 },
  { key: 'shadedIrradiance', kind: 'areal power', help: 'on those', default: 500 },
  { key: 'cellsPerBypass', kind: 'count', help: 'cells that share a bypass diode, 0 for none', default: 0 },
  { key: 'bypassVoltage', kind: 'voltage', help: 'across a conducting bypass diode', default: 0.5 },
  {
    key: 'breakdown',
    kind: 'choice',
    choices: ['none', 'back-contact', 'front-contact'],
    help: 'reverse behaviour of the cells',
    default: 'back-contact',
  },
  { key: 'seriesResistance', kind: 'resistance', help: 'of tabs, joints, wires, connectors', default: 0 },
  ...sheetInputs,
];

/** Ranges of those inputs in SI. */
export const stringRanges = {
  cells: [1, 1000],
  irradiance: [0, 3000],
  temperature: [200, 450],
  shadedCells: [0, 1000],
  shadedIrradiance: [0, 3000],
  cellsPerBypass: [0, 1000],
  bypassVoltage: [0, 2],
  seriesResistance: [0, 100],
  ideality: [0.5, 2.2],
} as const;

const stringRelation: Relation = {
  topic: 'string',
  title: 'Cells in series, some of them in another light',
  inputs: stringInputs,
  outputs: [
    { key: 'power', kind: 'power', help: 'greatest power' },
    { key: 'voltage', kind: 'voltage', help: 'at greatest power' },
    { key: 'current', kind: 'current', help: 'at greatest power' },
    { key: 'secondPower', kind: 'power', help: 'second local maximum, where a converter can be caught; 0 for none' },
    { key: 'secondVoltage', kind: 'voltage', help: 'of the second local maximum; 0 for none' },
    { key: 'openCircuit', kind: 'voltage', help: 'open-circuit voltage' },
    { key: 'shortCircuit', kind: 'current', help: 'short-circuit current' },
    { key: 'mismatchLoss', kind: 'ratio', help: 'share lost against every cell at its own maximum' },
    { key: 'hotSpotPower', kind: 'power', help: 'heat from the others in the worst cell, string shorted' },
    { key: 'hotSpotVoltage', kind: 'voltage', help: 'over that cell' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, stringRanges);
    if (refusal !== undefined) return refusal;
    const cell = sheetCell(values);
    if ('reason' in cell) return cell;
    const string = seriesString(shadedString(values, cell));
    const point = stringMaximumPowerPoint(string);
    const second = stringMaxima(string)[1];
    const shorted = hotSpotAtCurrent(string, stringShortCircuitCurrent(string));
    const apart = string.substrings
      .flatMap((part) => part.groups)
      .reduce((sum, group) => sum + group.count * maximumPowerPoint(group.curve).power, 0);
    return {
      ...point,
      secondPower: second?.power ?? 0,
      secondVoltage: second?.voltage ?? 0,
      openCircuit: stringOpenCircuitVoltage(string),
      shortCircuit: stringShortCircuitCurrent(string),
      mismatchLoss: apart > 0 ? 1 - point.power / apart : 0,
      hotSpotPower: shorted.power,
      hotSpotVoltage: shorted.voltage,
    };
  },
};

const topologies: readonly Topology[] = ['boost', 'buck', 'buck-boost', 'direct'];

const topologyOf = (values: RelationValues): Topology =>
  topologies.find((topology) => topology === values.topology) ?? 'boost';

/** Converter of a relation's inputs; a limit of 0 stands for none. */
function converterOf(values: RelationValues): Converter {
  const outputCurrent = numberOf(values, 'outputCurrentLimit');
  const inputCurrent = numberOf(values, 'inputCurrentLimit');
  return {
    topology: topologyOf(values),
    loss: {
      fixed: numberOf(values, 'fixedLoss'),
      perAmpere: numberOf(values, 'lossPerAmpere'),
      resistance: numberOf(values, 'lossResistance'),
    },
    limits: {
      ...(outputCurrent > 0 ? { outputCurrent } : {}),
      ...(inputCurrent > 0 ? { inputCurrent } : {}),
    },
    tracking: { method: 'maximum power', efficiency: numberOf(values, 'trackingEfficiency') },
    standbyPower: numberOf(values, 'standbyPower'),
  };
}

const converterRelation: Relation = {
  topic: 'converter',
  title: 'What a converter delivers from a string to a battery',
  inputs: [
    { key: 'power', kind: 'power', help: 'greatest power of the string', default: 40 },
    { key: 'voltage', kind: 'voltage', help: 'of the string at greatest power', default: 11.6 },
    { key: 'openCircuitVoltage', kind: 'voltage', help: 'of the string; 0 takes 1.18 times the voltage', default: 0 },
    { key: 'batteryVoltage', kind: 'voltage', help: 'at the battery terminals', default: 14.8 },
    { key: 'topology', kind: 'choice', choices: topologies, help: 'kind of converter', default: 'boost' },
    { key: 'fixedLoss', kind: 'power', help: 'while running', default: 0.25 },
    { key: 'lossPerAmpere', kind: 'voltage', help: 'by output current', default: 0.15 },
    { key: 'lossResistance', kind: 'resistance', help: 'by output current squared', default: 0.06 },
    { key: 'trackingEfficiency', kind: 'ratio', help: 'static', default: 1 },
    { key: 'outputCurrentLimit', kind: 'current', help: '0 for none', default: 0 },
    { key: 'inputCurrentLimit', kind: 'current', help: '0 for none', default: 0 },
    { key: 'standbyPower', kind: 'power', help: 'from the battery without light', default: 0 },
  ],
  outputs: [
    { key: 'outputPower', kind: 'power', help: 'into the battery bus' },
    { key: 'outputCurrent', kind: 'current', help: 'into the battery bus' },
    { key: 'inputVoltage', kind: 'voltage', help: 'at which the string is held' },
    { key: 'efficiency', kind: 'ratio', help: 'output over greatest power of the string' },
    { key: 'conversionEfficiency', kind: 'ratio', help: 'of the loss model at the full input' },
    { key: 'trackingLoss', kind: 'power', help: 'given away at another voltage than that of greatest power' },
    { key: 'conversionLoss', kind: 'power', help: 'heat in the converter' },
    { key: 'unusedPower', kind: 'power', help: 'left on the cells by a limit' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, {
      power: [1e-6, 1e5],
      voltage: [0.01, 1000],
      openCircuitVoltage: [0, 1500],
      batteryVoltage: [0.5, 1000],
      fixedLoss: [0, 1000],
      lossPerAmpere: [0, 10],
      lossResistance: [0, 10],
      trackingEfficiency: [0.1, 1],
      outputCurrentLimit: [0, 1e5],
      inputCurrentLimit: [0, 1e5],
      standbyPower: [0, 1000],
    });
    if (refusal !== undefined) return refusal;
    const power = numberOf(values, 'power');
    const voltage = numberOf(values, 'voltage');
    const given = numberOf(values, 'openCircuitVoltage');
    if (given > 0 && given <= voltage) {
      return {
        reason: 'a string gives most below its open-circuit voltage',
        remedy: 'give openCircuitVoltage above voltage',
      };
    }
    const converter = converterOf(values);
    const batteryVoltage = numberOf(values, 'batteryVoltage');
    const current = power / voltage;
    const output = converterOutput({
      converter,
      source: {
        maximum: { voltage, current, power },
        openCircuitVoltage: given > 0 ? given : 1.18 * voltage,
        shortCircuitCurrent: 1.06 * current,
      },
      batteryVoltage,
    });
    return {
      outputPower: output.power,
      outputCurrent: output.current,
      inputVoltage: output.inputVoltage,
      efficiency: output.power / power,
      conversionEfficiency: convertedPower(converter.loss, power, batteryVoltage) / power,
      trackingLoss: output.losses.tracking,
      conversionLoss: output.losses.conversion,
      unusedPower: output.losses.unused,
    };
  },
};

const stringVoltageRelation: Relation = {
  topic: 'string-voltage',
  title: 'Whether a string voltage fits a battery through a converter',
  inputs: [
    { key: 'cells', kind: 'count', help: 'in series', default: 12 },
    { key: 'topology', kind: 'choice', choices: topologies, help: 'kind of converter', default: 'boost' },
    { key: 'batteryEmpty', kind: 'voltage', help: 'at the terminals, empty', default: 9 },
    { key: 'batteryFull', kind: 'voltage', help: 'at the terminals, full', default: 12.6 },
    { key: 'coldest', kind: 'temperature', help: 'coldest cell in full sun', default: 273.15 },
    { key: 'hottest', kind: 'temperature', help: 'hottest cell in full sun', default: 333.15 },
    ...sheetInputs,
  ],
  outputs: [
    { key: 'openCircuitHighest', kind: 'voltage', help: 'cold, full sun' },
    { key: 'openCircuitHot', kind: 'voltage', help: 'hot, full sun' },
    { key: 'maximumPowerLowest', kind: 'voltage', help: 'at greatest power, hot or dim' },
    { key: 'maximumPowerHighest', kind: 'voltage', help: 'at greatest power, cold' },
    { key: 'always', kind: 'ratio', help: '1 where it works over the whole range, 0 over part of it' },
    { key: 'fewestCells', kind: 'count', help: 'that work over the whole range; 0 where none do' },
    { key: 'mostCells', kind: 'count', help: 'that work over the whole range; 0 where none do' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, {
      cells: [1, 1000],
      batteryEmpty: [0.5, 1000],
      batteryFull: [0.5, 1000],
      coldest: [200, 400],
      hottest: [200, 420],
      ideality: [0.5, 2.2],
    });
    if (refusal !== undefined) return refusal;
    const cell = sheetCell(values);
    if ('reason' in cell) return cell;
    const count = Math.round(numberOf(values, 'cells'));
    const hottest = numberOf(values, 'hottest');
    const fit = stringVoltageFit({
      string: { cell, count },
      converter: {
        topology: topologyOf(values),
        loss: { fixed: 0, perAmpere: 0, resistance: 0 },
        limits: {},
        tracking: { method: 'maximum power' },
        standbyPower: 0,
      },
      batteryVoltageRange: { minimum: numberOf(values, 'batteryEmpty'), maximum: numberOf(values, 'batteryFull') },
      temperatures: { coldest: numberOf(values, 'coldest'), hottest },
    });
    if (!fit.ok) return { reason: fit.reason, remedy: fit.remedy };
    const hot = seriesString({ cell, groups: [{ count, irradiance: 1000, temperature: hottest }] });
    return {
      openCircuitHighest: fit.value.openCircuitVoltageHighest,
      openCircuitHot: stringOpenCircuitVoltage(hot),
      maximumPowerLowest: fit.value.maximumPowerVoltage.lowest,
      maximumPowerHighest: fit.value.maximumPowerVoltage.highest,
      always: fit.value.fit === 'always' ? 1 : 0,
      fewestCells: fit.value.cellCounts?.fewest ?? 0,
      mostCells: fit.value.cellCounts?.most ?? 0,
    };
  },
};

/** Relations of strings and converters. */
export const powerRelations: readonly Relation[] = [stringRelation, converterRelation, stringVoltageRelation];
