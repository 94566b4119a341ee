import { type ReactNode, useId, useRef } from 'react';
import { classes } from './classes.js';
import styles from './kit.module.css';
import { usePanelFold, WithoutFolds } from './panel-folds.js';

/** A part of a place with its heading. `finding`: what it says in words, before anything drawn. */
export function Panel(props: {
  readonly title: string;
  readonly level?: 2 | 3 | 4;
  readonly finding?: ReactNode;
  readonly actions?: ReactNode;
  readonly children?: ReactNode;
  readonly plain?: boolean;
}): ReactNode {
  const id = useId();
  const element = useRef<HTMLElement>(null);
  const fold = usePanelFold(id, props.title, element);
  const Heading = `h${props.level ?? 2}` as 'h2';
  const actions = props.actions !== undefined && <div className={styles.actions}>{props.actions}</div>;
  const heading = <Heading id={id}>{props.title}</Heading>;
  const body = (
    <WithoutFolds>
      {props.finding !== undefined && <p className={styles.finding}>{props.finding}</p>}
      {props.children}
    </WithoutFolds>
  );
  return (
    <section
      ref={element}
      tabIndex={-1}
      aria-labelledby={id}
      className={classes(styles.panel, props.plain && styles.plainPanel)}
    >
      {fold === undefined ? (
        <>
          <div className={styles.panelHead}>
            {heading}
            {actions}
          </div>
          {body}
        </>
      ) : (
        <details
          className={styles.panelFold}
          open={fold.open}
          onToggle={(event) => fold.setOpen(event.currentTarget.open)}
        >
          <summary>{heading}</summary>
          {actions}
          {body}
        </details>
      )}
    </section>
  );
}

/** More that is there when wanted. */
export const Disclosure = (props: {
  readonly title: ReactNode;
  readonly open?: boolean;
  readonly children: ReactNode;
}): ReactNode => (
  <details className={styles.disclosure} open={props.open}>
    <summary>{props.title}</summary>
    <div>{props.children}</div>
  </details>
);

/** For screen readers only. */
export const VisuallyHidden = ({ children }: { readonly children: ReactNode }): ReactNode => (
  <span className="nw-unseen">{children}</span>
);

/** Words that change by themselves and are then read out. */
export const StatusText = (props: { readonly children: ReactNode; readonly unseen?: boolean }): ReactNode => (
  <p role="status" className={props.unseen ? 'nw-unseen' : styles.status}>
    {props.children}
  </p>
);

export interface TableColumn {
  readonly key: string;
  readonly label: string;
  /** Stands in the head, in brackets. */
  readonly unit?: string;
  readonly numeric?: boolean;
}

/** Data with a caption; on narrow screens it scrolls inside its frame. */
export function Table(props: {
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly Readonly<Record<string, ReactNode>>[];
  readonly captionHidden?: boolean;
}): ReactNode {
  const { caption, columns, rows } = props;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a frame that scrolls must be reachable by the keyboard
    <section className={styles.tableFrame} tabIndex={0} aria-label={caption}>
      <table className={styles.table}>
        <caption className={props.captionHidden ? 'nw-unseen' : undefined}>{caption}</caption>
        <thead>
          <tr>
            {columns.map(({ key, label, unit, numeric }) => (
              <th key={key} scope="col" className={numeric ? styles.numeric : undefined}>
                {label}
                {unit !== undefined && unit !== '' && ` [${unit}]`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows of a table have no name of their own
            <tr key={i}>
              {columns.map(({ key, numeric }, column) =>
                column === 0 ? (
                  <th key={key} scope="row" className={numeric ? styles.numeric : undefined}>
                    {row[key]}
                  </th>
                ) : (
                  <td key={key} className={numeric ? styles.numeric : undefined}>
                    {row[key]}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
