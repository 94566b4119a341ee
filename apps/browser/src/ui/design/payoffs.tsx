import type { ReactNode } from 'react';
import type { LeverView } from '../../core/view.js';
import { Button, sentence, useComputeState } from '../kit/index.js';
import { incomeOverNeedHint } from '../shell/words.js';
import styles from './design.module.css';
import { leversAt, leversOf, payoffWords } from './lever-match.js';
import { useEdit } from './use-design.js';

function Payoff({ lever, isOld }: { readonly lever: LeverView; readonly isOld: boolean }): ReactNode {
  const { setText } = useEdit();
  const { label, text } = lever;
  return (
    <li className={isOld ? styles.old : undefined}>
      <span>{payoffWords(lever)}</span>
      {text !== undefined && (
        <Button
          kind="quiet"
          label={`Apply: ${label}`}
          disabled={isOld}
          hint={isOld ? 'The file has changed since: the levers are tried again' : ''}
          onPress={() => setText({ ok: true, text }, label)}
        >
          Apply
        </Button>
      )}
    </li>
  );
}

/** Levers beside one input; the whole list is under 'What would help most'. */
const most = 3;

/** What a natural step of one input brings, beside it. */
export function PayoffsOf({ path }: { readonly path: string }): ReactNode {
  const { view, stale } = useComputeState(({ channels }) => channels.levers);
  const found = leversOf(view?.levers ?? [], path).slice(0, most);
  if (found.length === 0) return null;
  return (
    <ul className={styles.payoffs} aria-label="What a step brings">
      {found.map((lever) => (
        <Payoff key={lever.key} lever={lever} isOld={stale} />
      ))}
    </ul>
  );
}

/** Whether an input has a lever of its own, so that no empty room is kept for it. */
export const useHasPayoff = (path: string): boolean =>
  useComputeState(({ channels }) => leversOf(channels.levers.view?.levers ?? [], path).length > 0);

/** Levers of a whole part of the file, most helpful first, in words. */
export function LeversHere({ paths }: { readonly paths: readonly string[] }): ReactNode {
  const { view, stale, status } = useComputeState(({ channels }) => channels.levers);
  const all = view?.levers ?? [];
  const found = [...new Set(paths.flatMap((path) => leversAt(all, path)))].slice(0, 4);
  if (view === undefined) {
    return status.kind === 'running' ? <p className={styles.soft}>What a change here brings is being tried …</p> : null;
  }
  if (found.length === 0) return null;
  return (
    <div className={styles.levers}>
      <p>
        <b>What a change here brings</b>
        {stale ? ' (of the aircraft before the last change)' : ''}
      </p>
      <ul className={styles.payoffs}>
        {found.map((lever) => (
          <Payoff key={lever.key} lever={{ ...lever, label: sentence(lever.label).replace(/\.$/, '') }} isOld={stale} />
        ))}
      </ul>
      <p className={styles.soft}>{incomeOverNeedHint}</p>
    </div>
  );
}
