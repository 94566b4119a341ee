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
  /** Of the longest string, open [V]. */
  readonly openCircuitVoltage: number;
  /** Of all strings side by side, shorted [A], and their greatest power [W]. */
  readonly shortCircuitCurrent: number;
  readonly power: number;
  readonly warnings: readonly Warning[];
}

/** What hangs on a converter or behind a fuse. */
export interface BurstString {
  readonly cell: CellParameters;
  /** In series. */
  readonly cells: number;
  /** Strings side by side. */
  readonly parallel: number;
  /** Of the cells: that of the air, since the shade was long [K]. */
  readonly temperature: number;
}

const burstRemedy = {
  'burst-voltage': 'fewer cells in series, or a converter whose input bears it',
  'burst-current': 'a converter that bears it or limits it by itself',
  'burst-power': 'a larger converter, unless it is known to hold back by itself for these seconds',
  'burst-fuse': 'a larger fuse, and wire that it still guards',
};
type BurstCode = keyof typeof burstRemedy;

/**
 * Burst of light at a cloud edge, on cells that are still cold.
 *
 * @param strings - all that hang on the converter, or behind the fuse: their currents and powers add
 * @param limits - ratings of the converter
 * @param fuse - rating [A], where there is one at the array
 * @returns greatest voltage, currents, power, and what they exceed
 * Source: single-diode cell at 1300 W/m2 (De Soto, Klein and Beckman 2006).
 */
export function cloudEdgeBurst(
  strings: readonly BurstString[],
  limits: Converter['limits'],
  fuse?: number,
): BurstReport {
  let [open, short, power] = [0, 0, 0];
  for (const { cell, cells, parallel, temperature } of strings) {
    const curve = cellAt(cell, { irradiance: 1000 * cloudEdgeLight, temperature });
    open = Math.max(open, cells * openCircuitVoltage(curve));
    short += parallel * shortCircuitCurrent(curve);
    power += cells * parallel * maximumPowerPoint(curve).power;
  }
  const { maximumInputVoltage, inputCurrent, inputPower } = limits;
  const over = (code: BurstCode, value: number, limit: number | undefined, what: string, unit: string): Warning[] =>
    limit === undefined || value <= limit
      ? []
      : [
          {
            code,
            message: `at a cloud edge ${what} reaches ${value.toFixed(1)} ${unit}, above ${limit.toFixed(1)} ${unit}: ${burstRemedy[code]}`,
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
