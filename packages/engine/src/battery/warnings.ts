import type { Warning } from '../result.js';
import type { CellPack } from './pack.js';

/** How a lithium pack is used in the aircraft; leave out what is unknown. */
export interface PackUse {
  /** Highest output voltage of the converter, pack level [V]. */
  readonly converterCeiling?: number | undefined;
  /** Whether any converter raises the voltage (boost). */
  readonly boostConverter?: boolean | undefined;
  /** Lowest and highest cell temperature while charging [K]. */
  readonly lowestTemperature?: number | undefined;
  readonly highestTemperature?: number | undefined;
  /** Voltage above which the motor is cut, pack level [V]. */
  readonly motorCutOff?: number | undefined;
  /** Mass of the pack [kg] and its specific energy [J/kg]. */
  readonly specificEnergy?: number | undefined;
}

const where = 'battery';
const cellLimit = 4.2;
/** Spread between cells of a pack that is charged without balancing [V]. */
const usualSpread = 0.05;

/**
 * Cautions that belong to a lithium pack charged in flight. They travel with results and judge nothing.
 * Source: data-sheet limits (4.20 +- 0.05 V per cell, no charge below 0 C) and common practice; see README.
 */
export function packWarnings(pack: CellPack, use: PackUse = {}): readonly Warning[] {
  return [
    ...chargeVoltageWarnings(pack, use),
    ...loadDumpWarnings(use),
    ...temperatureWarnings(use),
    ...cutOffWarnings(pack, use),
    ...energyWarnings(use),
    ...buildWarnings(pack),
  ];
}

function warn(code: string, message: string): Warning {
  return { code, message, where };
}

function chargeVoltageWarnings(pack: CellPack, use: PackUse): Warning[] {
  const ceiling = (use.converterCeiling ?? pack.chargeVoltage * pack.cellsInSeries) / pack.cellsInSeries;
  const found: Warning[] = [];
  if (ceiling > cellLimit + 1e-9) {
    found.push(
      warn(
        'charge-voltage',
        `charging ends at ${ceiling.toFixed(2)} V per cell; lithium cells allow 4.20 V: lower the converter's output`,
      ),
    );
  }
  if (pack.cellsInSeries > 1 && ceiling + usualSpread > cellLimit) {
    found.push(
      warn(
        'cell-balance',
        `a pack limit of ${ceiling.toFixed(2)} V per cell does not protect an unbalanced cell: with 50 mV of spread the highest stands at ${(ceiling + usualSpread).toFixed(2)} V; watch each cell, or end at 4.10 to 4.15 V`,
      ),
    );
  }
  return found;
}

function loadDumpWarnings(use: PackUse): Warning[] {
  if (use.boostConverter !== true) return [];
  return [
    warn(
      'load-dump',
      'if a protection circuit opens the battery while a boost converter runs, the bus rises to the limit of the converter: it needs its own over-voltage limit, and protection must cut the source, not the bus',
    ),
  ];
}

function temperatureWarnings(use: PackUse): Warning[] {
  const found: Warning[] = [];
  if (use.lowestTemperature !== undefined && use.lowestTemperature < 273.15) {
    found.push(warn('charge-cold', 'below 0 C lithium plates on charging: no charge is counted there'));
  } else if (use.lowestTemperature !== undefined && use.lowestTemperature < 288.15) {
    found.push(warn('charge-cool', 'between 0 and 15 C the charge current is reduced'));
  }
  if (use.highestTemperature !== undefined && use.highestTemperature > 318.15) {
    found.push(
      warn('charge-hot', 'above 45 C many lithium cells must not be charged (some allow 60 C): see the data sheet'),
    );
  }
  return found;
}

function cutOffWarnings(pack: CellPack, use: PackUse): Warning[] {
  const cutOff = (use.motorCutOff ?? pack.minimumCellVoltage * pack.cellsInSeries) / pack.cellsInSeries;
  const least = pack.curve.chemistry === 'lithium polymer' ? 3 : 2.5;
  if (cutOff >= least) return [];
  return [
    warn(
      'cut-off-low',
      `a cut-off of ${cutOff.toFixed(2)} V per cell under load damages this kind of cell; at least ${least.toFixed(1)} V`,
    ),
  ];
}

/** Above 300 Wh/kg no ordinary cell of the years 2010 to 2025 is known; under 100 something else was weighed. */
function energyWarnings(use: PackUse): Warning[] {
  if (use.specificEnergy === undefined) return [];
  const wattHours = use.specificEnergy / 3600;
  if (wattHours > 300) {
    return [
      warn(
        'specific-energy-high',
        `${wattHours.toFixed(0)} Wh/kg is more than usual cells hold (packs 130 to 250): check capacity and mass`,
      ),
    ];
  }
  if (wattHours < 100) {
    return [
      warn(
        'specific-energy-low',
        `${wattHours.toFixed(0)} Wh/kg is less than usual lithium packs hold (130 to 250): check capacity and mass`,
      ),
    ];
  }
  return [];
}

function buildWarnings(pack: CellPack): Warning[] {
  const found: Warning[] = [
    warn(
      'lithium',
      'lithium cells burn when crushed, shorted or overcharged: fuse at the battery, never charge unattended, inspect after a hard landing',
    ),
  ];
  if (pack.cellsInParallel > 1) found.push(warn('fuse', 'fuse each parallel string'));
  if (pack.cellsInSeries > 6)
    found.push(warn('precharge', 'above about 6 cells in series use an anti-spark or precharge connection'));
  return found;
}
