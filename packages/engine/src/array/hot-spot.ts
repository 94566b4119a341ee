import type { Warning } from '../result.js';
import { diodeVoltageAtCurrent } from './cell.js';
import { groupStates, groupsOf, type SeriesString, stringCurrentAtVoltage } from './string.js';
import { stringMaximumPowerPoint } from './string-maximum.js';

/** The cell of a string that takes most power from the others. */
export interface HotSpot {
  /** Index of its group in the string. */
  readonly group: number;
  /** Heat from the other cells, beside its own light [W]; 0 where no cell is in reverse. */
  readonly power: number;
  /** Voltage over the cell [V], negative in reverse. */
  readonly voltage: number;
  /** Through the cell [A]; a bypass diode carries the rest. */
  readonly current: number;
}

const none: HotSpot = { group: -1, power: 0, voltage: 0, current: 0 };

/**
 * Cell that is heated most at a string current.
 *
 * @param string - cells in series
 * @param current - of the string [A]
 * @returns the cell; power 0 where none is in reverse
 */
export function hotSpotAtCurrent(string: SeriesString, current: number): HotSpot {
  let worst = none;
  for (const [group, state] of groupStates(string, current).entries()) {
    if (-state.power > worst.power) {
      worst = { group, power: -state.power, voltage: state.voltage, current: state.power / state.voltage };
    }
  }
  return worst;
}

/** The hottest cell of a string at its greatest power and shorted. */
export interface HotSpotReport {
  readonly atMaximum: HotSpot;
  /** Shorted: by a converter that collapses, a shorted plug or a short-circuit reading. */
  readonly shorted: HotSpot;
  readonly warnings: readonly Warning[];
}

/** Heat on the whole face of a cell from which it runs hot enough to melt solder and film [W/m2] (judgement: a second and a third sun). */
const hotFlux = 2000;

/**
 * Hot-spot heat in a string, at its greatest power and shorted, with a warning where a cell would burn.
 *
 * @param string - cells in series
 * @param cellArea - of one cell [m2]
 * @param nameOf - words for a cell of a group of the string
 * @returns hottest cells and warnings
 */
export function hotSpots(
  string: SeriesString,
  cellArea: number,
  nameOf: (group: number) => string = () => 'one shaded or cracked cell',
): HotSpotReport {
  if (groupsOf(string).length === 0) return { atMaximum: none, shorted: none, warnings: [] };
  const atMaximum = hotSpotAtCurrent(string, stringMaximumPowerPoint(string).current);
  const shorted = hotSpotAtCurrent(string, stringCurrentAtVoltage(string, 0));
  const warnings: Warning[] = [];
  for (const [when, spot] of [
    ['at maximum power', atMaximum],
    ['with the string shorted', shorted],
  ] as const) {
    if (!(spot.power / cellArea > hotFlux)) continue;
    warnings.push({
      code: 'hot-spot',
      message: `${when} ${nameOf(spot.group)} takes ${spot.power.toFixed(0)} W of heat from the others at ${spot.voltage.toFixed(1)} V: it can melt film and solder; a diode over fewer cells cures it`,
      where: 'string',
    });
  }
  return { atMaximum, shorted, warnings };
}

/** Where the light on a cell goes [W]: current + heat + reflection = light. */
export interface CellBalance {
  readonly light: number;
  readonly reflected: number;
  /** Given to the terminals; negative where the other cells drive it. */
  readonly electric: number;
  readonly heat: number;
}

/**
 * Energy balance of one cell: what enters as light leaves as current, heat or reflection.
 *
 * @param curve - of the cell at its light and temperature
 * @param current - through it [A]
 * @param face.irradiance - on its face, before reflection [W/m2]
 * @param face.area - [m2]
 * @param face.absorptance - of the covered cell
 * @returns light, reflection, electric power and heat [W]
 */
export function cellBalance(
  curve: Parameters<typeof diodeVoltageAtCurrent>[0],
  current: number,
  face: { readonly irradiance: number; readonly area: number; readonly absorptance: number },
): CellBalance {
  const light = face.irradiance * face.area;
  const reflected = (1 - face.absorptance) * light;
  const electric = current * (diodeVoltageAtCurrent(curve, current) - current * curve.seriesResistance);
  return { light, reflected, electric, heat: light - reflected - electric };
}
