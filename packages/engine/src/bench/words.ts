import { cellAt, maximumPowerPoint, openCircuitVoltage } from '../array/index.js';
import type { Component } from './evidence.js';
import type { BenchSetup, BenchUnit, CauseName, Fault } from './types.js';

const percent = (share: number): string => `${Math.round(100 * share)} %`;
const signed = (value: number, digits: number): string => `${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(digits)}`;

/** What a cause means, with the numbers under which it explains the readings best. */
export function causeWords(name: CauseName, component: Component, setup: BenchSetup): string {
  const { fault } = component;
  const unit = setup.units[Math.max(fault.unit, 0)]!;
  switch (name) {
    case 'healthy':
      return 'nothing is wrong: the readings lie within what the model and the instruments leave open';
    case 'converter setting':
      return settingWords(unit, component);
    case 'local maximum':
      return `the converter sits on the lower of two maxima: ${shadeWords(fault)}, and ${percent(1 - lossOf(component))} of what the array could give is taken`;
    case 'shade or crack':
      return `shade, a crack or a bad joint: ${shadeWords(fault)}`;
    case 'hot cells':
      return `the cells are ${fault.hotter!.toFixed(0)} K hotter than cells in the open: stagnant air, insulated behind, or just laid in the sun`;
    case 'haze':
      return `haze, thin cloud or dirt: ${percent(fault.haze!)} of the light of a clear sky`;
    case 'wrong time zone':
      return `the time is off by ${signed(fault.hours!, 0)} h: wrong zone or summer time`;
    case 'sensor offset':
      return `the current sensor is off by ${signed(fault.offset!, 1)} A, or a load runs beside it`;
    case 'sensor sign':
      return 'the current sensor is the wrong way round';
    case 'battery full':
      return `the battery takes only ${percent(fault.accepted!)} of what is offered: nearly full, or a current limit; no fault`;
  }
}

/** Share of the greatest power that is not taken. */
const lossOf = ({ last: { mean } }: Component): number =>
  mean.maximumPower > 0 ? 1 - Math.min(1, (mean.arrayVoltage * mean.arrayCurrent) / mean.maximumPower) : 0;

function settingWords(unit: BenchUnit, { fault, last }: Component): string {
  const held = fault.heldShare! * unit.cells * openCircuitVoltage(unit.cell);
  const { effective, temperature } = { effective: 1000, temperature: last.mean.cellTemperature };
  const light = Math.min(effective, Math.max(last.mean.irradiance, 50));
  const best = unit.cells * maximumPowerPoint(cellAt(unit.cell, { irradiance: light, temperature })).voltage;
  const relation = held > best ? 'too high' : 'too low';
  return `the converter holds the string at ${held.toFixed(1)} V, ${relation} for cells at ${(temperature - 273.15).toFixed(0)} degC, whose best is ${best.toFixed(1)} V`;
}

const shadeWords = ({ shaded }: Fault): string =>
  `${shaded!.cells === 1 ? 'one cell gives' : `${shaded!.cells} cells give`} ${percent(shaded!.share)} of the current of the others`;
