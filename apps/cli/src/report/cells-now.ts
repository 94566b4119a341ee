import { cellPicture, cellPictureData, type Drawing } from '@noonwing/drawing';
import { formatDate, formatTimeOfDay } from '@noonwing/quantities';
import { cellSheets, wiredStrings } from '@noonwing/verdict/cell-sheets';
import type { CellsOfDay } from '@noonwing/verdict/cells-day';
import type { CellsNow, StringNow } from '@noonwing/verdict/cells-now';
import type { TypedInstant } from '../input/instant.js';
import type { Answered } from '../input/run.js';
import { jsonQuantity } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { tableLines, wrapped } from '../output/table.js';

const degrees = (radians: number): string => `${Math.round((radians * 180) / Math.PI)} deg`;

const instantWords = ({ hour, heading }: TypedInstant): string =>
  `at ${formatTimeOfDay(Math.round(hour * 3600))}, heading ${degrees(heading)}`;

/** Cells on their unrolled surfaces, by energy of the day or by light at an instant. */
export function cellsDrawing(
  { verdict, design }: Answered,
  day: CellsOfDay,
  instant: TypedInstant | undefined,
  now: CellsNow | undefined,
): Drawing {
  const date = formatDate(verdict.prepared.plan.date);
  const what =
    instant === undefined || now === undefined
      ? {
          when: `over ${date}, ${day.sky},`,
          value: { label: 'energy', unit: 'Wh', decimals: 1 },
          values: day.cells.map(({ electricity }) => electricity / 3600),
        }
      : {
          when: `on ${date}, ${day.sky}, ${instantWords(instant)},`,
          value: { label: 'light', unit: 'W/m2', decimals: 0 },
          values: now.cells.map(({ light }) => light),
        };
  const strings = wiredStrings(verdict);
  const data = cellPictureData({ aircraft: design.aircraft.name, faces: cellSheets(verdict), strings, ...what });
  return cellPicture(data, { standalone: true, width: 900 });
}

const warmthWords = (cells: CellsNow['cells']): string => {
  const celsius = cells.map(({ temperature }) => Math.round(temperature - 273.15));
  return `they are ${Math.min(...celsius)} to ${Math.max(...celsius)} C warm`;
};

/** What cells and strings do at an instant, in words. */
export function nowLines(instant: TypedInstant, { cells, strings }: CellsNow): readonly string[] {
  const light = cells.map((cell) => cell.light);
  const shaded = cells.filter(({ shadedBeam, light: watts }) => watts > 0 && shadedBeam > 0.02).length;
  const head = `${instantWords(instant)[0]!.toUpperCase()}${instantWords(instant).slice(1)}`;
  const brightest = Math.max(...light);
  if (!(brightest > 0)) return ['', `${head}: the cells are dark.`];
  return [
    '',
    ...wrapped(
      `${head}: ${Math.min(...light).toFixed(0)} to ${brightest.toFixed(0)} W/m2 on the cells; ${shaded} of ${cells.length} stand in the shade of something; ${warmthWords(cells)}.`,
    ),
    ...tableLines({
      head: ['string', 'most W', 'at V', 'of its cells', 'taken W', 'at V'],
      rows: strings.map(({ name, maxima: [best], cells: own, held }) => [
        name,
        (best?.power ?? 0).toFixed(1),
        (best?.voltage ?? 0).toFixed(2),
        percent(own > 0 ? (best?.power ?? 0) / own : 0, 1),
        held.power.toFixed(1),
        held.voltage.toFixed(2),
      ]),
      left: [0],
    }),
    ...strings.flatMap(stringLines),
  ];
}

function stringLines({ name, maxima: [, ...others], held, conducting, warnings }: StringNow): readonly string[] {
  const diodes = conducting.flat();
  return [
    ...wrapped(`String "${name}": what limits it: ${held.because}.`),
    ...others.flatMap(({ voltage, power }) =>
      wrapped(`A tracker can be caught on a lower maximum at ${voltage.toFixed(2)} V, ${power.toFixed(1)} W.`),
    ),
    ...(diodes.length === 0 ? [] : wrapped(`Diodes that carry current past shaded cells: ${diodes.join(', ')}.`)),
    ...warnings.flatMap(({ message }) => wrapped(`${message}.`)),
  ];
}

export const nowData = ({ cells, strings }: CellsNow) => ({
  instant: {
    cells: cells.map(({ light, shade, shadedBeam, temperature, power }) => ({
      light: jsonQuantity(light, 'areal power'),
      shade: jsonQuantity(shade, 'areal power'),
      shadedBeam: jsonQuantity(shadedBeam, 'ratio'),
      temperature: jsonQuantity(temperature, 'temperature'),
      power: jsonQuantity(power, 'power'),
    })),
    strings: strings.map(({ name, maxima, cells: own, held, conducting, warnings }) => ({
      name,
      cells: jsonQuantity(own, 'power'),
      maxima: maxima.map(({ voltage, power }) => ({
        voltage: jsonQuantity(voltage, 'voltage'),
        power: jsonQuantity(power, 'power'),
      })),
      converter: {
        voltage: jsonQuantity(held.voltage, 'voltage'),
        power: jsonQuantity(held.power, 'power'),
        because: held.because,
      },
      conductingDiodes: conducting,
      findings: warnings.map(({ message }) => message),
    })),
  },
});
