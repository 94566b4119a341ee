import type { DayResult } from '../answer.js';
import { clockText } from '../clock.js';
import { percentText, wattsText } from '../words.js';
import { element, opening, table } from './elements.js';

/** From the light on the cells to the work on the air. */
export function ledgerView({ ledger }: DayResult): readonly HTMLElement[] {
  if (ledger === undefined) return [];
  const rows = ledger.rows.map(({ label, watts, share, note, isPart }) => [
    isPart ? `of which ${label}` : label,
    wattsText(watts),
    `${(100 * share).toFixed(1)} %`,
    note,
  ]);
  const light = ['light on the cells', wattsText(ledger.light), '100.0 %', 'what the rows above add up to'];
  const caption = `From sunlight on the cells to work done on the air, ${ledger.sky} sky, ${clockText(ledger.at)}`;
  return [
    element('h2', {}, 'Where the light goes'),
    table(caption, ['loss or use', 'power', 'share of the light', 'note'], [...rows, light], {
      numeric: [1, 2],
      parts: [...ledger.rows.map(({ isPart }) => isPart), false],
    }),
  ];
}

/** Contributions below this share of the variance are counted together. */
const smallShare = 0.01;

/** What the uncertainty comes from; nothing where it was not asked for. */
export function contributionsView({ contributions }: DayResult): readonly HTMLElement[] {
  if (contributions.length === 0) return [];
  const large = contributions.filter(({ share }) => share >= smallShare);
  const rest = contributions.filter(({ share }) => share < smallShare);
  const rows = large.map(({ label, effect, share, measurement }) => [
    label,
    percentText(share),
    `${effect < 0 ? '−' : '+'}${(100 * Math.abs(effect)).toFixed(1)} %`,
    measurement,
  ]);
  const together = rest.reduce((sum, { share }) => sum + share, 0);
  if (rest.length > 0) rows.push([`${rest.length} smaller ones together`, percentText(together), '', '']);
  const columns = [
    'what is uncertain',
    'share',
    'one standard uncertainty changes income over need by',
    'what would make it surer',
  ];
  return [
    element('h2', {}, 'What the uncertainty comes from'),
    table('Share of each input in the uncertainty of the solar ratio', columns, rows, { numeric: [1, 2] }),
  ];
}

/** What was not stated. */
export function assumptionsView({ assumptions }: DayResult): HTMLElement {
  const rows = assumptions.map(({ file, path, value, why }) => [
    path,
    value,
    why,
    file === 'design' ? 'design file' : 'day plan',
  ]);
  const columns = ['where it could be written', 'taken as', 'why', 'file'];
  return element(
    'section',
    {},
    element('h2', {}, 'What was assumed'),
    element('p', {}, `${assumptions.length} values were not stated. Each has a wide uncertainty until you write it.`),
    opening('assumptions', 'Show them', table('Values that were not stated', columns, rows)),
  );
}
