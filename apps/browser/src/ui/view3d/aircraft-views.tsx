import { type Drawing, type DrawOptions, threeView } from '@noonwing/drawing';
import { lazy, type ReactNode, Suspense, useEffect, useMemo, useRef, useState } from 'react';
import { localDrawing } from '../../core/decimal.js';
import { keysAt } from '../../core/fields.js';
import { sameData } from '../../core/patch.js';
import type { VerdictView } from '../../core/view.js';
import { planShape } from '../design/plan-shape.js';
import { useDesignReading } from '../design/use-design.js';
import { Figure, Tabs, useAppState, useComputeState, useServices } from '../kit/index.js';
import kit from '../kit/kit.module.css';
import { useHour, useVerdict } from '../shell/hour.js';
import { profilesOf } from './profiles.js';
import styles from './view3d.module.css';
import { bearing, compassPoint } from './words.js';

const View3d = lazy(() => import('./view3d.js'));

/** The same object while its data stay the same: answers come anew with each verdict, and a shape is built only once. */
function useSame<T>(value: T): T {
  const kept = useRef(value);
  if (!sameData(kept.current, value)) kept.current = value;
  return kept.current;
}

/** Below this the drawn views come first: they need no gestures and are read at once. */
const narrow = '(max-width: 40rem)';

/** The aircraft under the sun of the hour, to be turned, or drawn in three views. */
export function AircraftViews({ id }: { readonly id: string }): ReactNode {
  const view = useVerdict();
  const [isDrawn, setDrawn] = useState(() => matchMedia(narrow).matches);
  if (view === undefined || view.shape.surfaces.length === 0)
    return <p>{view === undefined ? 'The aircraft is being read …' : 'There is no airframe to show.'}</p>;
  return (
    <>
      <div className={kit.onScreen}>
        <Tabs
          label="How it is shown"
          tabs={[
            { id: 'solid', label: 'In the sun' },
            { id: 'drawn', label: 'Three views' },
          ]}
          selected={isDrawn ? 'drawn' : 'solid'}
          onSelect={(chosen) => setDrawn(chosen === 'drawn')}
        >
          {isDrawn ? (
            <ThreeViews id={id} view={view} />
          ) : (
            <InSight>
              <InTheSun id={id} view={view} />
            </InSight>
          )}
        </Tabs>
      </div>
      {!isDrawn && <OnPaper id={`${id}-paper`} view={view} />}
    </>
  );
}

/** How far below the window something begins to load [px], and when it does so anyway [ms]; common practice, no source. */
const ahead = '200px';
const patience = 1200;

/** Loads what it holds when the reader comes near, or a little later: the first answer of the page must not wait for it. */
function InSight({ children }: { readonly children: ReactNode }): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  const [isSeen, setSeen] = useState(false);
  useEffect(() => {
    const found = frame.current;
    if (found === null || isSeen) return;
    const observer = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) setSeen(true);
      },
      { rootMargin: ahead },
    );
    observer.observe(found);
    const timer = setTimeout(() => setSeen(true), patience);
    return () => {
      observer.disconnect();
      clearTimeout(timer);
    };
  }, [isSeen]);
  return <div ref={frame}>{isSeen ? children : <p className={styles.loading} />}</div>;
}

interface Shown {
  readonly id: string;
  readonly view: VerdictView;
}

function InTheSun({ id, view }: Shown): ReactNode {
  const at = useHour() ?? 12;
  const heading = useAppState((state) => state.ui.heading);
  const hour = useComputeState(({ channels }) => channels.hour.view);
  const shape = useSame(view.shape);
  const balance = useSame(view.balance);
  const profiles = useMemo(() => profilesOf(shape), [shape]);
  return (
    <Suspense fallback={<p className={styles.loading}>The view in three dimensions is loading …</p>}>
      <View3d
        name={view.aircraft}
        shape={shape}
        at={at}
        heading={heading}
        pitch={view.flight?.point?.alpha ?? 0}
        bank={view.flight?.bank ?? 0}
        sun={view.sun}
        middles={view.middles}
        profiles={profiles}
        {...(hour === undefined ? {} : { hour })}
        {...(balance === undefined ? {} : { balance })}
        aim={<Heading />}
        fallback={<ThreeViews id={`${id}-drawn`} view={view} />}
      />
    </Suspense>
  );
}

const steps = 5;

/** Which way the nose points: the light on the cells follows. */
function Heading(): ReactNode {
  const { app } = useServices();
  const heading = useAppState((state) => state.ui.heading);
  const words = `${bearing(heading)}° (${compassPoint(heading)})`;
  return (
    <label className={styles.heading}>
      <span>Heading {words}</span>
      <input
        type="range"
        min={0}
        max={360 - steps}
        step={steps}
        value={bearing(heading)}
        aria-valuetext={words}
        onChange={(event) => app.setUi({ heading: (Number(event.target.value) * Math.PI) / 180 })}
      />
    </label>
  );
}

/** Draws the aircraft from above, ahead and the side, to one scale; undefined where the file has errors. */
function useThreeViews(view: VerdictView): ((options: DrawOptions) => Drawing) | undefined {
  const { text, aircraft } = useDesignReading();
  const units = useAppState((state) => state.preferences);
  const balance = useSame(view.balance);
  return useMemo(() => {
    if (aircraft === undefined) return undefined;
    const named = keysAt('design', text, 'masses');
    const shape = planShape(aircraft, named, balance, { masses: true, cells: true, units });
    return (options) => threeView(shape, options);
  }, [aircraft, text, balance, units]);
}

/** For small screens, and where one rather reads than turns. */
function ThreeViews({ id, view }: Shown): ReactNode {
  const draw = useThreeViews(view);
  if (draw === undefined) return <p>The design file has errors: correct them in its text, then the aircraft shows.</p>;
  return <Figure id={id} draw={draw} words={false} />;
}

/** Width of a drawing on paper [px of CSS]; common practice, no source. */
const paperWidth = 660;

/** On paper nothing can be turned, and what is hidden on the screen has no width of its own. */
function OnPaper({ id, view }: Shown): ReactNode {
  const draw = useThreeViews(view);
  const svg = useMemo(() => draw?.({ id, width: paperWidth }).svg ?? '', [draw, id]);
  return (
    <div
      className={kit.onPaper}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG, in which every word from data is escaped
      dangerouslySetInnerHTML={{ __html: localDrawing(svg) }}
    />
  );
}
