import type { LaterJobs } from './job.js';

/** Each is loaded when it is first asked for: most visits measure nothing. */
export const laterJobs: LaterJobs = {
  power: () => import('./view-power.js'),
  levers: () => import('./view-levers.js'),
  layouts: () => import('./view-layouts.js'),
  sweep: () => import('./view-sweep.js'),
  array: () => import('./view-array.js'),
  bench: () => import('./view-bench.js'),
  limits: () => import('./view-limits.js'),
  underLoad: () => import('./view-under-load.js'),
  stiffenings: () => import('./view-stiffenings.js'),
  section: () => import('./view-section.js'),
  sectionShape: () => import('./view-section-shape.js'),
  flats: () => import('./view-flats.js'),
  polars: () => import('./view-polars.js'),
  figure: () => import('./view-figure.js'),
};
