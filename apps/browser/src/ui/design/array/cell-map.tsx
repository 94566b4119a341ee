import { type CellPictureData, cellPicture, type DrawOptions, type HitRegion } from '@noonwing/drawing';
import { type KeyboardEvent, type ReactNode, useCallback, useId, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import { Figure } from '../../kit/index.js';
import styles from './array.module.css';
import { nextCell } from './array-data.js';

export interface CellMapProps {
  readonly data: CellPictureData;
  readonly sheets: ArrayView['sheets'];
  readonly selected: number;
  /** What is said of the chosen cell, for those who do not see the picture. */
  readonly words: string;
  readonly onSelect: (cell: number) => void;
  readonly onMark: (cell: number) => void;
}

/** The cells laid flat: one is chosen by pointer or arrow keys, marked with the space bar; the pointer reads what it is over. */
export function CellMap({ data, sheets, selected, words, onSelect, onMark }: CellMapProps): ReactNode {
  const hint = useId();
  const [over, setOver] = useState<HitRegion>();
  const draw = useCallback((options: DrawOptions) => cellPicture(data, options), [data]);
  const onKeyDown = (event: KeyboardEvent) => {
    // The menu below the picture has arrow keys of its own.
    if (event.target !== event.currentTarget) return;
    if (event.key === ' ') {
      event.preventDefault();
      onMark(selected);
      return;
    }
    if (!event.key.startsWith('Arrow')) return;
    event.preventDefault();
    const next = nextCell(sheets, selected, event.key);
    if (next !== undefined) onSelect(next);
  };
  return (
    <>
      <div
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys choose a cell in it
        tabIndex={0}
        className={styles.map}
        aria-label="Cells: arrow keys choose one, the space bar marks it"
        aria-describedby={hint}
        onKeyDown={onKeyDown}
      >
        <Figure id="cells-flat" draw={draw} words={false} onHit={({ id }) => onSelect(Number(id))} onOver={setOver} />
      </div>
      <p className={styles.over} aria-hidden="true">
        {over === undefined ? 'Point at a cell to read it; press to choose it.' : localNumbers(over.label)}
      </p>
      <p id={hint} className="nw-unseen" aria-live="polite">
        {words}
      </p>
    </>
  );
}
