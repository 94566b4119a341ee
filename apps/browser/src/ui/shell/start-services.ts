import { browserTabs, keepForGood, openBrowserStorage } from '../../core/browser-storage.js';
import { canOpenFolders } from '../../core/can-open-folders.js';
import { type Compute, shownVerdict } from '../../core/compute.js';
import { measuredOf } from '../../core/measured-file.js';
import type { ComputeInput } from '../../core/messages.js';
import { createShown } from '../../core/shown.js';
import { type AppState, activeOf, type CompareSlot } from '../../core/state.js';
import { type AppStore, createAppStore, sectionsOf } from '../../core/store.js';
import type { Services } from '../kit/services.js';
import { announce } from './announce.js';
import { examples } from './examples.js';
import { afterTime, startComputing } from './start-workers.js';

/** Longest wait for the answer to an edit before it is drawn without it [ms]: not seen as a delay, and most answers are there. */
const longestHold = 24;

/** Samples of the uncertainty. */
const samples = 128;

function inputOf(state: AppState): ComputeInput | null {
  const { project, design, plan } = activeOf(state);
  return project === undefined || design === undefined || plan === undefined
    ? null
    : { design, plan, sections: sectionsOf(project), ...measuredOf(project, project.design) };
}

/** The texts of what is set beside the active design; its own plan where it has none. */
function compareInput(state: AppState, slot: CompareSlot | undefined): ComputeInput | null {
  if (slot === undefined) return null;
  if (slot.kind === 'remembered') return { design: slot.design, plan: slot.plan, sections: slot.sections };
  const project = state.work.projects[slot.project];
  const design = project?.files[slot.design];
  const plan = (slot.plan === undefined ? undefined : project?.files[slot.plan]) ?? activeOf(state).plan;
  return project === undefined || design === undefined || plan === undefined
    ? null
    : { design, plan, sections: sectionsOf(project), ...measuredOf(project, slot.design) };
}

/** Keeps the computing at what the state shows: files, compared files, hour, heading and sky. */
function follow(app: AppStore, compute: Compute, compare: Compute): void {
  let work: AppState['work'] | undefined;
  const askHour = () => {
    const { ui } = app.store.getState();
    const sky = shownVerdict(compute.store.getState())?.skies[ui.sky];
    const hour = ui.hour ?? sky?.bestRatioAt;
    compute.want({ hour: hour === undefined || sky === undefined ? null : { sky: ui.sky, hour, heading: ui.heading } });
  };
  let isRead = false;
  const look = (state: AppState) => {
    if (!isRead) return;
    if (state.work !== work) {
      // The answer of another aircraft must not stand in for one that cannot be computed.
      if (work !== undefined && work.current !== state.work.current) compute.setInput(null);
      work = state.work;
      compute.setInput(inputOf(state));
      compare.setInput(compareInput(state, state.work.compare));
    }
    compute.want({ levers: { sky: state.ui.sky } });
    askHour();
  };
  compute.want({ samples: { count: samples }, limits: {}, polars: {}, newPolars: {} });
  compare.want({ samples: { count: samples }, polars: {}, newPolars: {} });
  app.store.subscribe(look);
  // A new verdict may move the best hour of the day, where the hour was not chosen.
  let seen: unknown;
  compute.store.subscribe(({ channels }) => {
    if (channels.verdict.view === seen) return;
    seen = channels.verdict.view;
    queueMicrotask(askHour);
  });
  void app.read.then(() => {
    isRead = true;
    look(app.store.getState());
  });
}

/** Once, when the first verdict stands: what it does must not make the answer wait. */
function afterVerdict(compute: Compute, action: () => void): void {
  if (shownVerdict(compute.store.getState()) !== undefined) {
    action();
    return;
  }
  const stop = compute.store.subscribe((state) => {
    if (shownVerdict(state) === undefined) return;
    stop();
    action();
  });
}

const offerFolders = (services: Services): void => void import('./folders.js').then((m) => m.offerFolders(services));

/** Everything behind the page: store, storage, workers. */
export async function startServices(): Promise<Services> {
  const { compute, compare } = startComputing();
  const storage = await openBrowserStorage().catch(() => undefined);
  const tabs = browserTabs();
  const app = createAppStore({
    now: Date.now,
    newId: () => crypto.randomUUID(),
    examples,
    ...(storage === undefined ? {} : { storage }),
    ...(tabs === undefined ? {} : { tabs }),
  });
  const shown = createShown(app.store, compute.store, afterTime(longestHold));
  follow(app, compute, compare);
  void app.started.then(keepForGood);
  const services = { app, compute, compare, shown, announce };
  if (canOpenFolders()) void app.started.then(() => afterVerdict(compute, () => offerFolders(services)));
  return services;
}
