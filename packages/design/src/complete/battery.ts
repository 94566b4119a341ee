import type { BatteryDesign } from '../aircraft.js';
import { BATTERY_CELLS, type BatteryCellName, type BatteryCellSheet } from '../library/battery-cells.js';
import type { Valued } from '../schema/field.js';
import { type Log, orDefault, usual, withSpread } from './assumptions.js';
import type { CompleteBattery } from './types.js';

const AMPERE_HOUR = 3600;
const NOMINAL_VOLTAGE = 3.65;

/** Cells in series usual for the size of the aircraft, common practice. */
const usualSeries = (mass: number): number => (mass < 0.4 ? 2 : mass < 2.5 ? 3 : mass < 4.5 ? 4 : 6);

function cellName(log: Log, battery: BatteryDesign, parallel: number): BatteryCellName {
  if (battery.cell?.like !== undefined) return battery.cell.like;
  const charge = battery.capacity?.kind === 'charge' ? battery.capacity.value / parallel / AMPERE_HOUR : undefined;
  const name: BatteryCellName =
    charge !== undefined && charge > 3.7 ? 'lithium-ion 21700 5.0 Ah' : 'lithium-ion 18650 3.4 Ah';
  log.push({
    path: 'battery.cell',
    what: 'choice',
    kind: 'choice',
    value: name,
    why: 'no cell stated; usual where mass matters',
  });
  return name;
}

function packCapacity(log: Log, battery: BatteryDesign, cell: Valued, layout: Layout): Valued {
  const given = battery.capacity;
  if (given === undefined) {
    const share = (cell.sigma ?? 0) / cell.value;
    const value = cell.value * layout.parallel;
    return orDefault(log, 'battery.capacity', undefined, {
      kind: 'charge',
      value,
      sigma: share * value,
      why: `${layout.parallel} parallel cells of the stated kind`,
      source: cell.source,
    });
  }
  const divisor = given.kind === 'energy' ? NOMINAL_VOLTAGE * layout.series : 1;
  const charge: Valued = {
    value: given.value / divisor,
    ...(given.sigma === undefined ? {} : { sigma: given.sigma / divisor }),
    source: given.source,
  };
  return withSpread(
    log,
    'battery.capacity',
    'charge',
    charge,
    { share: 0.04 },
    'packs hold a few per cent less or more than their label',
  );
}

function packResistance(
  log: Log,
  battery: BatteryDesign,
  sheet: BatteryCellSheet,
  layout: Layout,
  capacity: Valued,
): Valued {
  if (battery.resistance !== undefined) {
    return withSpread(
      log,
      'battery.resistance',
      'resistance',
      battery.resistance,
      { share: 0.15 },
      'resistance changes with temperature and age',
    );
  }
  const stated = battery.cell?.resistance;
  // Where only the size of the pack is known, resistance goes with the inverse of the capacity of a parallel group.
  const scale = (sheet.capacity.value * layout.parallel) / capacity.value;
  const perCell = stated?.value ?? sheet.resistance.value * scale;
  const spread = stated?.sigma ?? sheet.resistance.sigma * scale;
  const factor = layout.series / layout.parallel;
  const leads = 0.006;
  return orDefault(log, 'battery.resistance', undefined, {
    kind: 'resistance',
    value: perCell * factor + leads,
    sigma: Math.hypot(spread * factor, 0.003),
    why: 'cells of this kind in this layout, and 6 mohm of leads and connectors',
    source: battery.cell === undefined ? 'assumed' : 'library',
  });
}

function massOf(log: Log, battery: BatteryDesign, sheet: BatteryCellSheet, layout: Layout, capacity: Valued): Valued {
  if (battery.mass !== undefined)
    return withSpread(
      log,
      'battery.mass',
      'mass',
      battery.mass,
      { share: 0.02, fixed: 0.002 },
      'usual for a stated mass',
    );
  const energyScale = battery.cell === undefined ? capacity.value / (sheet.capacity.value * layout.parallel) : 1;
  const cell = battery.cell?.mass?.value ?? sheet.mass.value * energyScale;
  const value = 1.06 * cell * layout.series * layout.parallel + 0.008;
  return orDefault(log, 'battery.mass', undefined, {
    kind: 'mass',
    value,
    sigma: 0.05 * value,
    why: 'its cells, 6 % for tabs and wrapping, 8 g of leads',
    source: battery.cell === undefined ? 'assumed' : 'library',
  });
}

function limits(log: Log, battery: BatteryDesign, sheet: BatteryCellSheet, capacity: Valued) {
  const perHour = capacity.value / AMPERE_HOUR;
  const current = (key: 'charge' | 'discharge', given: Valued | undefined, rate: number) => {
    const why = `${rate} times the capacity per hour, usual for such cells`;
    const limit = { ...usual('current', rate * perHour, 0, why), source: 'library' as const };
    return orDefault(log, `battery.${key} current limit`, given, limit);
  };
  const voltage = (key: 'full' | 'empty', given: Valued | undefined, value: number, sigma: number) => {
    const limit = { ...usual('voltage', value, sigma, 'usual for such cells'), source: 'library' as const };
    return orDefault(log, `battery.${key} voltage`, given, limit);
  };
  return {
    fullVoltage: voltage('full', battery.fullVoltage ?? battery.cell?.fullVoltage, sheet.fullVoltage, 0.02),
    emptyVoltage: voltage('empty', battery.emptyVoltage ?? battery.cell?.emptyVoltage, sheet.emptyVoltage, 0.05),
    chargeCurrentLimit: current('charge', battery.chargeCurrentLimit, sheet.chargeRate),
    dischargeCurrentLimit: current('discharge', battery.dischargeCurrentLimit, sheet.dischargeRate),
  };
}

interface Layout {
  readonly series: number;
  readonly parallel: number;
}

function layoutOf(log: Log, battery: BatteryDesign, mass: number): Layout {
  if (battery.layout !== undefined) return battery.layout;
  const layout = { series: usualSeries(mass), parallel: 1 };
  const value = `${layout.series}S1P`;
  log.push({
    path: 'battery.layout',
    what: 'choice',
    kind: 'choice',
    value,
    why: 'no layout stated; usual for this size',
  });
  return layout;
}

const USABLE = usual('ratio', 0.95, 0.03, 'a reserve of about 5 % is left, common practice');

/** The pack with every number. size - rough mass of the aircraft [kg], and where a pack without a place is put [m] */
export function completeBattery(log: Log, battery: BatteryDesign, size: { mass: number; x: number }): CompleteBattery {
  const layout = layoutOf(log, battery, size.mass);
  const sheet: BatteryCellSheet = BATTERY_CELLS[cellName(log, battery, layout.parallel)];
  const cellCapacity = battery.cell?.capacity ?? { ...sheet.capacity, source: 'library' as const };
  const capacity = packCapacity(log, battery, cellCapacity, layout);
  const zero: Valued = { value: 0, source: 'stated' };
  return {
    chemistry: sheet.chemistry,
    ...layout,
    capacity,
    resistance: packResistance(log, battery, sheet, layout, capacity),
    mass: massOf(log, battery, sheet, layout, capacity),
    x: orDefault(log, 'battery.x', battery.x, usual('length', size.x, 0.03, 'no place stated; ahead of the wing')),
    y: battery.y ?? zero,
    z: battery.z ?? zero,
    ...(battery.movesFrom === undefined ? {} : { movesFrom: battery.movesFrom }),
    ...(battery.movesTo === undefined ? {} : { movesTo: battery.movesTo }),
    ...limits(log, battery, sheet, capacity),
    usable: orDefault(log, 'battery.usable', battery.usable, USABLE),
  };
}
