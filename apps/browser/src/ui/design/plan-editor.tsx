import { type Drawing, planView } from '@noonwing/drawing';
import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
} from 'react';
import { localDrawing } from '../../core/decimal.js';
import { keysAt } from '../../core/fields.js';
import { Menu, Select, saveBlob, savePng, useAppState, useFrameThrottle, useServices, useWidth } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import styles from './design.module.css';
import { DesignField } from './field.js';
import { fieldsOf, type Grip, gripId, gripPaths, gripsOf, gripWords, type Move, moveEdits, stepMove } from './grips.js';
import { gripOfHit, markOfGrip, type PlanParts, planShape } from './plan-shape.js';
import { labelAt } from './schema.js';
import { useDesignReading } from './use-design.js';

export interface PlanEditorProps {
  readonly id: string;
  /** Kinds of parts that can be moved here. */
  readonly kinds: readonly Grip['kind'][];
  readonly parts: PlanParts;
}

/** A drag goes along the aircraft or across it, whichever it starts with [px]. */
const startOfDrag = 4;

interface Drag {
  readonly grip: Grip;
  readonly text: string;
  readonly from: { readonly x: number; readonly y: number };
  /** Metres to the pixel of the drawing. */
  readonly scale: number;
  /** -1 where the left half of a pair was taken. */
  readonly side: 1 | -1;
  axis?: 'aft' | 'right';
  changed: boolean;
}

type Point = { readonly x: number; readonly y: number };

const inside = (polygon: readonly (readonly [number, number])[], { x, y }: Point): boolean => {
  let odd = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [[xi, yi], [xj, yj]] = [polygon[i]!, polygon[j]!];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) odd = !odd;
  }
  return odd;
};

const scaleOf = (drawing: Drawing, id: string) => drawing.scales.find((scale) => scale.id === id);

/** What stands at a px of a drawing [mm]. */
function valueAt(drawing: Drawing, id: string, px: number): number {
  const scale = scaleOf(drawing, id);
  if (scale === undefined) return 0;
  const [[low, high], [start, end]] = [scale.domain, scale.range];
  return end === start ? low : low + ((px - start) / (end - start)) * (high - low);
}

/** What was taken at a point: the part, and on which half. */
function takenAt(drawing: Drawing, point: Point, kinds: readonly Grip['kind'][], selected: Grip | undefined) {
  const y = valueAt(drawing, 'across', point.x);
  for (const hit of drawing.hits.toReversed()) {
    if (!inside(hit.polygon, point)) continue;
    const grip = gripOfHit(hit, hit.kind === 'cell' ? alongRow(drawing, hit.id, point) : undefined);
    if (grip === undefined || !kinds.includes(grip.kind)) continue;
    // A whole surface or body moves only after it was chosen: it fills most of the view.
    const isLarge = grip.kind === 'surface' || grip.kind === 'body';
    return {
      grip,
      side: y < 0 ? (-1 as const) : (1 as const),
      mayDrag: !isLarge || gripId(grip) === gripId(selected ?? grip),
    };
  }
  return undefined;
}

/** Where along its row a cell was taken, 0 at the inner end. */
function alongRow(drawing: Drawing, id: string, { x }: Point): number {
  const middle = scaleOf(drawing, 'across');
  if (middle === undefined) return 0.5;
  const distance = (px: number) => Math.abs(valueAt(drawing, 'across', px));
  const ends = drawing.hits
    .filter((hit) => hit.id === id)
    .flatMap(({ polygon }) => polygon.map(([px]) => distance(px)));
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  return high > low ? (distance(x) - low) / (high - low) : 0.5;
}

const arrows: Readonly<Record<string, readonly ['aft' | 'right', number]>> = {
  ArrowUp: ['aft', -1],
  ArrowDown: ['aft', 1],
  ArrowRight: ['right', 1],
  ArrowLeft: ['right', -1],
};

/** Moves parts as commands that merge: a drag, and a run of arrow keys, are one step of the history. */
function useMoving(text: string) {
  const { app, announce } = useServices();
  return useMemo(() => {
    const run = (from: string, grip: Grip, move: Move): string | undefined => {
      const edits = moveEdits(from, grip, move);
      if (edits.length === 0) return undefined;
      const words = edits.map((edit) => `${labelAt(edit.path)} ${edit.text}`).join(', ');
      const result = app.run({ kind: 'set values', edits, label: `${gripWords(grip)}: ${words}` }, 'same step');
      return result.ok ? words : result.reason;
    };
    return {
      drag: run,
      step: (grip: Grip, direction: 'aft' | 'right', times: number) => {
        const words = run(text, grip, stepMove(text, grip, direction, times));
        announce(words ?? `${gripWords(grip)} cannot be moved that way here`);
        return words;
      },
    };
  }, [app, announce, text]);
}

