import { type GeoProjection, geoMercator } from 'd3-geo';

/** A point in degrees, north and east positive. */
export interface MapPoint {
  readonly latitude: number;
  readonly longitude: number;
}

/** What the map shows: its middle, and how many times larger than the whole world. */
export interface MapView {
  readonly middle: MapPoint;
  readonly zoom: number;
}

export interface MapSize {
  readonly width: number;
  readonly height: number;
}

export const zoomLimits = { least: 1, most: 256 } as const;
/** Beyond it this projection has no room. */
const northernmost = 80;

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Longitude from -180 to 180. */
export const wrapped = (longitude: number): number => ((((longitude + 180) % 360) + 360) % 360) - 180;

export const pointOnMap = (point: MapPoint): MapPoint => ({
  latitude: clamp(point.latitude, -northernmost, northernmost),
  longitude: wrapped(point.longitude),
});

/** Mercator's projection: directions are true everywhere, which is what a person compares a point with. */
export function projectionOf({ middle, zoom }: MapView, { width, height }: MapSize): GeoProjection {
  const at = pointOnMap(middle);
  return geoMercator()
    .rotate([-at.longitude, 0])
    .center([0, at.latitude])
    .scale((width / (2 * Math.PI)) * zoom)
    .translate([width / 2, height / 2])
    .clipExtent([
      [0, 0],
      [width, height],
    ]);
}

/** The point under a place of the picture [px], rounded to what its size can tell. */
export function pointAt(view: MapView, size: MapSize, x: number, y: number): MapPoint | undefined {
  const found = projectionOf(view, size).invert?.([x, y]);
  if (found === null || found === undefined || !found.every(Number.isFinite)) return undefined;
  const [longitude, latitude] = found;
  if (Math.abs(latitude) > 85) return undefined;
  const places = decimals(view, size);
  return { latitude: Number(latitude.toFixed(places)), longitude: Number(wrapped(longitude).toFixed(places)) };
}

/** Decimals of a degree that a picture point can tell. */
export const decimals = ({ zoom }: MapView, { width }: MapSize): number =>
  clamp(Math.ceil(Math.log10((width * zoom) / 360)), 0, 3);

const directions: Readonly<Record<string, readonly [east: number, north: number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Where a key moves the point: a hundredth of the picture's width; with shift ten. Undefined for other keys. */
export function movedPoint(point: MapPoint, key: string, view: MapView, isFast: boolean): MapPoint | undefined {
  const direction = directions[key];
  if (direction === undefined) return undefined;
  const step = (3.6 / view.zoom) * (isFast ? 10 : 1);
  const round = (value: number) => Number(value.toFixed(clamp(Math.ceil(-Math.log10(step)) + 1, 0, 4)));
  const moved = pointOnMap({
    latitude: point.latitude + step * direction[1] * Math.cos((point.latitude * Math.PI) / 180),
    longitude: point.longitude + step * direction[0],
  });
  return { latitude: round(moved.latitude), longitude: round(moved.longitude) };
}

export const zoomed = (view: MapView, middle: MapPoint, factor: number): MapView => ({
  middle,
  zoom: clamp(view.zoom * factor, zoomLimits.least, zoomLimits.most),
});

/** The view moved only where the point would leave its inner part. */
export function following(view: MapView, size: MapSize, point: MapPoint): MapView {
  const at = projectionOf(view, size).clipExtent(null)([point.longitude, point.latitude]);
  const margin = 0.12;
  const isInside =
    at !== null &&
    at[0] > margin * size.width &&
    at[0] < (1 - margin) * size.width &&
    at[1] > margin * size.height &&
    at[1] < (1 - margin) * size.height;
  return isInside ? view : { ...view, middle: pointOnMap(point) };
}

/** The view after the picture was dragged by so many px. */
export function dragged(view: MapView, size: MapSize, dx: number, dy: number): MapView {
  const found = projectionOf(view, size).invert?.([size.width / 2 - dx, size.height / 2 - dy]);
  if (found === null || found === undefined || !found.every(Number.isFinite)) return view;
  return { ...view, middle: pointOnMap({ longitude: found[0], latitude: found[1] }) };
}
