import { turbidityUncertainty } from '@noonwing/engine/sun';
import type { ReactNode } from 'react';
import { fixed } from '../../core/decimal.js';
import { UnitField, useField } from '../kit/index.js';
import { months } from '../shell/clock.js';
import { useVerdict } from '../shell/hour.js';
import styles from './day.module.css';

/** Haze usual for the month and the kind of place, how unsure that is, and a value of one's own. */
export function Haze(): ReactNode {
  const view = useVerdict();
  const place = useField('surroundings', 'day');
  const own = useField('turbidity', 'day');
  const month = months[(view?.plan.date.month ?? 1) - 1];
  const value = view === undefined ? undefined : fixed(view.plan.turbidity, 1);
  const kind = place?.text || place?.defaultText || 'rural';
  return (
    <>
      {value !== undefined && (
        <p className={styles.say}>
          {own?.written
            ? `Counts: Linke turbidity ${value}${own.sigma === undefined ? '' : ` ± ${fixed(own.sigma, 1)}`}, stated.`
            : `Counts: Linke turbidity ${value} ± ${fixed(turbidityUncertainty, 1)}, usual for ${month} in ${kind} surroundings. 2 is very clear air, 6 thick haze.`}
        </p>
      )}
      <div className={styles.fields}>
        <UnitField file="day" path="surroundings" label="Kind of place" />
        <UnitField file="day" path="turbidity" label="Own Linke turbidity" />
      </div>
    </>
  );
}
