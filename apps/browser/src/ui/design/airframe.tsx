import { type DrawOptions, liftDragMoment, powerAgainstAirspeed } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import { fixed } from '../../core/decimal.js';
import { areaWords, speedWords } from '../../core/said.js';
import { shownQuantity } from '../../core/shown-quantity.js';
import type { PowerView } from '../../core/view.js';
import { Figure, Panel, useAppState } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { wattsText } from '../shell/words.js';
import { AircraftViews } from '../view3d/aircraft-views.js';
import { polarData, powerData, wingLoading } from './chart-data.js';
import styles from './design.module.css';
import { Entries } from './entry-list.js';
import { Facts } from './facts.js';
import { DesignField } from './field.js';
import { FieldGroup } from './group.js';
import { LeversHere } from './payoffs.js';
import { PlanEditor } from './plan-editor.js';
import { usePower } from './use-power.js';

const kinds = ['station', 'surface', 'body'] as const;
const parts = { masses: false, cells: true };

/** The airframe: its outline, how much power it takes, and every key of it. */
export function Airframe(): ReactNode {
  return (
    <>
      <Panel level={3} title="What shape is it?" finding={<Loading />}>
        <LeversHere paths={['surfaces', 'bodies', 'extra drag', 'flight']} />
        <PlanEditor id="plan-airframe" kinds={kinds} parts={parts} />
      </Panel>
      <Panel level={3} title="How does it look, and how does the light fall on it?">
        <AircraftViews id="airframe-views" />
      </Panel>
      <PowerCharts />
      <Panel level={3} title="Surfaces" finding="Wing, tailplane and fins, each with its stations from root to tip.">
        <Entries path="surfaces" title="" />
      </Panel>
      <Panel level={3} title="Bodies and what else drags">
        <Entries path="bodies" />
        <Entries path="extra drag" />
      </Panel>
      <Panel level={3} title="How it is flown">
        <FieldGroup path="flight" />
        <DesignField path="level power" label="level power, where it is known" />
      </Panel>
      <Panel level={3} title="The file itself">
        <div className={styles.fields}>
          <DesignField path="name" />
          <DesignField path="datum" />
          <DesignField path="noonwing" label="format of the file" />
        </div>
        <DesignField path="notes" />
      </Panel>
    </>
  );
}

function Loading(): ReactNode {
  const view = useVerdict();
  const preferences = useAppState((state) => state.preferences);
  if (view?.balance === undefined || !(view.shape.span > 0)) return 'There is no airframe yet.';
  const { span, wingArea } = view.shape;
  const loading = wingLoading(view.balance.mass, wingArea);
  return `${shownQuantity({ value: span }, 'length', preferences, 3)} of span and ${areaWords(wingArea, preferences)} of wing, aspect ratio ${fixed(span ** 2 / wingArea, 1)}; wing loading ${fixed(loading!.newton, 1)} N/m² (${fixed(loading!.gramsPerSquareDecimetre, 1)} g/dm²).`;
}

function PowerCharts(): ReactNode {
  const { view, status, stale } = usePower();
  if (view === undefined) {
    const words =
      status.kind === 'refused'
        ? `${status.refusal.reason}; ${status.refusal.remedy}`
        : status.kind === 'failed'
          ? status.reason
          : 'Level power at each airspeed is being computed …';
    return <Panel level={3} title="How much power does it take?" finding={words} />;
  }
  return (
    <div className={stale ? `${styles.part} ${styles.old}` : styles.part}>
      <LevelPower view={view} />
      <Forces view={view} />
    </div>
  );
}

interface OfPower {
  readonly view: PowerView;
}

function LevelPower({ view }: OfPower): ReactNode {
  const verdict = useVerdict();
  const preferences = useAppState((state) => state.preferences);
  const flown = verdict?.flight?.airspeed;
  const data = useMemo(() => powerData(view, flown, preferences), [view, flown, preferences]);
  const draw = useCallback((options: DrawOptions) => powerAgainstAirspeed(data, options), [data]);
  const speed = (value: number) => speedWords(value, preferences);
  const { leastPower, stallSpeed } = view;
  const finding =
    leastPower === undefined
      ? 'No airspeed at which it flies level was found.'
      : `Least level power ${wattsText(leastPower.levelPower)} at ${speed(leastPower.airspeed)}; it stalls at ${speed(stallSpeed)}.`;
  return (
    <Panel level={3} title="How much power does it take?" finding={finding}>
      <Figure id="level-power" draw={draw} words={false} />
      <Facts
        facts={[
          ['stall', speed(stallSpeed)],
          ...(leastPower === undefined ? [] : [['least power', speed(leastPower.airspeed)] as const]),
          ...(view.bestRange === undefined ? [] : [['best range', speed(view.bestRange.airspeed)] as const]),
          ...(flown === undefined ? [] : [['flown', speed(flown)] as const]),
        ]}
      />
      {view.leftOut !== undefined && <p className={styles.soft}>Airspeeds left out: {view.leftOut}.</p>}
    </Panel>
  );
}

function glideFinding(best: number, { held }: PowerView): string {
  const glide = `It glides at best ${fixed(best, 1)} to 1, the motor off.`;
  const first = held?.points[0];
  const last = held?.points.at(-1);
  if (first === undefined || last === undefined || first === last) return glide;
  const returns = last.pitchingMomentCoefficient < first.pitchingMomentCoefficient;
  return `${glide} With the control held as in the flight of least power, a gust that lifts the nose is ${
    returns ? 'answered nose down: it returns by itself' : 'followed by more: it does not return by itself'
  }.`;
}

function Forces({ view }: OfPower): ReactNode {
  const data = useMemo(() => polarData(view), [view]);
  const draw = useCallback((options: DrawOptions) => liftDragMoment(data, options), [data]);
  const best = view.points.reduce((most, { glideRatio }) => Math.max(most, glideRatio), 0);
  return (
    <Panel level={3} title="How well does it glide, and does it return by itself?" finding={glideFinding(best, view)}>
      <Figure id="lift-drag-moment" draw={draw} words={false} />
    </Panel>
  );
}
