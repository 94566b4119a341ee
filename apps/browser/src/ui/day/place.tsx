import { type ReactNode, useEffect } from 'react';
import { Panel, useAppState, useServices } from '../kit/index.js';
import type { PlaceProps } from '../shell/places.js';
import { AircraftViews } from '../view3d/aircraft-views.js';
import { DayCharts, YearCharts } from './charts.js';
import styles from './day.module.css';
import { Flown } from './flown.js';
import { Weather } from './weather.js';
import { When } from './when.js';
import { Where } from './where.js';

/** Place, date, weather and flight of the day plan; the light of the hour; the day and the year in charts. */
export default function Day({ section }: PlaceProps): ReactNode {
  useFieldsInPlan(section);
  const plan = useAppState((state) => {
    const project = state.work.projects[state.work.current];
    return project?.plan === undefined ? undefined : project.files[project.plan];
  });
  if (plan === undefined) return <p>This project has no day plan: open an example, or add a plan under Choose.</p>;
  if (section === 'light') {
    return (
      <div className={styles.charts}>
        <Panel level={3} title="How does the light fall on it?">
          <AircraftViews id="day-views" />
        </Panel>
        <DayCharts />
      </div>
    );
  }
  if (section === 'year') return <YearCharts />;
  return (
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
  );
}

/** A field of the plan that is asked for stands in its first part. */
function useFieldsInPlan(section: string): void {
  const { app } = useServices();
  const isAsked = useAppState((state) => state.ui.focus?.file === 'day');
  useEffect(() => {
    if (isAsked && section !== 'plan') app.setUi({ place: 'day/plan' });
  }, [isAsked, section, app]);
}
