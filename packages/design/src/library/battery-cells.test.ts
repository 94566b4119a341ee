import {
  cellPack,
  lithiumIon18650Curve,
  lithiumPolymerCurve,
  packResistance,
  packSpecificEnergy,
} from '@noonwing/engine/battery';
import { describe, expect, it } from 'vitest';
import { BATTERY_CELLS, type BatteryCellSheet } from './battery-cells.js';

const packOf = (cell: BatteryCellSheet, series: number, parallel: number) =>
  cellPack(
    {
      curve: cell.chemistry === 'lithium polymer' ? lithiumPolymerCurve : lithiumIon18650Curve,
      capacity: cell.capacity.value,
      resistance: cell.resistance.value,
      chargeVoltage: cell.fullVoltage,
      minimumVoltage: cell.emptyVoltage,
      chargeRate: cell.chargeRate,
      dischargeCurrentLimit: (cell.dischargeRate * cell.capacity.value) / 3600,
    },
    series,
    parallel,
  );

describe.each(Object.entries<BatteryCellSheet>(BATTERY_CELLS))('a pack of %s', (_, cell) => {
  // 130 to 270 Wh/kg: from polymer packs with leads to bare energy cells (from memory).
  it('stores 130 to 270 Wh/kg of its cells, by the area under its open-circuit voltage', () => {
    const wattHours = packSpecificEnergy(packOf(cell, 3, 2), 6 * cell.mass.value) / 3600;
    expect(wattHours).toBeGreaterThan(130);
    expect(wattHours).toBeLessThan(270);
  });

  it('loses less than a tenth of its voltage at its charge current', () => {
    const pack = packOf(cell, 1, 1);
    const current = (cell.chargeRate * cell.capacity.value) / 3600;
    expect(current * packResistance(pack, 0.5, 298.15)).toBeLessThan(0.1 * cell.fullVoltage);
  });
});