/** The aircraft from above: parts are dragged, moved with the arrow keys, or set by number beside it. */
export function PlanEditor({ id, kinds, parts }: PlanEditorProps): ReactNode {
  const { text, aircraft } = useDesignReading();
  const balance = useVerdict()?.balance;
  const units = useAppState((state) => state.preferences);
  const grips = useMemo(() => gripsOf(text, kinds), [text, kinds]);
  const [chosen, setChosen] = useState<string>();
  const selected = grips.find((grip) => gripId(grip) === chosen) ?? grips[0];
  const { masses, cells } = parts;
  const shape = useMemo(
    () =>
      aircraft === undefined
        ? undefined
        : planShape(aircraft, keysAt('design', text, 'masses'), balance, { masses, cells, units }),
    [aircraft, text, balance, masses, cells, units],
  );
  if (shape === undefined) return <p>The design file has errors: correct them in its text, then the aircraft shows.</p>;
  if (shape.surfaces.length === 0) return <p>There is no airframe to draw yet: add a surface below.</p>;
  return (
    <div className={styles.plan}>
      <div>
        {grips.length > 0 && (
          <Select
            label="Part to move"
            value={selected === undefined ? '' : gripId(selected)}
            choices={grips.map((grip) => ({ value: gripId(grip), label: gripWords(grip) }))}
            onChange={setChosen}
          />
        )}
      </div>
      <PlanDrawing
        id={id}
        shape={shape}
        kinds={kinds}
        selected={selected}
        onSelect={(grip) => setChosen(gripId(grip))}
      />
      {selected !== undefined && <GripFields grip={selected} />}
    </div>
  );
}

/** The numbers that moving a part changes, to type. */
function GripFields({ grip }: { readonly grip: Grip }): ReactNode {
  const { text, aircraft } = useDesignReading();
  if (aircraft === undefined) return null;
  const { along, across } = gripPaths(grip, aircraft, fieldsOf(text));
  const mass = grip.kind === 'battery' ? ['battery.mass'] : grip.kind === 'mass' ? [`masses.${grip.name}.mass`] : [];
  return (
    <fieldset className={styles.fieldset}>
      <legend className="nw-unseen">{gripWords(grip)}</legend>
      {[...new Set([...along, ...across, ...mass])].map((path) => (
        <DesignField key={path} path={path} brief />
      ))}
    </fieldset>
  );
}

interface PlanDrawingProps {
  readonly id: string;
  readonly shape: ReturnType<typeof planShape>;
  readonly kinds: readonly Grip['kind'][];
  readonly selected: Grip | undefined;
  readonly onSelect: (grip: Grip) => void;
}

