import type { ReactNode } from 'react';
import { useAppState } from '../kit/index.js';
import { DayCharts } from './charts.js';
import styles from './day.module.css';
import { Flown } from './flown.js';
import { Weather } from './weather.js';
import { When } from './when.js';
import { Where } from './where.js';

/** Place, date, weather and flight of the day plan, and the day in charts. */
export default function Day(): ReactNode {
  const plan = useAppState((state) => {
    const project = state.work.projects[state.work.current];
    return project?.plan === undefined ? undefined : project.files[project.plan];
  });
  if (plan === undefined) return <p>This project has no day plan: open an example, or add a plan under Choose.</p>;
  return (
    <div className={styles.day}>
      <div className={styles.edit}>
        <div>
          <Where plan={plan} />
          <When />
        </div>
        <div>
          <Weather plan={plan} />
          <Flown plan={plan} />
        </div>
      </div>
      <DayCharts />
    </div>
  );
}
