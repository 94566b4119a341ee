import { type DrawOptions, driveMatch } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import { shownQuantity } from '../../core/shown-quantity.js';
import type { DriveView } from '../../core/view.js';
import { Figure, Panel, useAppState } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { percentText, wattsText } from '../shell/words.js';
import { driveData } from './chart-data.js';
import styles from './design.module.css';
import { Entries } from './entry-list.js';
import { Facts } from './facts.js';
import { DesignField } from './field.js';
import { FieldGroup } from './group.js';
import { NoGroup } from './no-group.js';
import { LeversHere } from './payoffs.js';
import { useKeys } from './use-design.js';
import { usePower } from './use-power.js';

/** Motor, propeller, speed controller, and the loads that always run. */
export function Drive(): ReactNode {
  const hasDrive = useKeys('drive').length > 0;
  // What is assumed of it is looked at like what is stated.
  const isFlown = useVerdict()?.flight?.point !== undefined;
  return (
    <>
      {(hasDrive || isFlown) && <Match />}
      {hasDrive ? (
        <Panel level={3} title="Motor, propeller, speed controller">
          <FieldGroup path="drive" />
        </Panel>
      ) : (
        <NoGroup path="drive" />
      )}
      <Panel level={3} title="Loads that always run" finding={<LoadWords />}>
        <Entries path="loads" />
        <div className={styles.fields}>
          <DesignField path="regulator efficiency" />
          <DesignField path="regulator drop out" />
          <DesignField path="receiver brown out" />
        </div>
      </Panel>
    </>
  );
}

function LoadWords(): ReactNode {
  const flight = useVerdict()?.flight;
  if (flight === undefined) return 'Being computed …';
  const whole = flight.drivePower + flight.steadyLoads;
  return `They take ${wattsText(flight.steadyLoads)}, ${percentText(whole > 0 ? flight.steadyLoads / whole : 0)} of what leaves the battery in level flight.`;
}

const overall = (drive: DriveView): number =>
  drive.controllerEfficiency * drive.motorEfficiency * drive.gearEfficiency * drive.propellerEfficiency;

function Match(): ReactNode {
  const { view, status } = usePower();
  const verdict = useVerdict();
  const preferences = useAppState((state) => state.preferences);
  const { flight, balance } = verdict ?? {};
  const data = useMemo(
    () =>
      view === undefined || flight === undefined || balance === undefined
        ? undefined
        : driveData(view, flight, balance.mass * 9.80665, preferences),
    [view, flight, balance, preferences],
  );
  const draw = useCallback((options: DrawOptions) => driveMatch(data!, options), [data]);
  const drive = flight?.point?.drive;
  const waiting = status.kind === 'refused' ? `${status.refusal.reason}; ${status.refusal.remedy}` : 'Being computed …';
  const finding =
    drive === undefined
      ? waiting
      : `In level flight ${percentText(overall(drive))} of the electric power becomes thrust at ${percentText(drive.throttle)} throttle; the weakest link is ${weakest(drive)}.`;
  return (
    <Panel level={3} title="Do motor and propeller match?" finding={finding}>
      {data !== undefined && <Figure id="drive-match" draw={draw} words={false} />}
      {drive !== undefined && <Numbers drive={drive} />}
      <LeversHere paths={['drive']} />
    </Panel>
  );
}

function weakest(drive: DriveView): string {
  const links = [
    ['the speed controller (ESC)', drive.controllerEfficiency],
    ['the motor', drive.motorEfficiency],
    ['the gear', drive.gearEfficiency],
    ['the propeller', drive.propellerEfficiency],
  ] as const;
  const [name, efficiency] = links.reduce((worst, link) => (link[1] < worst[1] ? link : worst));
  return `${name} with ${percentText(efficiency)}`;
}

function Numbers({ drive }: { readonly drive: DriveView }): ReactNode {
  const preferences = useAppState((state) => state.preferences);
  const says = (value: number, kind: Parameters<typeof shownQuantity>[1]) =>
    shownQuantity({ value }, kind, preferences, 3);
  return (
    <Facts
      facts={[
        ['electric power', says(drive.electricPower, 'power')],
        ['throttle', percentText(drive.throttle)],
        ['battery', `${says(drive.busVoltage, 'voltage')}, ${says(drive.batteryCurrent, 'current')}`],
        ['motor', `${says(drive.motorVoltage, 'voltage')}, ${says(drive.motorCurrent, 'current')}`],
        ['propeller', `${Math.round((drive.propellerSpeed * 30) / Math.PI)} rpm, ${says(drive.thrust, 'force')}`],
        ['shaft power', says(drive.shaftPower, 'power')],
        [
          'efficiency',
          `speed controller (ESC) ${percentText(drive.controllerEfficiency)}, motor ${percentText(drive.motorEfficiency)}, propeller ${percentText(drive.propellerEfficiency)}`,
        ],
      ]}
    />
  );
}
