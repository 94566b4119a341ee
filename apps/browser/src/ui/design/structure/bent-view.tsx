import { lazy, type ReactNode, Suspense, useMemo } from 'react';
import type { UnderLoadView } from '../../../core/view-limits-types.js';
import { useAppState, useComputeState } from '../../kit/index.js';
import { useHour, useVerdict } from '../../shell/hour.js';
import { profilesOf } from '../../view3d/profiles.js';
import { bentShape } from './bent-data.js';

const View3d = lazy(() => import('../../view3d/view3d.js'));

/** The aircraft in its shape under load, in the view that can be turned. times - rises are drawn so many times as large */
export function BentView(props: {
  readonly view: UnderLoadView;
  readonly times: number;
  readonly fallback: ReactNode;
}): ReactNode {
  const { view, times, fallback } = props;
  const verdict = useVerdict();
  const at = useHour() ?? 12;
  const heading = useAppState((state) => state.ui.heading);
  const hour = useComputeState(({ channels }) => channels.hour.view);
  const shape = useMemo(
    () => (verdict === undefined ? undefined : bentShape(verdict.shape, view, times)),
    [verdict, view, times],
  );
  const profiles = useMemo(() => (shape === undefined ? {} : profilesOf(shape)), [shape]);
  if (verdict === undefined || shape === undefined) return null;
  return (
    <Suspense fallback={<p>The view in three dimensions is loading …</p>}>
      <View3d
        name={verdict.aircraft}
        shape={shape}
        at={at}
        heading={heading}
        pitch={view.alpha}
        sun={verdict.sun}
        middles={verdict.middles}
        profiles={profiles}
        masses={false}
        {...(hour === undefined ? {} : { hour })}
        aim={<p>{`Displacements ${times === 1 ? 'to scale' : `${times} times as large`}.`}</p>}
        fallback={fallback}
      />
    </Suspense>
  );
}
