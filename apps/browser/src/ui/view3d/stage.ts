import { DirectionalLight, HemisphereLight, PerspectiveCamera, Scene } from 'three';
import type { BalanceView, ShapeView } from '../../core/view.js';
import { type AircraftModel, aircraftModel } from './aircraft-model.js';
import { fieldOfView, onPicture, placeCamera } from './camera.js';
import { coloursAt, watchColours } from './colours.js';
import { type Attitude, attitudeTurns, skyToScene, type Vector } from './frames.js';
import type { Profile } from './geometry.js';
import { labelsOf, type PlacedLabel } from './labels.js';
import { type NamedView, type Orbit, orbitBetween, orbitOf, turned } from './orbit.js';
import { type Overlay, overlay } from './overlay.js';
import { type Picture, pictureOn, restAfter } from './picture.js';
import { type SkyModel, skyModel } from './sky-model.js';
import type { SunPath } from './sun-path.js';
import { type CanvasWatch, watchCanvas } from './watch-canvas.js';

/** What changes with the hour and the heading: no shape is built anew for it. */
export interface Moment {
  readonly attitude: Attitude;
  /** East, north, up; undefined where it is not known. */
  readonly sun: Vector | undefined;
  /** By facet [W/m2]; undefined while it is computed. */
  readonly light: ArrayLike<number> | undefined;
}

/** The picture: state is the point of it. */
export interface Stage {
  readonly setShape: (shape: ShapeView, profiles: Readonly<Record<string, Profile>>) => void;
  readonly setBalance: (balance: BalanceView | undefined) => void;
  readonly setPath: (path: SunPath) => void;
  readonly setMoment: (moment: Moment) => void;
  readonly showMasses: (shown: boolean) => void;
  /** A view with a name is kept, also while aircraft and sun move, until `turn`. */
  readonly look: (view: NamedView) => void;
  readonly turn: (by: { readonly azimuth?: number; readonly elevation?: number; readonly scale?: number }) => void;
  readonly release: () => void;
}

export interface StageHosts {
  readonly canvas: HTMLCanvasElement;
  readonly labels: HTMLElement;
  /** The graphics context went away (true) or came back (false). */
  readonly onLost: (lost: boolean) => void;
}

/** Of a change between views [ms]. */
const turning = 260;

const emptyPath: SunPath = { spots: [], hours: [], rises: false, sets: false };

/** The choice made in the page counts, else that of the system. */
const wantsStillness = (): boolean => {
  const { motion } = document.documentElement.dataset;
  return motion === 'no' || (motion !== 'yes' && matchMedia('(prefers-reduced-motion: reduce)').matches);
};

/** Sky around an aircraft: far enough that the tips stay inside; the ground low enough for a wing in a turn. */
const skySize = (aircraft: AircraftModel) => {
  const radius = 1.12 * aircraft.radius;
  return { radius, drop: Math.max(0.22 * radius, aircraft.depth + 0.05 * radius) };
};

/** What stands on the stage, and how it is looked at. */
interface Standing {
  readonly picture: Picture;
  readonly scene: Scene;
  readonly camera: PerspectiveCamera;
  readonly sunlight: DirectionalLight;
  readonly daylight: HemisphereLight;
  readonly words: Overlay;
  watch: CanvasWatch | undefined;
  aircraft: AircraftModel | undefined;
  sky: SkyModel | undefined;
  shape: ShapeView | undefined;
  balance: BalanceView | undefined;
  path: SunPath;
  moment: Moment;
  withMasses: boolean;
  named: NamedView | undefined;
  orbit: Orbit;
  change: { readonly from: Orbit; readonly start: number } | undefined;
  placed: readonly PlacedLabel[];
  /** Of the frame that is asked for; 0 for none. */
  frame: number;
  /** Waits for the movement to end. */
  rest: ReturnType<typeof setTimeout> | undefined;
}

function emptyStage(picture: Picture, labels: HTMLElement): Standing {
  const scene = new Scene();
  const sunlight = new DirectionalLight(0xffffff, 0);
  const daylight = new HemisphereLight(0xffffff, 0xd8d0c0, 2);
  scene.add(sunlight, daylight);
  return {
    picture,
    scene,
    camera: new PerspectiveCamera(fieldOfView, 1, 0.01, 100),
    sunlight,
    daylight,
    words: overlay(labels),
    watch: undefined,
    aircraft: undefined,
    sky: undefined,
    shape: undefined,
    balance: undefined,
    path: emptyPath,
    moment: { attitude: { heading: 0, pitch: 0, bank: 0 }, sun: undefined, light: undefined },
    withMasses: true,
    named: 'overview',
    orbit: orbitOf('overview', { heading: 0, noon: Math.PI, distance: 1 }),
    change: undefined,
    placed: [],
    frame: 0,
    rest: undefined,
  };
}

/** Asks for a frame where something changed and can be seen. */
function invalidate(on: Standing): void {
  if (on.frame === 0 && on.watch?.canDraw()) on.frame = requestAnimationFrame((now) => draw(on, now));
}

/** Where the eye should be: views with a name follow aircraft and sun. */
function target({ named, orbit, path, moment }: Standing): Orbit {
  if (named === undefined) return orbit;
  const middle = path.spots[Math.floor(path.spots.length / 2)]?.direction;
  const noon = middle === undefined ? Math.PI : Math.atan2(middle[0], middle[1]);
  const sun = moment.sun !== undefined && moment.sun[2] > 0 ? moment.sun : undefined;
  return orbitOf(named, { heading: moment.attitude.heading, noon, sun, distance: orbit.distance });
}

