import {
  type CellParameters,
  type Converter,
  cellAt,
  maximumPowerPoint,
  openCircuitVoltage,
  shortCircuitCurrent,
} from '../array/index.js';
import type { Warning } from '../result.js';

/** Light at the edge of a cloud over full sun: 1.2 to 1.3 for seconds to minutes (from memory). */
export const cloudEdgeLight = 1.3;

/** What a burst of light on cold cells asks of converter and fuse. */
export interface BurstReport {
  /** Of the string, open [V]. */
  readonly openCircuitVoltage: number;
  /** Of all strings side by side, shorted [A], and their greatest power [W]. */
  readonly shortCircuitCurrent: number;
  readonly power: number;
  readonly warnings: readonly Warning[];
}

/**
 * Burst of light at a cloud edge, on cells that are still cold.
 *
 * @param string.cell, string.cells, string.parallel - what hangs on the converter
 * @param string.temperature - of the cells: those of the air, since the shade was long [K]
 * @param converter - with its ratings
 * @param fuse - rating [A], where there is one at the array
 * @returns voltages, currents, power, and what they exceed
 * Source: single-diode cell at 1300 W/m2 (De Soto, Klein and Beckman 2006).
 */
export function cloudEdgeBurst(
  string: {
    readonly cell: CellParameters;
    readonly cells: number;
    readonly parallel: number;
    readonly temperature: number;
  },
  converter: Converter,
  fuse?: number,
): BurstReport {
  const curve = cellAt(string.cell, { irradiance: 1000 * cloudEdgeLight, temperature: string.temperature });
  const open = string.cells * openCircuitVoltage(curve);
  const short = string.parallel * shortCircuitCurrent(curve);
  const power = string.cells * string.parallel * maximumPowerPoint(curve).power;
  const { maximumInputVoltage, inputCurrent, inputPower } = converter.limits;
  const over = (code: string, value: number, limit: number | undefined, what: string, unit: string): Warning[] =>
    limit === undefined || value <= limit
      ? []
      : [
          {
            code,
            message: `at a cloud edge ${what} reaches ${value.toFixed(1)} ${unit}, above ${limit.toFixed(1)} ${unit}`,
          },
        ];
  return {
    openCircuitVoltage: open,
    shortCircuitCurrent: short,
    power,
    warnings: [
      ...over('burst-voltage', open, maximumInputVoltage, 'the open string', 'V'),
      ...over('burst-current', short, inputCurrent, 'the current of the array', 'A'),
      ...over('burst-power', power, inputPower, 'the power of the array', 'W'),
      ...over('burst-fuse', short, fuse, 'the current through the fuse', 'A'),
    ],
  };
}
