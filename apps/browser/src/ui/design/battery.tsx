import { chargeCourse, type DrawOptions } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import { massWords } from '../../core/said.js';
import { shownQuantity } from '../../core/shown-quantity.js';
import type { VerdictView } from '../../core/view.js';
import { chargeData } from '../day/chart-data.js';
import { Figure, Panel, sentence, useAppState } from '../kit/index.js';
import { useHourCursor, useSky, useVerdict } from '../shell/hour.js';
import { enduranceText, lowestChargeText, skyTitle } from '../shell/words.js';
import { Facts } from './facts.js';
import { FieldGroup } from './group.js';
import { NoGroup } from './no-group.js';
import { useDesignReading, useKeys } from './use-design.js';
import { voltageSpan } from './words.js';

/** The battery: its course through the day, its limits, its keys. */
export function Battery(): ReactNode {
  const view = useVerdict();
  const hasBattery = useKeys('battery').length > 0;
  if (!hasBattery) return <NoGroup path="battery" />;
  return (
    <>
      {view !== undefined && view.skies.length > 0 && <Course view={view} />}
      <Limits />
      <Panel level={3} title="The pack">
        <FieldGroup path="battery" />
      </Panel>
    </>
  );
}

function Course({ view }: { readonly view: VerdictView }): ReactNode {
  const { sky } = useSky();
  const cursor = useHourCursor();
  const data = useMemo(() => chargeData(view), [view]);
  const draw = useCallback((options: DrawOptions) => chargeCourse(data, options), [data]);
  if (sky === undefined || !view.hasBattery) return null;
  return (
    <Panel
      level={3}
      title="Does the charge last?"
      finding={sentence(`${skyTitle(sky)}: ${enduranceText(sky, view)}; lowest charge ${lowestChargeText(sky)}`)}
    >
      <Figure id="battery-charge" draw={draw} words={false} cursor={cursor} />
    </Panel>
  );
}

/** What the pack may do, beside what the day asks of it. */
function Limits(): ReactNode {
  const battery = useDesignReading().aircraft?.battery;
  const { sky } = useSky();
  const drive = useVerdict()?.flight?.point?.drive;
  const preferences = useAppState((state) => state.preferences);
  if (battery === undefined) return null;
  const says = (value: number, kind: Parameters<typeof shownQuantity>[1]) =>
    shownQuantity({ value }, kind, preferences, 3);
  const span = sky === undefined ? undefined : voltageSpan(sky);
  const [empty, full] = [battery.emptyVoltage.value * battery.series, battery.fullVoltage.value * battery.series];
  const charge = sky === undefined || span === undefined ? undefined : Math.max(0, ...sky.taken) / span[1];
  const energy = battery.capacity.value * ((empty + full) / 2);
  const current = drive?.batteryCurrent;
  const over = [
    ...(charge !== undefined && charge > battery.chargeCurrentLimit.value ? ['the charge current'] : []),
    ...(current !== undefined && current > battery.dischargeCurrentLimit.value ? ['the current of level flight'] : []),
  ];
  return (
    <Panel
      level={3}
      title="Within its limits?"
      finding={
        over.length === 0
          ? `${battery.series} cells in series${battery.parallel > 1 ? `, ${battery.parallel} in parallel` : ''}: level flight and charging stay inside the currents that it takes.`
          : `Above its limit: ${over.join(' and ')}.`
      }
    >
      <Facts
        facts={[
          ['holds', `${says(battery.capacity.value, 'charge')}, about ${says(energy, 'energy')}`],
          ['mass', massWords(battery.mass.value, preferences)],
          ['voltage empty to full', `${says(empty, 'voltage')} to ${says(full, 'voltage')}`],
          ...(span === undefined
            ? []
            : [['voltage through the day', `${says(span[0], 'voltage')} to ${says(span[1], 'voltage')}`] as const]),
          ...(current === undefined
            ? []
            : [
                [
                  'current in level flight',
                  `${says(current, 'current')} of ${says(battery.dischargeCurrentLimit.value, 'current')}`,
                ] as const,
              ]),
          ...(charge === undefined
            ? []
            : [
                [
                  'most that the sun gives',
                  `about ${says(charge, 'current')}; it takes ${says(battery.chargeCurrentLimit.value, 'current')}`,
                ] as const,
              ]),
          ['resistance', says(battery.resistance.value, 'resistance')],
        ]}
      />
    </Panel>
  );
}