/** One frame: coarse while it follows another closely, and fine once the movement has come to rest. */
function draw(on: Standing, now: number): void {
  const { watch, change, aircraft, picture, camera, words } = on;
  on.frame = 0;
  if (!watch?.canDraw()) return;
  const wanted = target(on);
  const share = change === undefined ? 1 : Math.min(1, Math.max(0, (now - change.start) / turning));
  on.orbit = change === undefined || share >= 1 ? wanted : orbitBetween(change.from, wanted, share);
  if (share >= 1) on.change = undefined;
  const size = watch.size();
  if (aircraft !== undefined) placeCamera(camera, share < 1 ? on.orbit : wanted, skySize(aircraft), on.path, size);
  const coarse = picture.draw(on.scene, camera, now);
  const places = new Map(on.placed.map(({ label, at }) => [label.id, at] as const));
  words.update((id) => onPicture(camera, size, places.get(id)!), ...size);
  clearTimeout(on.rest);
  if (on.change !== undefined) invalidate(on);
  else if (coarse) on.rest = setTimeout(() => invalidate(on), restAfter);
}

/** Seen from the sun, the sun and its way would stand before the aircraft. */
const fromSun = ({ named, moment }: Standing): boolean =>
  named === 'sun' && moment.sun !== undefined && moment.sun[2] > 0;

function refreshLabels(on: Standing): void {
  const { aircraft, shape, balance, path } = on;
  if (aircraft === undefined || shape === undefined) return;
  const { middle } = aircraft;
  const { attitude, sun } = on.moment;
  const seen = fromSun(on) ? { path: emptyPath, sun: undefined } : { path, sun };
  on.placed = labelsOf({ shape, balance, attitude, middle, ...seen, ...skySize(aircraft) });
  on.words.setLabels(on.placed.map(({ label }) => label));
}

function applyMoment(on: Standing): void {
  const { aircraft, sky, sunlight, daylight } = on;
  const { attitude, sun, light } = on.moment;
  aircraft?.root.rotation.set(...attitudeTurns(attitude), 'YXZ');
  aircraft?.setLight(light);
  sky?.setSun(sun);
  sky?.setHeading(attitude.heading);
  sky?.showSun(!fromSun(on));
  const up = sun?.[2] ?? 0;
  sunlight.intensity = up > 0 ? 1.9 * Math.min(1, 0.4 + up * 2) : 0;
  daylight.intensity = up > 0 ? 1.7 : 1.2;
  if (sun !== undefined) sunlight.position.set(...skyToScene(sun));
  refreshLabels(on);
  invalidate(on);
}

function applyColours(on: Standing, canvas: HTMLCanvasElement): void {
  const colours = coloursAt(canvas);
  on.aircraft?.setColours(colours);
  on.sky?.setColours(colours);
  invalidate(on);
}

function applyShape(on: Standing, shape: ShapeView, profiles: Readonly<Record<string, Profile>>): void {
  on.aircraft?.release();
  on.sky?.release();
  on.shape = shape;
  on.aircraft = aircraftModel(shape, profiles);
  on.aircraft.showMasses(on.withMasses);
  const { radius, drop } = skySize(on.aircraft);
  on.sky = skyModel(radius, drop);
  on.sky.setPath(on.path);
  on.scene.add(on.sky.root, on.aircraft.root);
}

function applyTurn(on: Standing, by: Parameters<Stage['turn']>[0]): void {
  const leaves = on.named === 'sun';
  on.change = undefined;
  on.named = undefined;
  on.orbit = turned(on.orbit, by);
  if (leaves) applyMoment(on);
  else invalidate(on);
}

/** What may be changed on a stage. */
const changesOf = (on: Standing, canvas: HTMLCanvasElement): Omit<Stage, 'release'> => ({
  setShape: (shape, profiles) => {
    applyShape(on, shape, profiles);
    applyColours(on, canvas);
    applyMoment(on);
  },
  setBalance: (balance) => {
    on.balance = balance;
    refreshLabels(on);
    invalidate(on);
  },
  setPath: (path) => {
    on.path = path;
    on.sky?.setPath(path);
    refreshLabels(on);
    invalidate(on);
  },
  setMoment: (moment) => {
    on.moment = moment;
    applyMoment(on);
  },
  showMasses: (shown) => {
    on.withMasses = shown;
    on.aircraft?.showMasses(shown);
    invalidate(on);
  },
  look: (view) => {
    on.change = wantsStillness() ? undefined : { from: on.orbit, start: performance.now() };
    on.named = view;
    applyMoment(on);
  },
  turn: (by) => applyTurn(on, by),
});

/** Draws only when something changed, and never while it cannot be seen. Undefined where the browser has no WebGL 2. */
export function createStage({ canvas, labels, onLost }: StageHosts): Stage | undefined {
  const picture = pictureOn(canvas);
  if (picture === undefined) return undefined;
  const on = emptyStage(picture, labels);
  on.watch = watchCanvas(canvas, {
    onSize: (size) => {
      picture.setSize(size);
      cancelAnimationFrame(on.frame);
      draw(on, performance.now());
    },
    onSeen: () => invalidate(on),
    onLost,
  });
  const stopColours = watchColours(() => applyColours(on, canvas));
  return {
    ...changesOf(on, canvas),
    release: () => {
      cancelAnimationFrame(on.frame);
      clearTimeout(on.rest);
      on.watch?.release();
      stopColours();
      on.aircraft?.release();
      on.sky?.release();
      on.words.release();
      picture.release();
    },
  };
}
