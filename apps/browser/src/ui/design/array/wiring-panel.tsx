import { type DrawOptions, wiringPlan } from '@noonwing/drawing';
import { type ReactNode, useCallback } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import { Button, Figure, Panel, sentence } from '../../kit/index.js';
import styles from './array.module.css';
import { printDrawing } from './print-drawing.js';

/** Wires, fuses and plugs, what the compass feels, and the order in which it is joined. */
export function WiringPanel({ view }: { readonly view: ArrayView }): ReactNode {
  const { wiring } = view;
  const draw = useCallback((options: DrawOptions) => wiringPlan(wiring!.picture, options), [wiring]);
  if (wiring === undefined) return null;
  const { compass, warnings, picture } = wiring;
  return (
    <Panel
      level={3}
      title="How is it wired?"
      finding={localNumbers(sentence(picture.finding))}
      actions={
        <Button onPress={() => printDrawing(wiringPlan(picture, { standalone: true, width: 900 }).svg)}>
          Print the plan
        </Button>
      }
    >
      <p className={styles.caution}>
        <b>{picture.cautions[0]}</b>
      </p>
      {warnings.map((message) => (
        <p key={message} className={styles.caution}>
          {localNumbers(sentence(`${message}.`))}
        </p>
      ))}
      <Figure id="wiring" draw={draw} words={false} />
      <h4>At the compass</h4>
      {compass.length === 0 ? (
        <p>No part is named as a compass, GPS or autopilot: where it would stand is not known.</p>
      ) : (
        <ul>
          {compass.map((words) => (
            <li key={words}>{localNumbers(`${words}.`)}</li>
          ))}
        </ul>
      )}
    </Panel>
  );
}
