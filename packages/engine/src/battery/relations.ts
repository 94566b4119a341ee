import type { Relation, RelationValues } from '../relation.js';
import { cellPack, type PackCell } from './cells.js';
import { type OpenCircuitCurveName, openCircuitCurves } from './curves.js';
import { constantPowerCurrent, greatestChargePower, greatestDischargePower, usableCharge } from './load.js';
import { openCircuitSlope, openCircuitVoltage } from './openCircuit.js';
import { type CellPack, type PackState, packOpenCircuitVoltage, packResistance, storedEnergy } from './pack.js';
import { stepPack } from './step.js';

const number = (values: RelationValues, key: string): number => Number(values[key]);

const packInputs: Relation['inputs'] = [
  {
    key: 'cell',
    kind: 'choice',
    choices: Object.keys(openCircuitCurves),
    help: 'chemistry and format of the cells: their open-circuit curve',
    default: 'lithium-ion-18650',
  },
  { key: 'capacity', kind: 'charge', help: 'of a cell', default: 3 * 3600 },
  { key: 'cellResistance', kind: 'resistance', help: 'of a cell, direct current, 25 C, half charge', default: 0.045 },
  { key: 'fullVoltage', kind: 'voltage', help: 'to which a cell is charged', default: 4.2 },
  { key: 'emptyVoltage', kind: 'voltage', help: 'below which a cell is not drawn under load', default: 2.5 },
  {
    key: 'chargeRate',
    kind: 'ratio',
    help: 'greatest charge current, as a multiple of the capacity per hour',
    default: 0.5,
  },
  { key: 'currentLimit', kind: 'current', help: 'greatest discharge current of a cell', default: 10 },
  { key: 'series', kind: 'count', help: 'cells in series', default: 3 },
  { key: 'parallel', kind: 'count', help: 'cells in parallel', default: 1 },
  { key: 'charge', kind: 'ratio', help: 'state of charge, 0 to 1', default: 0.5 },
  { key: 'temperature', kind: 'temperature', help: 'cell temperature', default: 298.15 },
];

interface Request {
  readonly pack: CellPack;
  readonly state: PackState;
}

type Refusal = { readonly reason: string; readonly remedy: string };

/** The cell that the inputs describe, or why there is none. */
function cellOf(values: RelationValues): PackCell | Refusal {
  const curve = openCircuitCurves[values.cell as OpenCircuitCurveName];
  if (curve === undefined) {
    return {
      reason: `no cell '${String(values.cell)}'`,
      remedy: `one of ${Object.keys(openCircuitCurves).join(', ')}`,
    };
  }
  const capacity = number(values, 'capacity');
  const resistance = number(values, 'cellResistance');
  const chargeVoltage = number(values, 'fullVoltage');
  const minimumVoltage = number(values, 'emptyVoltage');
  const chargeRate = number(values, 'chargeRate');
  const dischargeCurrentLimit = number(values, 'currentLimit');
  if (!(capacity > 0 && resistance > 0 && chargeRate > 0 && dischargeCurrentLimit > 0)) {
    const remedy = 'give capacity=3Ah cellResistance=45mohm chargeRate=0.5 currentLimit=10A';
    return { reason: 'capacity, resistance and limits of the cell must be positive', remedy };
  }
  if (!(minimumVoltage > 0 && minimumVoltage < chargeVoltage)) {
    const remedy = 'give emptyVoltage=2.5V fullVoltage=4.2V';
    return { reason: 'a cell is empty at a lower voltage than it is full', remedy };
  }
  return { curve, capacity, resistance, chargeVoltage, minimumVoltage, chargeRate, dischargeCurrentLimit };
}

function requestOf(values: RelationValues): Request | Refusal {
  const series = number(values, 'series');
  const parallel = number(values, 'parallel');
  const stateOfCharge = number(values, 'charge');
  const temperature = number(values, 'temperature');
  if (!(Number.isInteger(series) && series >= 1 && Number.isInteger(parallel) && parallel >= 1)) {
    return { reason: 'cells in series and in parallel are whole numbers', remedy: 'give at least 1 of each' };
  }
  if (!(stateOfCharge >= 0 && stateOfCharge <= 1)) {
    return { reason: 'the state of charge lies between 0 and 1', remedy: 'give charge=0.5 or charge=50%' };
  }
  if (!(temperature >= 233 && temperature <= 343)) {
    return { reason: 'the cell model holds from -40 to 70 C', remedy: 'give a temperature in that range' };
  }
  const cell = cellOf(values);
  if ('reason' in cell) return cell;
  return { pack: cellPack(cell, series, parallel), state: { stateOfCharge, temperature } };
}

