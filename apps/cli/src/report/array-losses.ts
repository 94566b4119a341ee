import type { ArrayLosses } from '@noonwing/verdict/array-losses';
import { jsonQuantity } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { tableLines } from '../output/table.js';
import { heading, type Terminal } from '../terminal.js';

/** Rows that a tenth of a watt hour shows. */
const shownLosses = ({ rows }: ArrayLosses) => rows.filter(({ energy }) => Math.abs(energy) >= 180);

/** Where the light of the day goes, from the open cells to the battery. */
export function lossLines(losses: ArrayLosses | undefined, terminal: Terminal): readonly string[] {
  if (losses === undefined) return [];
  const rows = shownLosses(losses).map(({ label, energy }) => [
    label,
    `${(energy / 3600).toFixed(1)} Wh`,
    percent(energy / Math.max(losses.light, 1), 1),
  ]);
  return [
    '',
    heading(terminal, 'Where the light on the open cells goes'),
    ...tableLines({ head: ['', 'of the day', 'share'], rows, left: [0] }),
  ];
}

export const lossData = (losses: ArrayLosses | undefined) =>
  losses === undefined
    ? {}
    : {
        light: jsonQuantity(losses.light, 'energy'),
        losses: shownLosses(losses).map(({ key, label, energy }) => ({
          key,
          label,
          energy: jsonQuantity(energy, 'energy'),
        })),
      };
