import { type GeoPermissibleObjects, geoGraticule, geoPath } from 'd3-geo';
import { type KeyboardEvent, type PointerEvent, type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { feature, mesh } from 'topojson-client';
import { listedPlaces } from '../../core/place-list.js';
import { nearestPlace } from '../../core/places.js';
import { Button, useWidth } from '../kit/index.js';
import styles from './day.module.css';
import {
  dragged,
  following,
  type MapPoint,
  type MapSize,
  type MapView,
  movedPoint,
  pointAt,
  pointOnMap,
  projectionOf,
  zoomed,
} from './map-view.js';

interface World {
  readonly land: GeoPermissibleObjects;
  readonly borders: GeoPermissibleObjects;
}

type Atlas = Parameters<typeof mesh>[0] & {
  readonly objects: { readonly countries: NonNullable<Parameters<typeof mesh>[1]> };
};

function worldOf(text: string): World {
  const atlas = JSON.parse(text) as Atlas;
  return {
    land: feature(atlas, 'land'),
    borders: mesh(atlas, atlas.objects.countries, (a, b) => a !== b),
  };
}

/** From this zoom on the finer coast is worth loading. */
const fineFrom = 6;
const degree = Math.PI / 180;

/** Coasts and borders of the world, and finer ones once the map is close. */
function useWorld(isClose: boolean): World | undefined {
  const [coarse, setCoarse] = useState<World>();
  const [fine, setFine] = useState<World>();
  useEffect(() => {
    let isWanted = true;
    void import('world-atlas/countries-110m.json?raw').then((file) => isWanted && setCoarse(worldOf(file.default)));
    return () => {
      isWanted = false;
    };
  }, []);
  useEffect(() => {
    if (!isClose || fine !== undefined) return;
    let isWanted = true;
    void import('world-atlas/countries-50m.json?raw').then((file) => isWanted && setFine(worldOf(file.default)));
    return () => {
      isWanted = false;
    };
  }, [isClose, fine]);
  return isClose ? (fine ?? coarse) : coarse;
}

interface MapProps {
  /** [rad] */
  readonly latitude: number;
  readonly longitude: number;
  readonly onTake: (at: { readonly latitude: number; readonly longitude: number }) => void;
}

/** Words for a point: its degrees and the nearest listed place. */
function pointWords(point: MapPoint): string {
  const { place, distance } = nearestPlace({ latitude: point.latitude * degree, longitude: point.longitude * degree });
  const part = (value: number, letters: string) => `${Math.abs(value)}° ${value < 0 ? letters[1] : letters[0]}`;
  const far = distance < 1000 ? 'at' : `${Math.round(distance / 1000)} km from`;
  return `${part(point.latitude, 'NS')} ${part(point.longitude, 'EW')}, ${far} ${place.name}`;
}

const rounded = (angle: number): number => Number((angle / degree).toFixed(3));

/** A map without network: press or tap a point, or move it with the arrow keys and take it with Enter. */
export default function WorldMap({ latitude, longitude, onTake }: MapProps): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const size = useMemo<MapSize>(
    () => ({ width: Math.max(200, width), height: Math.round(Math.max(180, Math.min(360, width * 0.55))) }),
    [width],
  );
  const taken = useMemo(() => ({ latitude: rounded(latitude), longitude: rounded(longitude) }), [latitude, longitude]);
  const [view, setView] = useState<MapView>({ middle: pointOnMap(taken), zoom: 8 });
  const [point, setPoint] = useState<MapPoint>();
  const shown = point ?? taken;
  useEffect(() => {
    setPoint(undefined);
    setView((before) => following(before, { width: 600, height: 330 }, taken));
  }, [taken]);

  const take = (at: MapPoint) => onTake({ latitude: at.latitude * degree, longitude: at.longitude * degree });
  const zoom = (factor: number) => setView(zoomed(view, pointOnMap(shown), factor));
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const moved = movedPoint(shown, event.key, view, event.shiftKey);
    if (moved !== undefined) {
      setPoint(moved);
      setView(following(view, size, moved));
    } else if (event.key === '+' || event.key === '=') zoom(2);
    else if (event.key === '-') zoom(0.5);
    else if (event.key === 'Enter' && point !== undefined) take(point);
    else if (event.key === 'Escape' && point !== undefined) setPoint(undefined);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div className={styles.map}>
      <div ref={frame}>
        <MapPicture {...{ view, size, shown, taken }} onView={setView} onPick={take} onKeyDown={onKeyDown} />
      </div>
      <div className={styles.mapFoot}>
        <p role="status" className={styles.mapWords}>
          {point === undefined ? `Taken: ${pointWords(shown)}` : `Looking at ${pointWords(shown)}`}
        </p>
        <div className={styles.row}>
          <Button label="Closer" onPress={() => zoom(2)}>
            +
          </Button>
          <Button label="Further away" onPress={() => zoom(0.5)}>
            −
          </Button>
          {point !== undefined && (
            <Button kind="main" onPress={() => take(point)}>
              Take this point
            </Button>
          )}
        </div>
      </div>
    </div>
  );
}

