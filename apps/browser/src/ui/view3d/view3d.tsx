import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useCallback,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { BalanceView, HourView, ShapeView, SunView } from '../../core/view.js';
import { Button, Disclosure, Switch, Table } from '../kit/index.js';
import type { Vector } from './frames.js';
import type { Profile } from './geometry.js';
import { Legend } from './legend.js';
import type { NamedView } from './orbit.js';
import { createStage, type Stage } from './stage.js';
import { sunDirection, sunPath } from './sun-path.js';
import styles from './view3d.module.css';
import { describe, facetName, sunAngles } from './words.js';

export interface View3dProps {
  readonly name: string;
  readonly shape: ShapeView;
  /** Hour that the page shows, after the first local midnight [h]. */
  readonly at: number;
  /** Of the nose from north, clockwise [rad]. */
  readonly heading: number;
  /** Nose up and right wing down as flown [rad]; level where absent. */
  readonly pitch?: number;
  readonly bank?: number;
  /** The day's sun with the hours of its steps: its way, and its place while `hour` is on its way. */
  readonly sun?: SunView;
  readonly middles?: Float64Array;
  /** Light on the cells; may be of a moment ago while the hour is dragged. */
  readonly hour?: HourView;
  readonly balance?: BalanceView;
  /** Sections by surface, where known; usual thickness otherwise. */
  readonly profiles?: Readonly<Record<string, Profile>>;
  /** Whether masses are shown at first; true where absent. */
  readonly masses?: boolean;
  /** Sets the heading; stands below the picture. */
  readonly aim?: ReactNode;
  /** The drawn three views: shown where the browser cannot draw in three dimensions. */
  readonly fallback: ReactNode;
}

const views: readonly { readonly view: NamedView; readonly words: string }[] = [
  { view: 'overview', words: 'whole sky' },
  { view: 'above', words: 'from above' },
  { view: 'ahead', words: 'from ahead' },
  { view: 'side', words: 'from the side' },
  { view: 'sun', words: 'from the sun' },
];

const step = Math.PI / 36;
const nearer = 0.88;

type Turn = Parameters<Stage['turn']>[0];

const turns: readonly { readonly words: string; readonly sign: string; readonly by: Turn }[] = [
  { words: 'turn left', sign: '←', by: { azimuth: 3 * step } },
  { words: 'turn right', sign: '→', by: { azimuth: -3 * step } },
  { words: 'higher', sign: '↑', by: { elevation: 3 * step } },
  { words: 'lower', sign: '↓', by: { elevation: -3 * step } },
  { words: 'nearer', sign: '+', by: { scale: nearer } },
  { words: 'farther', sign: '−', by: { scale: 1 / nearer } },
];

function turnOfKey({ key, altKey, ctrlKey, metaKey, shiftKey }: KeyboardEvent): Turn | undefined {
  if (altKey || ctrlKey || metaKey) return undefined;
  const by = step * (shiftKey ? 4 : 1);
  switch (key) {
    case 'ArrowLeft':
      return { azimuth: by };
    case 'ArrowRight':
      return { azimuth: -by };
    case 'ArrowUp':
      return { elevation: by };
    case 'ArrowDown':
      return { elevation: -by };
    case '+':
    case '=':
      return { scale: nearer };
    case '-':
    case '_':
      return { scale: 1 / nearer };
    default:
      return undefined;
  }
}

const noProfiles: Readonly<Record<string, Profile>> = {};

type Status = 'shown' | 'absent' | 'lost';

/** A stage in an element, made anew for each attempt; undefined before it stands and where it cannot. */
function useStage(attempt: number) {
  const frame = useRef<HTMLDivElement>(null);
  const labels = useRef<HTMLDivElement>(null);
  const [stage, setStage] = useState<Stage | undefined>(undefined);
  const [status, setStatus] = useState<Status>('shown');
  // biome-ignore lint/correctness/useExhaustiveDependencies: another attempt begins with a new canvas
  useEffect(() => {
    const [host, words] = [frame.current, labels.current];
    if (host === null || words === null) return;
    const canvas = document.createElement('canvas');
    canvas.ariaHidden = 'true';
    host.prepend(canvas);
    const onLost = (lost: boolean) => setStatus(lost ? 'lost' : 'shown');
    const made = createStage({ canvas, labels: words, onLost });
    setStage(made);
    setStatus(made === undefined ? 'absent' : 'shown');
    return () => {
      made?.release();
      canvas.remove();
      setStage(undefined);
    };
  }, [attempt]);
  return { frame, labels, stage, status };
}

