import { type Camera, type Scene, WebGLRenderer } from 'three';

/** Frames closer than this [ms] are a movement: they may be coarse, and a fine one follows when it is over. */
export const restAfter = 180;

/** Dots per px of CSS. */
interface Fineness {
  readonly atRest: number;
  readonly moving: number;
}

/**
 * How fine to draw. With a graphics unit: more dots than two per px cost more than they show. Without one the processor paints
 * each dot, and edges are not smoothed: more dots at rest instead, few while it moves.
 * software - the browser has no graphics unit to draw with; dots - of the screen per px
 */
export const fineness = (software: boolean, dots: number): Fineness => {
  if (software) return { atRest: Math.min(2, Math.max(1.5, dots)), moving: 0.7 };
  const atRest = Math.min(2, dots);
  return { atRest, moving: Math.min(1, atRest) };
};

/** A canvas that is drawn on. */
export interface Picture {
  readonly setSize: (size: readonly [width: number, height: number]) => void;
  /** Draws at a time [ms]; true where it was drawn coarse because a movement goes on. */
  readonly draw: (scene: Scene, camera: Camera, now: number) => boolean;
  readonly release: () => void;
}

/** Names of what stands in for a graphics unit; from memory of what browsers report. */
export const isSoftware = (renderer: string): boolean =>
  /swiftshader|llvmpipe|softpipe|software|basic render/i.test(renderer);

/** Whether the processor has to stand in for a graphics unit: asked of a context of its own, as smoothing is chosen before one is made. */
function drawsInSoftware(): boolean {
  const probe = document.createElement('canvas').getContext('webgl2');
  if (probe === null) return false;
  const named = probe.getExtension('WEBGL_debug_renderer_info');
  const renderer = probe.getParameter(named === null ? probe.RENDERER : named.UNMASKED_RENDERER_WEBGL);
  probe.getExtension('WEBGL_lose_context')?.loseContext();
  return isSoftware(String(renderer));
}

/** Draws on a canvas; undefined where the browser has no WebGL 2. */
export function pictureOn(canvas: HTMLCanvasElement): Picture | undefined {
  const software = drawsInSoftware();
  const context = canvas.getContext('webgl2', { alpha: true, antialias: !software, powerPreference: 'low-power' });
  if (context === null) return undefined;
  const renderer = new WebGLRenderer({ canvas, context });
  renderer.setClearColor(0x000000, 0);
  let size: readonly [number, number] = [1, 1];
  let last = Number.NEGATIVE_INFINITY;
  let ratio = 0;
  const setRatio = (next: number) => {
    if (next === ratio) return;
    ratio = next;
    renderer.setPixelRatio(next);
    renderer.setSize(...size, false);
  };
  return {
    setSize: (next) => {
      size = next;
      ratio = 0;
      last = Number.NEGATIVE_INFINITY;
    },
    draw: (scene, camera, now) => {
      const { atRest, moving } = fineness(software, window.devicePixelRatio || 1);
      const isMoving = now - last < restAfter;
      setRatio(isMoving ? moving : atRest);
      renderer.render(scene, camera);
      // A frame of a slow processor takes long itself: what counts is the pause after it.
      last = performance.now();
      return isMoving && moving < atRest;
    },
    release: () => {
      renderer.dispose();
      // Browsers keep only some contexts alive: this one is given back at once.
      if (!context.isContextLost()) renderer.forceContextLoss();
    },
  };
}
