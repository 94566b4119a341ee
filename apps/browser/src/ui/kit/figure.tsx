import {
  cursorAt,
  cursorStep,
  cursorText,
  type Drawing,
  type DrawOptions,
  type HitRegion,
  pointedAt,
  positionOn,
  type ThemeName,
  tableCsv,
} from '@noonwing/drawing';
import { type KeyboardEvent, type PointerEvent, type ReactNode, useId, useMemo, useRef, useState } from 'react';
import { localDrawing, localNumbers } from '../../core/decimal.js';
import { classes } from './classes.js';
import { useWidth } from './hooks.js';
import styles from './kit.module.css';
import { Menu } from './menu.js';
import { saveBlob, savePng } from './save.js';
import { Table } from './surfaces.js';

export interface FigureProps {
  /** Makes the drawing for a width; called again when the room changes. Keep its identity while its data stay the same. */
  readonly draw: (options: DrawOptions) => Drawing;
  /** Of the drawing; one of its own on the page, also the name of saved files. */
  readonly id: string;
  /** Title and words above the drawing; false where a panel says them already. */
  readonly words?: boolean;
  /** Where all charts of the page stand; without it the figure keeps its own. `scale`: the horizontal scale that it moves. */
  readonly cursor?: { readonly at: number; readonly scale?: string; readonly onMove: (at: number) => void } | undefined;
  /** The menu to save, and the table; false for small pictures. */
  readonly tools?: boolean;
  readonly onHit?: (hit: HitRegion) => void;
  /** What a mouse stands over. */
  readonly onOver?: (hit: HitRegion | undefined) => void;
}

const themeNow = (): ThemeName => {
  const chosen = document.documentElement.dataset.theme;
  if (chosen === 'light' || chosen === 'dark' || chosen === 'sunlight') return chosen;
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
};

const inside = ({ polygon }: HitRegion, x: number, y: number): boolean => {
  let odd = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [[xi, yi], [xj, yj]] = [polygon[i]!, polygon[j]!];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) odd = !odd;
  }
  return odd;
};

const steps: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
};

/** A drawing with its words, a cursor for pointer and keyboard that reads every curve, its data as a table, and saving. */
export function Figure({ draw, id, words = true, cursor, tools = true, onHit, onOver }: FigureProps): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const [own, setOwn] = useState<{ readonly at: number; readonly scale: string }>();
  const [asTable, setAsTable] = useState(false);
  const reading = useId();
  const drawing = useMemo(
    () => (width < 40 ? undefined : draw({ width: Math.max(280, width), id })),
    [draw, width, id],
  );
  const current = cursor === undefined ? own : { at: cursor.at, scale: cursor.scale ?? 'x' };
  const move = (at: number, scale: string) => (cursor === undefined ? setOwn({ at, scale }) : cursor.onMove(at));

  const svgPoint = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const ratio = (drawing?.size.width ?? 1) / box.width;
    return { x: (event.clientX - box.left) * ratio, y: (event.clientY - box.top) * ratio };
  };
  const point = (event: PointerEvent<HTMLElement>) => {
    if (drawing === undefined) return;
    const at = svgPoint(event);
    const hit = event.type === 'pointerdown' ? drawing.hits.findLast((one) => inside(one, at.x, at.y)) : undefined;
    if (hit !== undefined) onHit?.(hit);
    const found = pointedAt(drawing, at);
    if (found !== undefined && (cursor === undefined || found.scale === (cursor.scale ?? 'x')))
      move(found.x, found.scale);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const by = steps[event.key];
    const scale = drawing?.scales.find((one) => one.id === (current?.scale ?? drawing.series[0]?.xScale));
    if (scale === undefined) return;
    if (by !== undefined || event.key === 'Home' || event.key === 'End') {
      event.preventDefault();
      const [low, high] = scale.domain;
      const from = current?.at ?? (low + high) / 2;
      move(event.key === 'Home' ? low : event.key === 'End' ? high : cursorStep(scale, from, by!), scale.id);
    }
  };
  const canRead = (drawing?.series.length ?? 0) > 0;

  return (
    <figure className={styles.figure}>
      {words && drawing !== undefined && (
        <figcaption>
          <b>{drawing.title}</b> {localNumbers(drawing.text)}
        </figcaption>
      )}
      <div ref={frame} className={styles.drawingRoom}>
        {drawing !== undefined && (
          // biome-ignore lint/a11y/noStaticElementInteractions: it has a role wherever the keyboard can do something
          <div
            className={classes(styles.drawing, canRead && styles.readable)}
            {...(canRead
              ? {
                  // A chart whose values are read by moving along it.
                  role: 'slider' as const,
                  tabIndex: 0,
                  'aria-label': `${drawing.title}: read values`,
                  'aria-describedby': reading,
                  ...sliderValues(drawing, current),
                }
              : {})}
            onPointerDown={point}
            onPointerLeave={() => onOver?.(undefined)}
            onPointerMove={(event) => {
              if (onOver !== undefined && event.pointerType === 'mouse') {
                const { x, y } = svgPoint(event);
                onOver(drawing.hits.findLast((one) => inside(one, x, y)));
              }
              if (event.buttons === 1 || (cursor === undefined && event.pointerType === 'mouse')) point(event);
            }}
            onKeyDown={onKeyDown}
          >
            <div
              // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG, in which every word from data is escaped
              dangerouslySetInnerHTML={{ __html: localDrawing(drawing.svg) }}
            />
            {current !== undefined && <CursorLine drawing={drawing} {...current} />}
          </div>
        )}
      </div>
      {drawing !== undefined && current !== undefined && canRead && (
        <p id={reading} className={styles.reading}>
          {readingText(drawing, current)}
        </p>
      )}
      {tools && drawing !== undefined && (
        <FigureTools drawing={drawing} draw={draw} id={id} asTable={asTable} onTable={() => setAsTable(!asTable)} />
      )}
      {asTable && drawing !== undefined && <DataTable drawing={drawing} />}
    </figure>
  );
}

