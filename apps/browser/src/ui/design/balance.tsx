import { balanceBeam, type DrawOptions } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import { fixed } from '../../core/decimal.js';
import { lengthWords, massWords, unitOnce } from '../../core/said.js';
import type { BalanceView } from '../../core/view.js';
import { Button, Figure, Panel, Table, useAppState, useField } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { beamData } from './chart-data.js';
import styles from './design.module.css';
import { freeName } from './entries.js';
import { Entries } from './entry-list.js';
import { Facts } from './facts.js';
import { DesignField } from './field.js';
import { LeversHere } from './payoffs.js';
import { PlanEditor } from './plan-editor.js';
import { movedText } from './units.js';
import { useEdit, useKeys } from './use-design.js';
import { balanceWords, batteryWords, cellEffectWords, placeWords } from './words.js';

const kinds = ['battery', 'motor', 'mass'] as const;
const parts = { masses: true, cells: false };
const batteryKeys = ['x', 'z', 'moves from', 'moves to', 'mass'] as const;

/** Balance: what lies where, where it balances, where the battery must go. */
export function Balance(): ReactNode {
  const balance = useVerdict()?.balance;
  const preferences = useAppState((state) => state.preferences);
  return (
    <>
      <Panel
        level={3}
        title="Does it balance?"
        finding={
          balance === undefined
            ? 'There is no balance yet: it needs an airframe, masses and places.'
            : balanceWords(balance, preferences)
        }
      >
        {balance !== undefined && <Beam balance={balance} />}
      </Panel>
      {balance !== undefined && <BatteryPlace balance={balance} />}
      <Panel level={3} title="Move it" finding="From above: battery, motor and parts with a place of their own.">
        <PlanEditor id="plan-balance" kinds={kinds} parts={parts} />
      </Panel>
      {balance !== undefined && <Items balance={balance} />}
      <Panel level={3} title="Masses" finding="Weighed parts say so; the others grow by the allowance.">
        <LeversHere paths={['masses', 'glue wire and paint', 'all up mass', 'battery']} />
        <div className={styles.fields}>
          <DesignField path="glue wire and paint" />
          <DesignField path="growth allowance" />
          <DesignField path="all up mass" label="all-up mass" />
        </div>
        <Entries path="masses" />
      </Panel>
    </>
  );
}

interface OfBalance {
  readonly balance: BalanceView;
}

function Beam({ balance }: OfBalance): ReactNode {
  const preferences = useAppState((state) => state.preferences);
  const datum = useField('datum')?.text;
  const data = useMemo(
    () => beamData(balance, datum === '' ? undefined : datum, preferences),
    [balance, datum, preferences],
  );
  const draw = useCallback((options: DrawOptions) => balanceBeam(data, options), [data]);
  const { range } = balance;
  const hasRange = range.aft > range.forward;
  return (
    <>
      <Figure id="beam" draw={draw} words={false} />
      <Facts
        facts={[
          [
            'mass ready to fly',
            unitOnce(`${massWords(balance.mass, preferences)} ± ${massWords(balance.massSigma, preferences)}`),
          ],
          ['of it not weighed', massWords(balance.assumedMass, preferences)],
          [
            'balance point (CG)',
            `${placeWords(balance.balancePoint.x, balance, preferences)} ± ${lengthWords(balance.balanceSigma, preferences)}`,
          ],
          ['neutral point', placeWords(balance.neutralPoint, balance, preferences)],
          [
            'allowed range',
            hasRange
              ? `${lengthWords(range.forward, preferences)} ± ${lengthWords(range.forwardSigma, preferences)} to ${lengthWords(range.aft, preferences)} (${lengthWords(range.width, preferences)} wide)`
              : 'none',
          ],
          ['mean chord', lengthWords(balance.meanChord, preferences)],
        ]}
      />
    </>
  );
}

function BatteryPlace({ balance }: OfBalance): ReactNode {
  const preferences = useAppState((state) => state.preferences);
  const { setValues, problem } = useEdit();
  const field = useField('battery.x');
  const masses = useKeys('masses');
  const { battery, cellEffect } = balance;
  const to = battery?.to;
  const ballast = battery?.ballast;
  const move = to === undefined || battery === undefined ? 0 : to - battery.x;
  const put = () => {
    if (to === undefined) return;
    const text = movedText(to, { kind: 'length', like: field?.text ?? '', fineness: 0.001 });
    setValues([{ path: 'battery.x', text }], `battery to ${text}`);
  };
  const addBallast = () => {
    if (ballast === undefined) return;
    const path = `masses.${freeName(masses, 'ballast')}`;
    setValues(
      [
        { path: `${path}.mass`, text: `${Math.ceil(ballast.mass * 1000)} g` },
        { path: `${path}.x`, text: `${Math.round(ballast.x * 1000)} mm` },
        { path: `${path}.ballast`, text: 'yes' },
      ],
      `${Math.ceil(ballast.mass * 1000)} g of ballast`,
    );
  };
  return (
    <Panel level={3} title="Where must the battery go?" finding={batteryWords(balance, preferences)}>
      <div className={styles.actions}>
        {to !== undefined && (
          <Button
            kind="main"
            disabled={Math.abs(move) < 0.0005}
            hint={Math.abs(move) < 0.0005 ? 'It is there' : ''}
            onPress={put}
          >
            {`Put the battery at ${lengthWords(to, preferences)}`}
          </Button>
        )}
        {ballast !== undefined && (
          <Button
            onPress={addBallast}
          >{`Add ${massWords(ballast.mass, preferences)} of ballast at ${lengthWords(ballast.x, preferences)}`}</Button>
        )}
      </div>
      {problem !== undefined && <p className={styles.problem}>{problem}</p>}
      {cellEffect !== undefined && <p>{cellEffectWords(cellEffect, preferences)}</p>}
      {balance.controls.map((words) => (
        <p key={words}>{words}</p>
      ))}
      <fieldset className={styles.fieldset}>
        <legend>The battery</legend>
        {batteryKeys.map((key) => (
          <DesignField key={key} path={`battery.${key}`} brief />
        ))}
      </fieldset>
    </Panel>
  );
}

/** Every load of the beam; moments about the balance point add up to zero. */
function Items({ balance }: OfBalance): ReactNode {
  const preferences = useAppState((state) => state.preferences);
  const rows = [...balance.loads]
    .sort((a, b) => a.x - b.x)
    .map(({ name, x, mass, moment, source }) => ({
      name,
      x: Math.round(x * 1000),
      mass: massWords(mass, preferences),
      moment: fixed(moment * 1e3, 1),
      source,
    }));
  return (
    <Panel level={3} title="What lies where">
      <Table
        caption="Loads from nose to tail; moments about the balance point add up to zero"
        columns={[
          { key: 'name', label: 'part' },
          { key: 'x', label: 'aft of the datum', unit: 'mm', numeric: true },
          { key: 'mass', label: 'mass', numeric: true },
          { key: 'moment', label: 'moment', unit: 'kg mm', numeric: true },
          { key: 'source', label: 'known by' },
        ]}
        rows={rows}
      />
    </Panel>
  );
}
