import { DirectionalLight, HemisphereLight, PerspectiveCamera, Scene, WebGLRenderer } from 'three';
import type { BalanceView, ShapeView } from '../../core/view.js';
import { type AircraftModel, aircraftModel } from './aircraft-model.js';
import { fieldOfView, onPicture, placeCamera } from './camera.js';
import { coloursAt, watchColours } from './colours.js';
import { type Attitude, attitudeTurns, skyToScene, type Vector } from './frames.js';
import type { Profile } from './geometry.js';
import { labelsOf, type PlacedLabel } from './labels.js';
import { type NamedView, type Orbit, orbitBetween, orbitOf, turned } from './orbit.js';
import { overlay } from './overlay.js';
import { type SkyModel, skyModel } from './sky-model.js';
import type { SunPath } from './sun-path.js';
import { watchCanvas } from './watch-canvas.js';

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

/** More dots than this per px cost more than they show. */
const mostDots = 2;
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

/** Draws only when something changed, and never while it cannot be seen. Undefined where the browser has no WebGL 2. */
export function createStage({ canvas, labels, onLost }: StageHosts): Stage | undefined {
  const context = canvas.getContext('webgl2', { antialias: true, alpha: true, powerPreference: 'low-power' });
  if (context === null) return undefined;
  const renderer = new WebGLRenderer({ canvas, context });
  renderer.setClearColor(0x000000, 0);
  const scene = new Scene();
  const camera = new PerspectiveCamera(fieldOfView, 1, 0.01, 100);
  const sunlight = new DirectionalLight(0xffffff, 0);
  const daylight = new HemisphereLight(0xffffff, 0xd8d0c0, 2);
  scene.add(sunlight, daylight);
  const words = overlay(labels);

  let aircraft: AircraftModel | undefined;
  let sky: SkyModel | undefined;
  let shape: ShapeView | undefined;
  let balance: BalanceView | undefined;
  let path = emptyPath;
  let moment: Moment = { attitude: { heading: 0, pitch: 0, bank: 0 }, sun: undefined, light: undefined };
  let withMasses = true;
  let named: NamedView | undefined = 'overview';
  let orbit: Orbit = orbitOf('overview', { heading: 0, noon: Math.PI, distance: 1 });
  let change: { readonly from: Orbit; readonly start: number } | undefined;
  let placed: readonly PlacedLabel[] = [];
  let frame = 0;

  const invalidate = () => {
    if (frame === 0 && watch.canDraw()) frame = requestAnimationFrame(draw);
  };

  const target = (): Orbit => {
    if (named === undefined) return orbit;
    const middle = path.spots[Math.floor(path.spots.length / 2)]?.direction;
    const noon = middle === undefined ? Math.PI : Math.atan2(middle[0], middle[1]);
    const sun = moment.sun !== undefined && moment.sun[2] > 0 ? moment.sun : undefined;
    return orbitOf(named, { heading: moment.attitude.heading, noon, sun, distance: orbit.distance });
  };

  function draw(now: number) {
    frame = 0;
    if (!watch.canDraw()) return;
    const wanted = target();
    const share = change === undefined ? 1 : Math.min(1, Math.max(0, (now - change.start) / turning));
    orbit = change === undefined || share >= 1 ? wanted : orbitBetween(change.from, wanted, share);
    if (share >= 1) change = undefined;
    if (aircraft !== undefined) placeCamera(camera, share < 1 ? orbit : wanted, skySize(aircraft), path, watch.size());
    renderer.render(scene, camera);
    const places = new Map(placed.map(({ label, at }) => [label.id, at] as const));
    words.update((id) => onPicture(camera, watch.size(), places.get(id)!), ...watch.size());
    if (change !== undefined) invalidate();
  }

  /** Seen from the sun, the sun and its way would stand before the aircraft. */
  const fromSun = () => named === 'sun' && moment.sun !== undefined && moment.sun[2] > 0;

  const refreshLabels = () => {
    if (aircraft === undefined || shape === undefined) return;
    const { middle } = aircraft;
    const { attitude, sun } = moment;
    const seen = fromSun() ? { path: emptyPath, sun: undefined } : { path, sun };
    placed = labelsOf({ shape, balance, attitude, middle, ...seen, ...skySize(aircraft) });
    words.setLabels(placed.map(({ label }) => label));
  };

  const applyMoment = () => {
    const { attitude, sun, light } = moment;
    aircraft?.root.rotation.set(...attitudeTurns(attitude), 'YXZ');
    aircraft?.setLight(light);
    sky?.setSun(sun);
    sky?.setHeading(attitude.heading);
    sky?.showSun(!fromSun());
    const up = sun?.[2] ?? 0;
    sunlight.intensity = up > 0 ? 1.9 * Math.min(1, 0.4 + up * 2) : 0;
    daylight.intensity = up > 0 ? 1.7 : 1.2;
    if (sun !== undefined) sunlight.position.set(...skyToScene(sun));
    refreshLabels();
    invalidate();
  };

  const applyColours = () => {
    const colours = coloursAt(canvas);
    aircraft?.setColours(colours);
    sky?.setColours(colours);
    invalidate();
  };

  const watch = watchCanvas(canvas, {
    onSize: ([width, height]) => {
      renderer.setPixelRatio(Math.min(mostDots, window.devicePixelRatio || 1));
      renderer.setSize(width, height, false);
      cancelAnimationFrame(frame);
      frame = 0;
      draw(performance.now());
    },
    onSeen: invalidate,
    onLost,
  });
  const stopColours = watchColours(applyColours);
  return {
    setShape: (next, profiles) => {
      aircraft?.release();
      sky?.release();
      shape = next;
      aircraft = aircraftModel(next, profiles);
      aircraft.showMasses(withMasses);
      const { radius, drop } = skySize(aircraft);
      sky = skyModel(radius, drop);
      sky.setPath(path);
      scene.add(sky.root, aircraft.root);
      applyColours();
      applyMoment();
    },
    setBalance: (next) => {
      balance = next;
      refreshLabels();
      invalidate();
    },
    setPath: (next) => {
      path = next;
      sky?.setPath(next);
      refreshLabels();
      invalidate();
    },
    setMoment: (next) => {
      moment = next;
      applyMoment();
    },
    showMasses: (shown) => {
      withMasses = shown;
      aircraft?.showMasses(shown);
      invalidate();
    },
    look: (view) => {
      change = wantsStillness() ? undefined : { from: orbit, start: performance.now() };
      named = view;
      applyMoment();
    },
    turn: (by) => {
      change = undefined;
      const leaves = named === 'sun';
      named = undefined;
      orbit = turned(orbit, by);
      if (leaves) applyMoment();
      else invalidate();
    },
    release: () => {
      cancelAnimationFrame(frame);
      watch.release();
      stopColours();
      aircraft?.release();
      sky?.release();
      words.release();
      renderer.dispose();
      // Browsers keep only some contexts alive: this one is given back at once.
      if (!context.isContextLost()) renderer.forceContextLoss();
    },
  };
}