interface At {
  readonly at: number;
  readonly scale: string;
}

function readingText(drawing: Drawing, { at, scale }: At): string {
  const axis = drawing.scales.find(({ id }) => id === scale);
  if (axis === undefined) return '';
  const values = cursorAt(drawing, at, scale).map(({ text }) => text);
  return localNumbers(`${cursorText(axis, at)}: ${values.length === 0 ? 'nothing is drawn here' : values.join('; ')}`);
}

function sliderValues(drawing: Drawing, current: At | undefined) {
  const axis = drawing.scales.find(({ id }) => id === (current?.scale ?? drawing.series[0]?.xScale));
  const [low, high] = axis?.domain ?? [0, 1];
  const at = current?.at ?? low;
  return {
    'aria-valuemin': low,
    'aria-valuemax': high,
    'aria-valuenow': at,
    'aria-valuetext': axis === undefined ? '' : readingText(drawing, { at, scale: axis.id }),
  };
}

/** The line through the drawing at the cursor, and a ring on each curve. */
function CursorLine({ drawing, at, scale }: At & { readonly drawing: Drawing }): ReactNode {
  const axis = drawing.scales.find(({ id }) => id === scale);
  if (axis === undefined || at < axis.domain[0] || at > axis.domain[1]) return null;
  const x = positionOn(axis, at);
  const readings = cursorAt(drawing, at, scale);
  const { width, height } = drawing.size;
  return (
    <svg className={styles.cursor} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <line x1={x} x2={x} y1={0} y2={height} />
      {readings.map((one) => (
        <circle key={one.id} cx={one.at[0]} cy={one.at[1]} r={4} />
      ))}
    </svg>
  );
}

const DataTable = ({ drawing }: { readonly drawing: Drawing }): ReactNode => (
  <Table
    caption={`${drawing.title}: data`}
    columns={drawing.table.columns.map(({ key, label, unit }) => ({ key, label, unit, numeric: true }))}
    rows={drawing.table.rows.map((row) =>
      Object.fromEntries(
        Object.entries(row).map(([key, value]) => [
          key,
          typeof value === 'number' ? localNumbers(String(Number(value.toPrecision(5)))) : value,
        ]),
      ),
    )}
  />
);

function FigureTools(props: {
  readonly drawing: Drawing;
  readonly draw: FigureProps['draw'];
  readonly id: string;
  readonly asTable: boolean;
  readonly onTable: () => void;
}): ReactNode {
  const { drawing, draw, id } = props;
  const forFile = () => draw({ width: drawing.size.width, id, standalone: true, theme: themeNow() });
  return (
    <div className={styles.figureTools}>
      <Menu
        label="Table, save"
        kind="quiet"
        name={`Table, save: ${drawing.title}`}
        items={[
          { id: 'table', label: props.asTable ? 'Hide the table' : 'Show as a table', run: props.onTable },
          { id: 'svg', label: 'Save as SVG', run: () => saveBlob(`${id}.svg`, 'image/svg+xml', forFile().svg) },
          { id: 'png', label: 'Save as PNG', run: () => void savePng(`${id}.png`, forFile()) },
          {
            id: 'csv',
            label: 'Save the data as CSV',
            run: () => saveBlob(`${id}.csv`, 'text/csv', tableCsv(drawing.table)),
          },
        ]}
      />
    </div>
  );
}
