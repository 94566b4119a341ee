import type { Verdict } from './central.js';
import { dayLedger, type LedgerRow } from './ledger.js';

/** A loss, or where the rest goes, over the first day. */
export interface ArrayLoss {
  readonly key: string;
  readonly label: string;
  readonly group: LedgerRow['group'];
  /** [J] */
  readonly energy: number;
}

/** From the light on the open cells to the battery, over the first day. */
export interface ArrayLosses {
  /** Light on the plane of the cells without shade [J]; the rows add up to it. */
  readonly light: number;
  /** What the converters could deliver, and of that what was taken [J]. */
  readonly offered: number;
  readonly taken: number;
  /** Into the battery, and used as it comes [J]. */
  readonly charged: number;
  readonly rows: readonly ArrayLoss[];
}

/**
 * Losses of the array over the first day of one sky, each once.
 * @returns rows that sum to the light; undefined where the aircraft has no cells or cannot fly
 */
export function arrayLosses(verdict: Verdict, skyIndex: number): ArrayLosses | undefined {
  const { grid, skies } = verdict;
  const ledger = dayLedger(verdict, skyIndex, { from: grid.midnight, to: grid.dayEnd });
  const run = skies[skyIndex]?.run;
  if (ledger === undefined || run === undefined) return undefined;
  const step = grid.times[1]! - grid.times[0]!;
  const sum = { offered: 0, taken: 0, charged: 0 };
  for (let i = 0; i < grid.stepsPerDay; i++) {
    const taken = run.course.income[i]!;
    sum.offered += run.offered[i]! * step;
    sum.taken += taken * step;
    sum.charged += Math.max(0, taken - run.need[i]!) * step;
  }
  const behind: readonly ArrayLoss[] = [
    {
      key: 'curtailed',
      label: 'not taken: battery full or at its charge limit',
      group: 'converter',
      energy: sum.offered - sum.taken,
    },
    { key: 'used', label: 'used as it comes by flight and loads', group: 'drive', energy: sum.taken - sum.charged },
    { key: 'charged', label: 'into the battery', group: 'battery', energy: sum.charged },
  ];
  const before = ledger.rows
    .filter(
      ({ group, partOf }) => partOf === undefined && (group === 'light' || group === 'cells' || group === 'converter'),
    )
    .map(({ key, label, group, watts }) => ({ key, label, group, energy: watts * (ledger.to - ledger.from) }));
  const rows = [...before, ...behind];
  return { light: rows.reduce((total, { energy }) => total + energy, 0), ...sum, rows };
}
