import { bar, emptyNote, finish, heading, widthOf } from '../frame.js';
import type { Drawing, DrawOptions } from '../model.js';
import { drawable, known, shareText } from '../number.js';
import { joined, penOf } from '../svg.js';
import { listed, sentence, textWidth, wrapText } from '../text.js';
import type { ShareRow, SharesData } from './inputs.js';

/** What makes the answer unsure: one bar per input, with what would make it surer. */
export function uncertaintyShares(data: SharesData, options: DrawOptions = {}): Drawing {
  const pen = penOf('shares', options);
  const rows = data.rows.filter(({ share }) => drawable(share) && share >= 0);
  const words = { title: `What makes it unsure: ${data.of}`, text: sharesText(data, rows) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const most = rows.reduce((max, { share }) => Math.max(max, share), 0);
  let y = head.height + 2;
  const body = rows.map((row) => {
    const amount = shareText(row.share);
    const label = `${row.label}, ${row.measured ? 'measured' : 'assumed or stated'}`;
    const lines = wrapText(label, 13, width - 28 - textWidth(amount, 13, true), 3);
    const remedy = row.remedy ? wrapText(row.remedy, 12, width - 16, 3) : [];
    const top = y + 5 + lines.length * 16;
    const length = most > 0 ? Math.max(1.5, (width - 16) * (row.share / most)) : 1.5;
    const box = { left: 8, right: 8 + length, top, bottom: top + 12 };
    const first = y;
    y = top + 15 + remedy.length * 15 + 6;
    return joined([
      ...lines.map((line, i) => pen.text(8, first + 16 + i * 16, line)),
      pen.text(width - 8, first + 16, amount, { anchor: 'end', bold: true }),
      bar(
        pen,
        box,
        row.measured
          ? { fill: 'part3', stroke: 'edge' }
          : { fill: 'part1', pattern: ['hatch', 'edge'], stroke: 'edge' },
      ),
      ...remedy.map((line, i) => pen.text(8, top + 25 + i * 15, line, { size: 12, role: 'soft' })),
    ]);
  });
  const empty = emptyNote(pen, { left: 0, right: width, top: head.height, bottom: head.height + 60 }, words.text);
  return finish(pen, options, {
    kind: 'shares',
    ...words,
    table: {
      columns: [
        { key: 'label', label: 'input', unit: '' },
        { key: 'share', label: 'share of the doubt', unit: '%' },
        { key: 'known', label: 'known how', unit: '' },
        { key: 'remedy', label: 'what would make it surer', unit: '' },
      ],
      rows: data.rows.map(({ label, share, measured, remedy }) => ({
        label,
        share: known(share * 100),
        known: measured ? 'measured' : 'assumed or stated',
        remedy: remedy ?? '',
      })),
    },
    height: rows.length === 0 ? head.height + 60 : y,
    body: [head.body, ...body, rows.length === 0 && empty],
  });
}

function sharesText(data: SharesData, rows: readonly ShareRow[]): string {
  const largest = [...rows].sort((a, b) => b.share - a.share).filter(({ share }) => share >= 0.1);
  if (rows.length === 0) return `Nothing is known about what makes it unsure: ${data.of}.`;
  if (largest.length === 0) return 'No single input makes much of it unsure.';
  const named = largest.slice(0, 3).map(({ label, share }) => `${label} (${shareText(share)})`);
  const guessed = largest.some(({ measured }) => !measured) ? ' What is not measured is hatched.' : '';
  return `${sentence(listed(named))} ${named.length > 1 ? 'make' : 'makes'} most of it unsure.${guessed}`;
}