/** Drag turns, the wheel goes nearer once the picture has the focus, so that the page can be scrolled over it. */
function useOrbitPointer(
  stage: Stage | undefined,
  frame: { readonly current: HTMLElement | null },
  turned: () => void,
) {
  const last = useRef<{ readonly id: number; readonly x: number; readonly y: number } | undefined>(undefined);
  useEffect(() => {
    const host = frame.current;
    if (host === null || stage === undefined) return;
    const wheel = (event: WheelEvent) => {
      if (document.activeElement !== host) return;
      event.preventDefault();
      turned();
      stage.turn({ scale: Math.exp(Math.max(-1, Math.min(1, event.deltaY / 400))) });
    };
    host.addEventListener('wheel', wheel, { passive: false });
    return () => host.removeEventListener('wheel', wheel);
  }, [stage, frame, turned]);
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>) => {
      if (event.button !== 0) return;
      last.current = { id: event.pointerId, x: event.clientX, y: event.clientY };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent<HTMLElement>) => {
      const before = last.current;
      if (before === undefined || before.id !== event.pointerId) return;
      const { clientX: x, clientY: y } = event;
      last.current = { id: event.pointerId, x, y };
      turned();
      stage?.turn({ azimuth: (x - before.x) * 0.008, elevation: (y - before.y) * 0.008 });
    },
    onPointerUp: () => {
      last.current = undefined;
    },
    onPointerCancel: () => {
      last.current = undefined;
    },
  };
}

/** Puts what the page knows on the stage; only what changed is built anew. */
function useScenery(stage: Stage | undefined, props: View3dProps, sun: Vector | undefined, withMasses: boolean) {
  const { shape, profiles = noProfiles, balance, hour, heading, pitch = 0, bank = 0, middles, sun: day } = props;
  const dayNumber = Math.floor(props.at / 24);
  const path = useMemo(
    () => (day === undefined || middles === undefined ? undefined : sunPath(day, middles, 24 * dayNumber + 12)),
    [day, middles, dayNumber],
  );
  const light = hour?.facetLight;
  useEffect(() => stage?.setShape(shape, profiles), [stage, shape, profiles]);
  useEffect(() => stage?.setBalance(balance), [stage, balance]);
  useEffect(() => stage?.setPath(path ?? { spots: [], hours: [], rises: false, sets: false }), [stage, path]);
  useEffect(() => stage?.showMasses(withMasses), [stage, withMasses]);
  useEffect(
    () => stage?.setMoment({ attitude: { heading, pitch, bank }, sun, light }),
    [stage, heading, pitch, bank, sun, light],
  );
}

/** Where the sun is: as computed for the hour, else from the course of the day while the hour is on its way. */
function useSun({ at, hour, sun: day, middles }: View3dProps): Vector | undefined {
  return useMemo(() => {
    if (hour !== undefined && Math.abs(hour.at - at) < 1e-9) return hour.sun.direction;
    return day !== undefined && middles !== undefined ? sunDirection(day, middles, at) : hour?.sun.direction;
  }, [hour, at, day, middles]);
}

/** The aircraft under the sun of the hour, to be turned; with the same in words and numbers. */
export default function View3d(props: View3dProps): ReactNode {
  const { name, shape, at, heading, pitch = 0, bank = 0, hour, balance } = props;
  const [attempt, setAttempt] = useState(0);
  const [withMasses, setWithMasses] = useState(props.masses ?? true);
  const made = useStage(attempt);
  const { stage, status } = made;
  const sun = useSun(props);
  useScenery(stage, props, sun, withMasses);
  const id = useId();
  const light = hour?.facetLight.length === shape.facets.length ? hour.facetLight : undefined;
  const angles = sun === undefined ? undefined : sunAngles(sun);
  const text = describe({ name, shape, at, attitude: { heading, pitch, bank }, sun: angles, light, balance });
  return (
    <div className={styles.view}>
      {status !== 'shown' && (
        <Instead status={status} fallback={props.fallback} onRetry={() => setAttempt(attempt + 1)} />
      )}
      <div hidden={status !== 'shown'}>
        <Turnable
          name={name}
          made={made}
          describedBy={`${id}-words`}
          isUp={sun !== undefined && sun[2] > 0}
          withMasses={withMasses}
          onMasses={setWithMasses}
        />
      </div>
      {props.aim}
      <p id={`${id}-words`} className={styles.words}>
        {text}
      </p>
      {shape.facets.length > 0 && <Legend light={light} />}
      {withMasses && status === 'shown' && (
        <p className={styles.note}>
          Each ball has the mass of its item if it were water: full where weighed, a net where assumed. Sky and ground
          are not to scale; shadows of the aircraft on itself are not computed.
        </p>
      )}
      {light !== undefined && light.length > 0 && <LightTable shape={shape} light={light} heading={heading} />}
    </div>
  );
}

