import type { CompleteAircraft } from '@noonwing/design';
import type { Feed, Half, StringSplit } from './string-split.js';

/** "top right + top left | tail right // tail left": which halves share a string, and a converter, whatever these are called. */
export const splitKey = ({ feeds }: Pick<StringSplit, 'feeds'>): string =>
  feeds
    .map((feed) =>
      feed
        .map((halves) =>
          halves
            .flatMap(({ row, side }) => (side === 'both' ? [`${row} left`, `${row} right`] : [`${row} ${side}`]))
            .sort()
            .join(' + '),
        )
        .sort()
        .join(' // '),
    )
    .sort()
    .join(' | ');

/** The same of a design as it is. */
export function builtKey({ array }: CompleteAircraft): string {
  const strings = array?.strings ?? [];
  const halves = (rows: readonly string[]): readonly Half[] =>
    rows.map((row) => ({ row, side: array!.rows.find(({ name }) => name === row)!.side, cells: [] }));
  const feeds = [...new Set(strings.map(({ converter }) => converter))].map((name) =>
    strings
      .filter(({ converter }) => converter === name)
      .flatMap(({ rows, parallel }) => Array.from({ length: parallel }, () => halves(rows))),
  );
  return splitKey({ feeds });
}

const some = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

/** "3 strings", or "4 strings on 3 converters" where some lie side by side. */
export function countWords({ feeds }: StringSplit): string {
  const strings = feeds.flat().length;
  return `${some(strings, 'string')}${strings === feeds.length ? '' : ` on ${some(feeds.length, 'converter')}`}`;
}

/** The same with what lies side by side: '3 strings on 2 converters, "front right" beside "front left"'. */
export function splitWords(split: StringSplit): string {
  const { feeds } = split;
  const beside = feeds.filter((feed) => feed.length > 1).map((feed) => besideWords(feed, feeds.length === 1));
  return [countWords(split), ...beside].join(', ');
}

/** Strings of one converter by their rows, or by their sides where they are halves of the same rows or of everything. */
function besideWords(feed: Feed, isAll: boolean): string {
  const sides = feed.map((string) => [...new Set(string.map(({ side }) => side))].join(' and '));
  const rows = feed.map((string) => [...new Set(string.map(({ row }) => row))].join(' + '));
  const bySide = new Set(sides).size === feed.length && sides.every((side) => side === 'right' || side === 'left');
  if (bySide && isAll) return 'right side beside left side';
  if (bySide && new Set(rows).size === 1) return `both sides of "${rows[0]}" beside each other`;
  return rows
    .map((names, k) => `"${names}"${rows.indexOf(names) === rows.lastIndexOf(names) ? '' : ` ${sides[k]}`}`)
    .join(' beside ');
}
