import type { Relation, RelationOutput } from '../relation.js';
import { type DiodeCurve, openCircuitVoltage, shortCircuitCurrent } from './cell.js';
import { flightCellTemperature } from './cell-temperature.js';
import { maximumPowerPoint } from './maximum.js';
import { numberOf, outOfRange, sheetCell, sheetInputs } from './relation-inputs.js';
import { powerRelations } from './relations-power.js';
import { trackerRelations } from './relations-tracker.js';
import { cellAt, impliedTemperatureCoefficients } from './translate.js';
import { gaugeArea, wire, wireLoss } from './wire.js';

/** Outputs that name a point of greatest power. */
const pointOutputs: readonly RelationOutput[] = [
  { key: 'shortCircuit', kind: 'current', help: 'short-circuit current at that light and temperature' },
  { key: 'openCircuit', kind: 'voltage', help: 'open-circuit voltage there' },
  { key: 'current', kind: 'current', help: 'at maximum power' },
  { key: 'voltage', kind: 'voltage', help: 'at maximum power' },
  { key: 'power', kind: 'power', help: 'maximum power' },
];

const cellPoint = (curve: DiodeCurve) => ({
  ...maximumPowerPoint(curve),
  shortCircuit: shortCircuitCurrent(curve),
  openCircuit: openCircuitVoltage(curve),
});

const cellRelation: Relation = {
  topic: 'cell',
  title: 'One solar cell at a light and temperature, from its data sheet',
  inputs: [
    { key: 'irradiance', kind: 'areal power', help: 'effective irradiance on the cell', default: 1000 },
    { key: 'temperature', kind: 'temperature', help: 'cell temperature', default: 298.15 },
    ...sheetInputs,
  ],
  outputs: [
    ...pointOutputs,
    { key: 'photocurrent', kind: 'current', help: 'light-generated current there' },
    { key: 'saturationCurrent', kind: 'current', help: 'diode saturation current there' },
    { key: 'seriesResistance', kind: 'resistance', help: 'inside the cell' },
    { key: 'shuntResistance', kind: 'resistance', help: 'across the cell there' },
    { key: 'modifiedIdeality', kind: 'voltage', help: 'n k T / q there' },
    { key: 'voltageCoefficient', kind: 'voltage per kelvin', help: 'implied, of the open-circuit voltage at 25 C' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, { irradiance: [0, 3000], temperature: [200, 450], ideality: [0.5, 2.2] });
    if (refusal !== undefined) return refusal;
    const cell = sheetCell(values);
    if ('reason' in cell) return cell;
    const condition = { irradiance: numberOf(values, 'irradiance'), temperature: numberOf(values, 'temperature') };
    const curve = cellAt(cell, condition);
    return {
      ...cellPoint(curve),
      photocurrent: curve.photocurrent,
      saturationCurrent: curve.saturationCurrent,
      seriesResistance: curve.seriesResistance,
      shuntResistance: curve.shuntResistance,
      modifiedIdeality: curve.modifiedIdeality,
      voltageCoefficient: impliedTemperatureCoefficients(cell).voltage,
    };
  },
};

