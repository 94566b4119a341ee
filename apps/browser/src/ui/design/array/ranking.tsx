import type { ReactNode } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { LeverView } from '../../../core/view.js';
import { Button, classes, Disclosure, sentence } from '../../kit/index.js';
import { EditList } from '../../shell/edit-list.js';
import computed from '../computed.module.css';
import { useEdit } from '../use-design.js';
import styles from './ranking.module.css';
import type { RankedRow } from './ranking-data.js';

export interface RankingProps {
  readonly caption: string;
  /** Head of the first column: what is ranked. */
  readonly head: string;
  readonly rows: readonly RankedRow[];
  /** Those that cannot be had, with what they are called together. */
  readonly cannot: readonly LeverView[];
  readonly cannotTitle: string;
  /** Words of the button that applies one. */
  readonly take: string;
  /** Belongs to the file before its last change. */
  readonly stale: boolean;
}

/** Laid out as blocks on narrow screens, where browsers would forget what they are. */
const as = {
  table: { role: 'table' },
  rows: { role: 'rowgroup' },
  row: { role: 'row' },
  column: { role: 'columnheader' },
  head: { role: 'rowheader' },
  cell: { role: 'cell' },
} as const;

const heads = ['Energy of the day', 'Income over need', 'Carried', 'Mass', 'For the balance'] as const;

/**
 * Changes of the array one below the other, most energy first, each with what it costs and the button that makes it. Where there is
 * no room for columns every figure stands behind its name; the roles keep it a table for screen readers.
 */
export function Ranking({ caption, head, rows, cannot, cannotTitle, take, stale }: RankingProps): ReactNode {
  return (
    <div className={classes(styles.room, stale && computed.old)}>
      <table {...as.table} className={styles.table}>
        <caption className="nw-unseen">{caption}</caption>
        <thead {...as.rows}>
          <tr {...as.row}>
            {[head, ...heads].map((words) => (
              <th key={words} {...as.column} scope="col">
                {words}
              </th>
            ))}
          </tr>
        </thead>
        <tbody {...as.rows}>
          {rows.map((row) => (
            <Row key={row.lever.key} row={row} take={take} stale={stale} />
          ))}
        </tbody>
      </table>
      {cannot.length > 0 && (
        <Disclosure title={`${cannot.length} ${cannotTitle}`}>
          <ul>
            {cannot.map(({ key, label, problem }) => (
              <li key={key}>
                {localNumbers(`${label}: ${problem?.reason ?? ''}. ${sentence(problem?.remedy ?? '')}`)}
              </li>
            ))}
          </ul>
        </Disclosure>
      )}
    </div>
  );
}

interface RowProps extends Pick<RankingProps, 'take' | 'stale'> {
  readonly row: RankedRow;
}

function Row({ row, take, stale }: RowProps): ReactNode {
  const { setText } = useEdit();
  const { lever, figures, strings } = row;
  const { label, edits, text } = lever;
  const isNow = edits.length === 0;
  return (
    <tr {...as.row}>
      <th {...as.head} scope="row">
        <p className={styles.name}>{localNumbers(sentence(label).replace(/\.$/, ''))}</p>
        {strings !== undefined && <p>{localNumbers(strings)}</p>}
        {!isNow && (
          <div className={styles.way}>
            {text !== undefined && (
              <Button
                label={`${take}: ${label}`}
                disabled={stale}
                hint={stale ? 'The file has changed since: it has to be looked for again' : ''}
                onPress={() => setText({ ok: true, text }, label)}
              >
                {take}
              </Button>
            )}
            <EditList edits={edits} />
          </div>
        )}
      </th>
      {figures.map((words, k) => (
        <td key={heads[k]} {...as.cell} data-head={heads[k]} className={words === '' ? styles.none : undefined}>
          {localNumbers(words)}
        </td>
      ))}
    </tr>
  );
}
