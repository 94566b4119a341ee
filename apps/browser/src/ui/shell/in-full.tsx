import type { ReactNode } from 'react';
import { massWords, speedWords } from '../../core/said.js';
import type { SkyView, VerdictView } from '../../core/view.js';
import { useAppState } from '../kit/services.js';
import { durationText } from './clock.js';
import styles from './shell.module.css';
import { enduranceText, lowestChargeText, wattsText } from './words.js';

/** What stands behind the answer under one sky, in numbers. */
export default function InFull({ view, sky }: { readonly view: VerdictView; readonly sky: SkyView }): ReactNode {
  const preferences = useAppState((state) => state.preferences);
  const { flight, balance, levelPower } = view;
  const night: readonly (readonly [string, string])[] =
    sky.leftAtDawn === undefined
      ? []
      : [
          ['Left at dawn (excess time)', durationText(sky.leftAtDawn.value)],
          ['Full before dusk (charge margin)', durationText(sky.fullBeforeDusk.value)],
        ];
  const rows: readonly (readonly [string, string])[] = [
    ['Endurance', enduranceText(sky, view)],
    ...(view.hasBattery ? [['Lowest charge (minimum state of charge)', lowestChargeText(sky)] as const] : []),
    ...night,
    ...(levelPower === undefined ? [] : [['Level power', wattsText(levelPower.value)] as const]),
    ...(flight === undefined ? [] : [['Airspeed flown', speedWords(flight.airspeed, preferences)] as const]),
    ...(balance === undefined ? [] : [['Mass', massWords(balance.mass, preferences)] as const]),
  ];
  return (
    <dl className={styles.facts}>
      {rows.map(([name, text]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  );
}