interface PictureProps {
  readonly view: MapView;
  readonly size: MapSize;
  readonly shown: MapPoint;
  readonly taken: MapPoint;
  readonly onView: (view: MapView) => void;
  readonly onPick: (point: MapPoint) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
}

/** A press that moves less than this is a choice, not a drag [px]. */
const still = 5;

function MapPicture({ view, size, shown, taken, onView, onPick, onKeyDown }: PictureProps): ReactNode {
  const world = useWorld(view.zoom >= fineFrom);
  const drag = useRef<{ readonly x: number; readonly y: number; readonly view: MapView; moved: boolean } | undefined>(
    undefined,
  );
  const projection = useMemo(() => projectionOf(view, size), [view, size]);
  const paths = useMemo(() => {
    const path = geoPath(projection).digits(1);
    const grid = geoGraticule().step(view.zoom >= 30 ? [1, 1] : view.zoom >= 6 ? [5, 5] : [30, 30]);
    return {
      grid: path(grid()) ?? '',
      land: world === undefined ? '' : (path(world.land) ?? ''),
      borders: world === undefined ? '' : (path(world.borders) ?? ''),
    };
  }, [projection, world, view.zoom]);
  const at = ({ longitude, latitude }: MapPoint) => projection([longitude, latitude]);
  const onDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, y: event.clientY, view, moved: false };
  };
  const onMove = (event: PointerEvent) => {
    const from = drag.current;
    if (from === undefined) return;
    const [dx, dy] = [event.clientX - from.x, event.clientY - from.y];
    if (Math.hypot(dx, dy) > still) from.moved = true;
    if (from.moved) onView(dragged(from.view, size, dx, dy));
  };
  const onUp = (event: PointerEvent<HTMLDivElement>) => {
    const from = drag.current;
    drag.current = undefined;
    if (from === undefined || from.moved) return;
    const box = event.currentTarget.getBoundingClientRect();
    const found = pointAt(view, size, event.clientX - box.left, event.clientY - box.top);
    if (found !== undefined) onPick(found);
  };
  return (
    <div
      role="application"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a map takes keys of its own, which its name tells
      tabIndex={0}
      aria-label="Map. Press a point to take it. Arrow keys move the point, with shift faster, plus and minus bring it closer or further, Enter takes it, Escape leaves it."
      className={styles.mapPicture}
      onKeyDown={onKeyDown}
      onPointerDown={onDown}
      onPointerMove={onMove}
      onPointerUp={onUp}
      onPointerCancel={() => {
        drag.current = undefined;
      }}
    >
      <svg width={size.width} height={size.height} viewBox={`0 0 ${size.width} ${size.height}`} aria-hidden="true">
        <rect className={styles.sea} width={size.width} height={size.height} />
        <path className={styles.land} d={paths.land} />
        <path className={styles.grid} d={paths.grid} />
        <path className={styles.borders} d={paths.borders} />
        {view.zoom >= 4 && <Names projection={at} size={size} zoom={view.zoom} />}
        <Pin at={at(taken)} kind={styles.takenPin ?? ''} />
        {shown !== taken && <Pin at={at(shown)} kind={styles.shownPin ?? ''} />}
      </svg>
    </div>
  );
}

/** The listed places that lie in the picture; their names where there is room. */
function Names(props: {
  readonly projection: (point: MapPoint) => readonly [number, number] | null;
  readonly size: MapSize;
  readonly zoom: number;
}): ReactNode {
  const { projection, size, zoom } = props;
  const used: { readonly x: number; readonly y: number; readonly width: number }[] = [];
  return listedPlaces.map((place) => {
    const at = projection(place);
    if (at === null || at[0] < 4 || at[0] > size.width - 4 || at[1] < 4 || at[1] > size.height - 4) return null;
    const [x, y] = at;
    const width = place.name.length * 6.6 + 8;
    const isFree =
      zoom >= 6 &&
      x + width < size.width &&
      used.every((one) => Math.abs(one.y - y) > 13 || x > one.x + one.width || one.x > x + width);
    if (isFree) used.push({ x, y, width });
    return (
      <g key={`${place.name} ${place.country}`}>
        <circle className={styles.town} cx={x} cy={y} r={2} />
        {isFree && (
          <text className={styles.townName} x={x + 5} y={y + 4}>
            {place.name}
          </text>
        )}
      </g>
    );
  });
}

/** The point: a cross in a ring, so that it shows on any ground. */
const Pin = ({ at, kind }: { readonly at: readonly [number, number] | null; readonly kind: string }): ReactNode =>
  at === null ? null : (
    <g className={kind} transform={`translate(${at[0]} ${at[1]})`}>
      <circle r={9} />
      <path d="M-14 0h10M4 0h10M0-14v10M0 4v10" />
    </g>
  );
