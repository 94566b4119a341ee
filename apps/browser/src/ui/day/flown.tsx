import { type ReactNode, useState } from 'react';
import { keysAt } from '../../core/fields.js';
import { Button, Disclosure, Panel, Switch, TextField, UnitField, useField, useServices } from '../kit/index.js';
import styles from './day.module.css';
import { PlainField } from './plain-field.js';
import { isGroup } from './plan-edits.js';

/** Launch, landing, charge, height, and the loads of this day alone. */
export function Flown({ plan }: { readonly plan: string }): ReactNode {
  return (
    <Panel title="Flight and charge">
      <div className={styles.fields}>
        <Launch />
        <PlainField
          path="landing"
          label="Planned landing"
          placeholder="13:00"
          description="empty: until the battery gives out"
        />
        <UnitField file="day" path="charge at launch" label="Charge at launch" />
        <UnitField file="day" path="height" label="Height above the ground" />
        <UnitField file="day" path="airspeed" label="Airspeed, in place of the design's" />
        <UnitField file="day" path="bank" label="Bank, in place of the design's" />
      </div>
      <Disclosure title="Loads of this day, name and notes">
        <Loads plan={plan} />
        <div className={styles.fields}>
          <PlainField path="name" label="Name of the plan" />
          <PlainField path="notes" label="Notes" rows={3} />
        </div>
      </Disclosure>
    </Panel>
  );
}

/** A clock time, or as soon as the sun is up. */
function Launch(): ReactNode {
  const { app } = useServices();
  const field = useField('launch', 'day');
  const isSunrise = field?.text === 'sunrise';
  return (
    <div>
      {!isSunrise && <PlainField path="launch" label="Launch" placeholder="08:30" />}
      <Switch
        label="Launch at sunrise"
        checked={isSunrise}
        onChange={(on) => app.setValue('launch', on ? 'sunrise' : '', { file: 'day', capture: 'new step' })}
      />
    </div>
  );
}

/** Loads by name; they take the place of loads of the design of the same name. */
function Loads({ plan }: { readonly plan: string }): ReactNode {
  const { app } = useServices();
  const names = keysAt('day', plan, 'loads');
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string>();
  const add = () => {
    const wanted = name
      .trim()
      .replace(/[.[\]]/g, ' ')
      .trim();
    if (wanted === '') return setProblem('Give the load a name.');
    const result = app.setValue(`loads.${wanted}`, '1 W', { file: 'day', capture: 'new step' });
    setProblem(result.ok ? undefined : result.reason);
    if (result.ok) setName('');
  };
  return (
    <fieldset className={styles.loads} data-path="loads" data-file="day" tabIndex={-1}>
      <legend className="nw-unseen">Loads of this day</legend>
      {names.map((one) => (
        <div key={one} className={styles.load}>
          <div className={styles.fields}>
            {isGroup(plan, `loads.${one}`) ? (
              <>
                <UnitField file="day" path={`loads.${one}.power`} label={`Power of ${one}`} />
                <PlainField path={`loads.${one}.from`} label={`${one}: on from`} placeholder="07:00" />
                <PlainField path={`loads.${one}.to`} label={`${one}: on until`} placeholder="13:00" />
                <UnitField file="day" path={`loads.${one}.share`} label={`${one}: share of that time`} />
              </>
            ) : (
              <UnitField file="day" path={`loads.${one}`} label={`Power of ${one}`} />
            )}
            <Button
              kind="quiet"
              label={`Take ${one} away`}
              onPress={() =>
                app.run({
                  kind: 'set values',
                  file: 'day',
                  edits: [{ path: `loads.${one}` }],
                  label: `remove load ${one}`,
                })
              }
            >
              Take away
            </Button>
          </div>
        </div>
      ))}
      <div className={styles.row}>
        <TextField
          label="New load"
          value={name}
          onChange={setName}
          placeholder="video"
          {...(problem === undefined ? {} : { problem })}
        />
        <Button onPress={add}>Add with 1 W</Button>
      </div>
    </fieldset>
  );
}