function PlanDrawing({ id, shape, kinds, selected, onSelect }: PlanDrawingProps): ReactNode {
  const { app, announce } = useServices();
  const { text } = useDesignReading();
  const frame = useRef<HTMLDivElement>(null);
  const drag = useRef<Drag>(undefined);
  const width = useWidth(frame);
  const help = useId();
  const [said, setSaid] = useState('');
  const mark = selected === undefined ? undefined : markOfGrip(selected);
  const draw = useMemo(
    () => (wide: number, alone: boolean) =>
      planView(shape, {
        width: Math.max(280, wide),
        id,
        labels: wide > 520,
        ...(alone ? { standalone: true } : mark === undefined ? {} : { selected: mark }),
      }),
    [shape, id, mark],
  );
  const drawing = useMemo(() => (width < 40 ? undefined : draw(width, false)), [draw, width]);
  const moving = useMoving(text);

  const pointOf = (event: { readonly clientX: number; readonly clientY: number }): Point => {
    const box = frame.current!.getBoundingClientRect();
    const ratio = (drawing?.size.width ?? 1) / box.width;
    return { x: (event.clientX - box.left) * ratio, y: (event.clientY - box.top) * ratio };
  };
  const moveTo = useFrameThrottle((at: Point) => {
    const now = drag.current;
    if (now === undefined) return;
    const [dx, dy] = [at.x - now.from.x, at.y - now.from.y];
    if (now.axis === undefined && Math.max(Math.abs(dx), Math.abs(dy)) < startOfDrag) return;
    now.axis ??= Math.abs(dy) >= Math.abs(dx) ? 'aft' : 'right';
    const move = now.axis === 'aft' ? { aft: dy * now.scale, right: 0 } : { aft: 0, right: now.side * dx * now.scale };
    const words = moving.drag(now.text, now.grip, move);
    if (words === undefined) return setSaid(`${gripWords(now.grip)} cannot be moved that way here`);
    now.changed = true;
    setSaid(`${gripWords(now.grip)}: ${words}`);
  });
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (drawing === undefined || event.button !== 0) return;
    const from = pointOf(event);
    const taken = takenAt(drawing, from, kinds, selected);
    if (taken === undefined) return;
    onSelect(taken.grip);
    if (!taken.mayDrag) return;
    app.endStep();
    event.currentTarget.setPointerCapture(event.pointerId);
    const scale = Math.abs(valueAt(drawing, 'along', 1) - valueAt(drawing, 'along', 0)) / 1000;
    drag.current = { grip: taken.grip, text, from, scale, side: taken.side, changed: false };
  };
  const finish = () => {
    if (drag.current?.changed) announce(said);
    drag.current = undefined;
    app.endStep();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape' && drag.current !== undefined) {
      event.preventDefault();
      event.stopPropagation();
      if (drag.current.changed) app.undo();
      setSaid(`${gripWords(drag.current.grip)} is back where it was`);
      drag.current = undefined;
      return;
    }
    const arrow = arrows[event.key];
    if (arrow === undefined || selected === undefined || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const [direction, sign] = arrow;
    const words = moving.step(selected, direction, sign * (event.shiftKey ? 10 : event.altKey ? 0.1 : 1));
    setSaid(
      words === undefined ? `${gripWords(selected)} cannot be moved that way here` : `${gripWords(selected)}: ${words}`,
    );
  };
  useTouchOnParts(
    frame,
    (event) => drawing !== undefined && takenAt(drawing, pointOf(event), kinds, selected)?.mayDrag === true,
  );

  return (
    <figure className={styles.planFigure}>
      <div ref={frame} className={styles.planRoom}>
        {drawing !== undefined && (
          <div
            role="application"
            aria-roledescription="plan view"
            aria-label={
              selected === undefined ? drawing.title : `${drawing.title}: arrow keys move ${gripWords(selected)}`
            }
            aria-describedby={help}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: it is moved in by keys
            tabIndex={0}
            className={styles.planDrawing}
            onPointerDown={onPointerDown}
            onPointerMove={(event) => {
              if (drag.current !== undefined) moveTo(pointOf(event));
            }}
            onPointerUp={finish}
            onPointerCancel={finish}
            onBlur={() => app.endStep()}
            onKeyDown={onKeyDown}
            // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG, in which every word from data is escaped
            dangerouslySetInnerHTML={{ __html: localDrawing(drawing.svg) }}
          />
        )}
      </div>
      <p className={styles.planSaid}>
        {said === '' ? (selected === undefined ? '' : `Chosen: ${gripWords(selected)}`) : said}
      </p>
      <p id={help} className={styles.soft}>
        Drag a part, or move the chosen one with the arrow keys: up is forward, right is outboard; Shift moves ten
        steps, Alt a tenth. Escape takes a drag back.
      </p>
      {drawing !== undefined && (
        <Menu
          label="Save"
          kind="quiet"
          name={`Save ${drawing.title}`}
          items={[
            {
              id: 'svg',
              label: 'Save as SVG',
              run: () => saveBlob(`${id}.svg`, 'image/svg+xml', draw(width, true).svg),
            },
            { id: 'png', label: 'Save as PNG', run: () => void savePng(`${id}.png`, draw(width, true)) },
          ]}
        />
      )}
    </figure>
  );
}

/** Fingers scroll the page, except on a part that they can move. */
function useTouchOnParts(
  frame: { readonly current: HTMLElement | null },
  takes: (event: { readonly clientX: number; readonly clientY: number }) => boolean,
): void {
  const newest = useRef(takes);
  useEffect(() => {
    newest.current = takes;
  });
  useEffect(() => {
    const element = frame.current;
    const onTouch = (event: TouchEvent) => {
      const [touch] = event.touches;
      if (event.touches.length === 1 && touch !== undefined && newest.current(touch)) event.preventDefault();
    };
    element?.addEventListener('touchstart', onTouch, { passive: false });
    return () => element?.removeEventListener('touchstart', onTouch);
  }, [frame]);
}
