import { type DrawOptions, stringCurve } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import { Figure, Panel, Select, sentence } from '../../kit/index.js';
import styles from './array.module.css';
import { curveData } from './array-data.js';

/** The string of the chosen cell, or another one, at the hour: every maximum, and where its converter holds it. */
export function CurvePanel(props: {
  readonly view: ArrayView;
  readonly string: number;
  readonly onString: (string: number) => void;
}): ReactNode {
  const { view, string, onString } = props;
  const data = useMemo(() => curveData(view, string), [view, string]);
  const draw = useCallback((options: DrawOptions) => stringCurve(data!, options), [data]);
  const title = 'What does its string make of it?';
  if (data === undefined) return <Panel level={3} title={title} finding="It is not known at this hour." />;
  const warnings = view.now?.strings[string]?.warnings ?? [];
  return (
    <Panel level={3} title={title} finding={localNumbers(draw({}).text)}>
      {warnings.map(({ message }) => (
        <p key={message} className={styles.caution}>
          {localNumbers(sentence(`Hot spot: ${message}.`))}
        </p>
      ))}
      {view.strings.length > 1 && (
        <div className={styles.single}>
          <Select
            label="String"
            value={String(string)}
            choices={view.strings.map(({ name }, k) => ({ value: String(k), label: name }))}
            onChange={(value) => onString(Number(value))}
          />
        </div>
      )}
      <p>{diodeWords(view, string)}</p>
      <Figure id="string-curve" draw={draw} words={false} />
    </Panel>
  );
}

/** How the string is guarded, and which diodes carry current. */
export function diodeWords({ strings, now }: ArrayView, string: number): string {
  const { diodes, cells, parallel } = strings[string]!;
  const many = parallel > 1 ? `, ${parallel} such strings side by side` : '';
  if (diodes.length === 0) return `${cells} cells in series without bypass diodes${many}.`;
  const carrying = [...new Set(now?.strings[string]?.conducting.flat())].sort((a, b) => a - b);
  const said =
    carrying.length === 0
      ? 'none carries current at this hour'
      : `${carrying.length === 1 ? 'diode' : 'diodes'} ${carrying.join(', ')} ${carrying.length === 1 ? 'carries' : 'carry'} current past shaded cells`;
  return `${cells} cells in series with ${diodes.length} bypass ${diodes.length === 1 ? 'diode' : 'diodes'}${many}; ${said}.`;
}
