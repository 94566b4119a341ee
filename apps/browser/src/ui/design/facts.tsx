import type { ReactNode } from 'react';
import styles from './design.module.css';

export type Fact = readonly [name: string, words: string];

/** Figures with their names. */
export const Facts = ({ facts }: { readonly facts: readonly Fact[] }): ReactNode => (
  <dl className={styles.facts}>
    {facts.map(([name, words]) => (
      <div key={name}>
        <dt>{name}</dt>
        <dd>{words}</dd>
      </div>
    ))}
  </dl>
);