const batteryRelation: Relation = {
  topic: 'battery',
  title: 'Voltage, resistance, stored and usable energy of a pack',
  inputs: [...packInputs, { key: 'power', kind: 'power', help: 'steady load for the usable energy', default: 10 }],
  outputs: [
    { key: 'openCircuitVoltage', kind: 'voltage', help: 'of the pack at rest' },
    { key: 'cellSlope', kind: 'voltage', help: 'change of a cell over its whole charge at the local slope' },
    { key: 'resistance', kind: 'resistance', help: 'direct current, with wiring' },
    { key: 'storedEnergy', kind: 'energy', help: 'down to empty, before losses' },
    { key: 'usableEnergy', kind: 'energy', help: 'at the terminals under the load, to the cut-off' },
    { key: 'duration', kind: 'time', help: 'until the cut-off' },
    { key: 'greatestPower', kind: 'power', help: 'that the pack can give now' },
  ],
  compute: (values) => {
    const request = requestOf(values);
    if ('reason' in request) return request;
    const power = number(values, 'power');
    if (!(power > 0)) return { reason: 'the load must be positive', remedy: 'give power=10W' };
    const { pack, state } = request;
    const usable = usableCharge(pack, state, { power });
    return {
      openCircuitVoltage: packOpenCircuitVoltage(pack, state.stateOfCharge),
      cellSlope: openCircuitSlope(pack.curve, state.stateOfCharge),
      resistance: packResistance(pack, state.stateOfCharge, state.temperature),
      storedEnergy: storedEnergy(pack, state.stateOfCharge),
      usableEnergy: usable.energy,
      duration: usable.duration,
      greatestPower: greatestDischargePower(pack, state),
    };
  },
};

const chargeRelation: Relation = {
  topic: 'battery-charge',
  title: 'What a pack takes of an offered power: current, temperature and voltage limits',
  inputs: [
    ...packInputs,
    { key: 'offered', kind: 'power', help: 'power offered at the terminals', default: 20 },
    { key: 'duration', kind: 'time', help: 'how long', default: 60 },
  ],
  outputs: [
    { key: 'accepted', kind: 'power', help: 'mean power taken' },
    { key: 'curtailed', kind: 'power', help: 'mean power not taken' },
    { key: 'greatest', kind: 'power', help: 'most that the pack would take now' },
    { key: 'loss', kind: 'power', help: 'heat and lost charge' },
    { key: 'voltage', kind: 'voltage', help: 'mean terminal voltage' },
    { key: 'cellVoltage', kind: 'voltage', help: 'open-circuit voltage of a cell at the start' },
    { key: 'endCharge', kind: 'ratio', help: 'state of charge at the end' },
  ],
  compute: (values) => {
    const request = requestOf(values);
    if ('reason' in request) return request;
    const offered = number(values, 'offered');
    const duration = number(values, 'duration');
    if (!(offered >= 0 && duration > 0)) {
      return { reason: 'offered power and duration must be positive', remedy: 'give offered=20W duration=60s' };
    }
    const { pack, state } = request;
    const step = stepPack(pack, state, offered, duration);
    return {
      accepted: step.acceptedPower,
      curtailed: step.curtailedPower,
      greatest: greatestChargePower(pack, state),
      loss: step.lossPower,
      voltage: step.terminalVoltage,
      cellVoltage: openCircuitVoltage(pack.curve, state.stateOfCharge),
      endCharge: step.stateOfCharge,
    };
  },
};

const constantPowerRelation: Relation = {
  topic: 'constant-power',
  title: 'Current and voltage of a source with resistance under a constant-power load',
  inputs: [
    { key: 'openCircuitVoltage', kind: 'voltage', help: 'at rest', default: 12 },
    { key: 'resistance', kind: 'resistance', help: 'of battery and leads', default: 0.1 },
    { key: 'power', kind: 'power', help: 'drawn at the terminals' },
  ],
  outputs: [
    { key: 'current', kind: 'current', help: 'drawn' },
    { key: 'voltage', kind: 'voltage', help: 'at the terminals' },
    { key: 'greatestPower', kind: 'power', help: 'where the source collapses' },
  ],
  compute: (values) => {
    const open = number(values, 'openCircuitVoltage');
    const resistance = number(values, 'resistance');
    const power = number(values, 'power');
    if (!(open > 0 && resistance > 0 && power >= 0)) {
      return {
        reason: 'voltage and resistance must be positive',
        remedy: 'give openCircuitVoltage=12V resistance=100mohm',
      };
    }
    const outcome = constantPowerCurrent({ openCircuitVoltage: open, resistance, power });
    if (!outcome.ok) return outcome;
    return { ...outcome.value, greatestPower: (open * open) / (4 * resistance) };
  },
};

/** Battery relations that can be asked for one by one. */
export const batteryRelations: readonly Relation[] = [batteryRelation, chargeRelation, constantPowerRelation];