const cellTemperatureRelation: Relation = {
  topic: 'cell-temperature',
  title: 'Temperature of cells on a wing in flight',
  inputs: [
    { key: 'irradiance', kind: 'areal power', help: 'on the cells', default: 1000 },
    { key: 'airspeed', kind: 'speed', help: 'true airspeed', default: 10 },
    { key: 'chord', kind: 'length', help: 'from the leading edge to the end of the cells', default: 0.25 },
    { key: 'airTemperature', kind: 'temperature', help: 'of the outside air', default: 298.15 },
    { key: 'pressure', kind: 'pressure', help: 'static pressure', default: 101325 },
    { key: 'laminarFraction', kind: 'ratio', help: 'part of that length with laminar flow, 0 to 1', default: 0.5 },
    {
      key: 'heating',
      kind: 'choice',
      choices: ['uniform flux', 'uniform temperature'],
      help: 'plate',
      default: 'uniform flux',
    },
    { key: 'absorptance', kind: 'ratio', help: 'of the covered cell', default: 0.92 },
    { key: 'emittance', kind: 'ratio', help: 'of the cover', default: 0.85 },
    { key: 'efficiency', kind: 'ratio', help: 'electrical, at 25 C', default: 0.22 },
    { key: 'efficiencyCoefficient', kind: 'ratio', help: 'relative change per kelvin', default: -0.003 },
    { key: 'rearFraction', kind: 'ratio', help: 'convection from the rear per front', default: 0 },
  ],
  outputs: [
    { key: 'temperature', kind: 'temperature', help: 'cell temperature' },
    { key: 'heatTransferCoefficient', kind: 'heat transfer coefficient', help: 'of the front' },
    { key: 'radiation', kind: 'areal power', help: 'net, to the sky' },
    { key: 'convection', kind: 'areal power', help: 'heat into the air' },
    { key: 'electricalEfficiency', kind: 'ratio', help: 'at that temperature' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, {
      irradiance: [0, 2000],
      airspeed: [0, 100],
      chord: [0.01, 10],
      airTemperature: [200, 330],
      pressure: [10000, 110000],
      laminarFraction: [0, 1],
      absorptance: [0, 1],
      emittance: [0, 1],
      efficiency: [0, 0.5],
      efficiencyCoefficient: [-0.02, 0],
      rearFraction: [0, 2],
    });
    if (refusal !== undefined) return refusal;
    const state = flightCellTemperature({
      irradiance: numberOf(values, 'irradiance'),
      airspeed: numberOf(values, 'airspeed'),
      length: numberOf(values, 'chord'),
      air: { temperature: numberOf(values, 'airTemperature'), pressure: numberOf(values, 'pressure') },
      laminarFraction: numberOf(values, 'laminarFraction'),
      heating: values.heating === 'uniform temperature' ? 'uniform temperature' : 'uniform flux',
      absorptance: numberOf(values, 'absorptance'),
      emittance: numberOf(values, 'emittance'),
      efficiency: numberOf(values, 'efficiency'),
      efficiencyCoefficient: numberOf(values, 'efficiencyCoefficient'),
      rearFraction: numberOf(values, 'rearFraction'),
    });
    const { efficiency: electricalEfficiency, ...rest } = state;
    return { ...rest, electricalEfficiency };
  },
};

const wireRelation: Relation = {
  topic: 'wire',
  title: 'Resistance, loss and mass of a wire run',
  inputs: [
    { key: 'gauge', kind: 'count', help: 'American wire gauge; unused where an area is given', default: 18 },
    { key: 'area', kind: 'area', help: 'copper cross-section; 0 takes the gauge', default: 0 },
    { key: 'length', kind: 'length', help: 'from end to end; out and back is counted twice', default: 1 },
    { key: 'current', kind: 'current', help: 'through the wire', default: 5 },
    { key: 'temperature', kind: 'temperature', help: 'of the wire', default: 293.15 },
    { key: 'conductors', kind: 'count', help: '2 out and back, 1 single lead', default: 2 },
    { key: 'strandingAllowance', kind: 'ratio', help: 'extra resistance of stranded wire', default: 0 },
    { key: 'insulationRatio', kind: 'ratio', help: 'mass of insulation per copper', default: 0 },
  ],
  outputs: [
    { key: 'resistance', kind: 'resistance', help: 'of the loop' },
    { key: 'voltageDrop', kind: 'voltage', help: 'around the loop' },
    { key: 'power', kind: 'power', help: 'lost as heat' },
    { key: 'copperMass', kind: 'mass', help: 'of the loop' },
    { key: 'mass', kind: 'mass', help: 'with insulation' },
    { key: 'diameter', kind: 'length', help: 'of a solid wire of this area' },
  ],
  compute: (values) => {
    const refusal = outOfRange(values, {
      gauge: [-3, 45],
      area: [0, 1e-3],
      length: [0, 1000],
      current: [-1000, 1000],
      temperature: [200, 500],
      conductors: [0.5, 100],
      strandingAllowance: [0, 1],
      insulationRatio: [0, 10],
    });
    if (refusal !== undefined) return refusal;
    const given = numberOf(values, 'area');
    const area = given > 0 ? given : gaugeArea(numberOf(values, 'gauge'));
    const run = {
      area,
      length: numberOf(values, 'length'),
      conductors: numberOf(values, 'conductors'),
      temperature: numberOf(values, 'temperature'),
      strandingAllowance: numberOf(values, 'strandingAllowance'),
      insulationRatio: numberOf(values, 'insulationRatio'),
    };
    const loss = wireLoss(run, numberOf(values, 'current'));
    if (!loss.ok) return { reason: loss.reason, remedy: loss.remedy };
    const { copperMass, mass } = wire(run);
    return { ...loss.value, copperMass, mass, diameter: Math.sqrt((4 * area) / Math.PI) };
  },
};

/** Relations of the array that can be asked for on their own. */
export const arrayRelations: readonly Relation[] = [
  cellRelation,
  ...powerRelations,
  ...trackerRelations,
  cellTemperatureRelation,
  wireRelation,
];