/** The picture with the ways to turn it: by pointer, keys and buttons. */
function Turnable(props: {
  readonly name: string;
  readonly made: ReturnType<typeof useStage>;
  readonly describedBy: string;
  readonly isUp: boolean;
  readonly withMasses: boolean;
  readonly onMasses: (shown: boolean) => void;
}): ReactNode {
  const { name, made, describedBy, ...masses } = props;
  const { frame, labels, stage } = made;
  const [view, setView] = useState<NamedView | undefined>('overview');
  const forget = useCallback(() => setView(undefined), []);
  const pointer = useOrbitPointer(stage, frame, forget);
  const turn = (by: Turn) => {
    forget();
    stage?.turn(by);
  };
  const look = (next: NamedView) => {
    setView(next);
    stage?.look(next);
  };
  return (
    <>
      <div
        ref={frame}
        className={styles.frame}
        role="application"
        aria-label={`${name} in three dimensions; arrow keys turn, plus and minus go nearer and farther`}
        aria-describedby={describedBy}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: an application takes keys
        tabIndex={0}
        onKeyDown={(event) => {
          const by = turnOfKey(event);
          if (by === undefined) return;
          event.preventDefault();
          turn(by);
        }}
        {...pointer}
      >
        <div ref={labels} className={styles.labels} aria-hidden="true" />
      </div>
      <Tools view={view} onLook={look} onTurn={turn} {...masses} />
    </>
  );
}

/** Ways to look, for those who do not drag. */
function Tools(props: {
  readonly view: NamedView | undefined;
  readonly isUp: boolean;
  readonly onLook: (view: NamedView) => void;
  readonly onTurn: (by: Turn) => void;
  readonly withMasses: boolean;
  readonly onMasses: (shown: boolean) => void;
}): ReactNode {
  const { view, isUp, onLook, onTurn } = props;
  return (
    <div className={styles.tools} role="toolbar" aria-label="look">
      {views.map(({ view: each, words }) => (
        <Button
          key={each}
          kind="quiet"
          pressed={view === each}
          disabled={each === 'sun' && !isUp}
          {...(each === 'sun' && !isUp ? { hint: 'the sun is below the horizon' } : {})}
          onPress={() => onLook(each)}
        >
          {words}
        </Button>
      ))}
      <span className={styles.turns}>
        {turns.map(({ words, sign, by }) => (
          <Button key={words} kind="quiet" label={words} hint={words} onPress={() => onTurn(by)}>
            {sign}
          </Button>
        ))}
      </span>
      <Switch label="masses" checked={props.withMasses} onChange={props.onMasses} />
    </div>
  );
}

/** The colours of the cells as numbers. */
const LightTable = (props: {
  readonly shape: ShapeView;
  readonly light: ArrayLike<number>;
  readonly heading: number;
}): ReactNode => (
  <Disclosure title="Light on each row of cells">
    <Table
      caption={`Light that gets into the cells at heading ${Math.round((props.heading * 180) / Math.PI)}°`}
      captionHidden
      columns={[
        { key: 'row', label: 'row' },
        { key: 'cells', label: 'cells', numeric: true },
        { key: 'light', label: 'light', unit: 'W/m²', numeric: true },
      ]}
      rows={props.shape.facets.map((facet, i) => ({
        row: facetName(facet),
        cells: facet.cells,
        light: Math.round(props.light[i]!),
      }))}
    />
  </Disclosure>
);

function Instead(props: {
  readonly status: Status;
  readonly fallback: ReactNode;
  readonly onRetry: () => void;
}): ReactNode {
  return (
    <div>
      <p className={styles.note} role="status">
        {props.status === 'lost'
          ? 'The browser took the graphics memory away; the drawn views stand in until it comes back. '
          : 'This browser cannot draw in three dimensions (WebGL 2 is missing or switched off); the drawn views stand in. '}
        {props.status === 'lost' && <Button onPress={props.onRetry}>try again</Button>}
      </p>
      {props.fallback}
    </div>
  );
}
