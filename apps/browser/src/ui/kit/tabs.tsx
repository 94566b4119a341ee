import { type KeyboardEvent, type ReactNode, useId } from 'react';
import styles from './kit.module.css';

export interface Tab {
  readonly id: string;
  readonly label: string;
}

export interface TabsProps {
  /** What the tabs choose, for screen readers. */
  readonly label: string;
  readonly tabs: readonly Tab[];
  readonly selected: string;
  readonly onSelect: (id: string) => void;
  /** Of the selected tab. */
  readonly children: ReactNode;
}

const moves: Readonly<Record<string, (at: number, count: number) => number>> = {
  ArrowRight: (at, count) => (at + 1) % count,
  ArrowLeft: (at, count) => (at + count - 1) % count,
  Home: () => 0,
  End: (_, count) => count - 1,
};

/** Several views of one thing: arrow keys choose, one of them shows. */
export function Tabs({ label, tabs, selected, onSelect, children }: TabsProps): ReactNode {
  const base = useId();
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const move = moves[event.key];
    if (move === undefined) return;
    event.preventDefault();
    const at = tabs.findIndex(({ id }) => id === selected);
    const next = tabs[move(Math.max(0, at), tabs.length)]!;
    onSelect(next.id);
    document.getElementById(`${base}-${next.id}`)?.focus();
  };
  return (
    <>
      <div role="tablist" aria-label={label} className={styles.tabs} onKeyDown={onKeyDown}>
        {tabs.map((tab) => (
          <button
            key={tab.id}
            type="button"
            role="tab"
            id={`${base}-${tab.id}`}
            aria-selected={tab.id === selected}
            aria-controls={`${base}-panel`}
            tabIndex={tab.id === selected ? 0 : -1}
            className={styles.tab}
            onClick={() => onSelect(tab.id)}
          >
            {tab.label}
          </button>
        ))}
      </div>
      <div role="tabpanel" id={`${base}-panel`} aria-labelledby={`${base}-${selected}`} className={styles.tabPanel}>
        {children}
      </div>
    </>
  );
}
