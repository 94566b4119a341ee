import type { ReactNode } from 'react';
import { fixed } from '../../../core/decimal.js';
import { lengthWords, type Said } from '../../../core/said.js';
import { shownQuantity } from '../../../core/shown-quantity.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import styles from './array.module.css';
import { cellName, shadeWords } from './array-data.js';

/** What is known of a cell, each with its name. */
export function cellFacts(
  view: ArrayView,
  cell: number,
  said: Said,
): readonly (readonly [name: string, words: string])[] {
  const of = view.cells[cell]!;
  const now = view.now?.cells[cell];
  const string = of.string === undefined ? undefined : view.strings[of.string];
  const open = of.light + of.shade;
  const [x, y, z] = of.centre;
  return [
    [
      'Light now',
      now === undefined
        ? 'not known'
        : `${Math.round(now.light)} W/m² get in, ${Math.round(now.shade)} W/m² lost to shade`,
    ],
    ['Shade now', shadeWords(view, cell)],
    ['Power now', now === undefined ? 'not known' : `${fixed(now.power, 2)} W at its own maximum`],
    [
      'Energy of the day',
      `${fixed(of.electricity / 3600, 1)} Wh; shade takes ${fixed(open > 0 ? (100 * of.shade) / open : 0, 1)} % of its light`,
    ],
    [
      'Temperature',
      now === undefined ? 'not known' : shownQuantity({ value: now.temperature }, 'temperature', said, 3),
    ],
    ['Sharpest bend', of.bendRadius === undefined ? 'flat' : `radius ${lengthWords(of.bendRadius, said)}`],
    [
      'String',
      string === undefined
        ? 'none'
        : `"${string.name}", cell ${of.position! + 1} of ${string.cells * string.parallel}, to converter "${string.converter}"`,
    ],
    [
      'Place',
      `${of.surface}, ${of.face} face; ${lengthWords(x, said)} aft, ${lengthWords(Math.abs(y), said)} ${y < 0 ? 'left' : 'right'}, ${lengthWords(z, said)} up`,
    ],
    ...(of.share === 1 ? [] : [['Piece', `${fixed(of.share, 2)} of a whole cell`] as const]),
  ];
}

/** The chosen cell in words. */
export function CellFacts({
  view,
  cell,
  said,
}: {
  readonly view: ArrayView;
  readonly cell: number;
  readonly said: Said;
}): ReactNode {
  const name = cellName(view, view.cells[cell]!);
  return (
    <section aria-label="The chosen cell" className={styles.facts}>
      <h4>{name.charAt(0).toUpperCase() + name.slice(1)}</h4>
      <dl>
        {cellFacts(view, cell, said).map(([term, words]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
