import { lazy, type ReactNode, Suspense, useState } from 'react';
import { Button, Panel, sentence, UnitField, useServices } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { carriedText, skyTitle } from '../shell/words.js';
import styles from './day.module.css';
import { Haze } from './haze.js';
import { asGroup, isGroup } from './plan-edits.js';

const ImportWeather = lazy(() => import('./import-weather.js'));

/** Sky, haze, air, wind and ground, each stated or assumed. */
export function Weather({ plan }: { readonly plan: string }): ReactNode {
  const [isImporting, setIsImporting] = useState(false);
  return (
    <Panel
      title="Weather"
      finding={<Finding />}
      actions={
        <Button onPress={() => setIsImporting(!isImporting)}>{isImporting ? 'Close import' : 'Import weather'}</Button>
      }
    >
      {isImporting && (
        <Suspense fallback={<p>Loading …</p>}>
          <ImportWeather plan={plan} onDone={() => setIsImporting(false)} />
        </Suspense>
      )}
      <h3 className={styles.group}>Sky</h3>
      <div className={styles.fields}>
        <UnitField file="day" path="sky" label="Sky" />
        <UnitField file="day" path="clearness" label="Own clearness, in place of the skies" />
      </div>
      <h3 className={styles.group}>Haze</h3>
      <Haze />
      <h3 className={styles.group}>Air and wind</h3>
      <div className={styles.fields}>
        <UnitField file="day" path="temperature" label="Afternoon temperature" />
        <UnitField file="day" path="night temperature" label="Lowest temperature of the night" />
        <Wind plan={plan} />
        <UnitField file="day" path="humidity" label="Humidity" />
        <UnitField file="day" path="pressure" label="Air pressure at the place" />
      </div>
      <h3 className={styles.group}>Ground</h3>
      <div className={styles.fields}>
        <UnitField file="day" path="ground" label="Ground below" />
        <UnitField file="day" path="albedo" label="Own share of light returned" />
      </div>
    </Panel>
  );
}

function Finding(): ReactNode {
  const view = useVerdict();
  if (view === undefined || view.skies.length === 0) return null;
  return <>{sentence(view.skies.map((sky) => `${skyTitle(sky)}: ${carriedText(sky)}`).join('; '))}</>;
}

/** Mean wind alone, or with direction and gusts. */
function Wind({ plan }: { readonly plan: string }): ReactNode {
  const { app } = useServices();
  if (!isGroup(plan, 'wind')) {
    const more = () =>
      app.run({
        kind: 'set values',
        file: 'day',
        edits: asGroup(plan, 'wind', 'speed', '3 m/s'),
        label: 'wind with direction',
      });
    return (
      <div>
        <UnitField file="day" path="wind" label="Mean wind, 10 m up" />
        <Button kind="quiet" onPress={more}>
          State direction and gusts
        </Button>
      </div>
    );
  }
  return (
    <>
      <UnitField file="day" path="wind.speed" label="Mean wind, 10 m up" />
      <UnitField file="day" path="wind.from" label="Wind comes from" />
      <UnitField file="day" path="wind.gusts" label="Gusts" />
    </>
  );
}
