import type { ReactNode } from 'react';
import type { FieldValue } from '../../core/fields.js';
import styles from './kit.module.css';

const words: Readonly<Record<FieldValue['source'], string>> = {
  assumed: 'assumed',
  stated: 'stated',
  measured: 'measured',
  library: 'from the library',
  none: 'not given',
};

/** Where a value comes from: a word, and a line whose pattern says the same without the word's colour. */
export const SourceMark = ({ source }: { readonly source: FieldValue['source'] }): ReactNode => (
  <span className={styles.mark} data-source={source}>
    {words[source]}
  </span>
);
