import { computedSections, editDesign, readDesign, readStoredText } from '../packages/design/dist/index.js';
import { createStages, shareUnchanged, verdict } from '../packages/verdict/dist/index.js';
import { aircraftOf, exampleText, hasExample, planOf } from './examples.mjs';
import { atMost, kept, measure, stopwatch } from './measure.mjs';

/**
 * The text of a file with one value changed.
 * @param {string} text
 * @param {string} path
 * @param {string} value
 */
function edited(text, path, value) {
  const result = editDesign(readDesign(text).document, path, value);
  if (!result.ok) throw new Error(`${path}: ${result.reason}`);
  return result.text;
}

/** Computed polars of the examples, as every command and the page fly with them. */
function computed() {
  const stored = hasExample('polars.json') ? readStoredText(exampleText('polars.json')) : undefined;
  return stored === undefined ? {} : { computed: computedSections(stored, 'polars.json') };
}

/** Edits before those that count. */
const warming = 40;

/**
 * Durations of central verdicts [s], each of another edit; the files are completed, but not read from text.
 * @param {number} count
 * @param {(i: number) => { aircraft: ReturnType<typeof aircraftOf>, plan: ReturnType<typeof planOf> }} edit
 */
function editTimes(count, edit) {
  const stages = createStages();
  const sections = computed();
  const options = { samples: 0, contributions: false };
  const next = Array.from({ length: count + warming }, (_, i) => edit(i));
  let current = edit(0);
  kept.sink = verdict(current.aircraft, current.plan, sections, stages, options);
  const durations = next.map((files) => {
    const read = stopwatch();
    current = shareUnchanged(current, files);
    kept.sink = verdict(current.aircraft, current.plan, sections, stages, options);
    return read();
  });
  // The first edits still warm up the compiler, as in a page that has been open for a while.
  const sorted = durations.slice(warming).sort((a, b) => a - b);
  return { median: sorted[Math.floor(count / 2)] ?? 0, high: sorted[Math.floor(0.95 * count)] ?? 0 };
}

/** A verdict after an edit, and its uncertainty, with everything else remembered. */
export default function edits() {
  if (!hasExample('alondra.yaml')) return [];
  const text = exampleText('alondra.yaml');
  const planText = exampleText('alondra.day.yaml');
  const plan = planOf(planText);
  const aircraft = aircraftOf(text);
  const sections = computed();
  const options = { samples: 0, contributions: false };
  const fresh = measure(() => verdict(aircraft, plan, sections, createStages(), options)).median;
  const design =
    (/** @type {string} */ path, /** @type {(i: number) => string} */ value) => (/** @type {number} */ i) => ({
      aircraft: aircraftOf(edited(text, path, value(i))),
      plan,
    });
  const day =
    (/** @type {string} */ path, /** @type {(i: number) => string} */ value) => (/** @type {number} */ i) => ({
      aircraft,
      plan: planOf(edited(planText, path, value(i))),
    });
  const battery = editTimes(
    50,
    design('battery.x', (i) => `${(-60 + 1.3 * i).toFixed(1)} mm`),
  );
  const wing = editTimes(
    20,
    design('surfaces.wing.stations[1].chord', (i) => `${(220 + 0.7 * i).toFixed(1)} mm`),
  );
  const warmer = editTimes(
    50,
    day('temperature', (i) => `${(15 + 0.2 * i).toFixed(1)} degC`),
  );
  const later = editTimes(
    50,
    day('launch', (i) => `08:${String(i % 60).padStart(2, '0')}`),
  );
  const stages = createStages();
  const sampling = (/** @type {number} */ samples, /** @type {number} */ sampleStep) =>
    measure(() => verdict(aircraft, plan, sections, stages, { samples, sampleStep }), { seconds: 2, least: 3 }).median;
  const uncertainty = sampling(128, 1200);
  const thousand = sampling(1000, 1200);
  const reference = { name: 'the same verdict with nothing remembered', value: fresh * 1000, unit: 'ms' };
  const edit = (
    /** @type {string} */ what,
    /** @type {{ high: number }} */ { high },
    /** @type {number} */ count,
    /** @type {number} */ budget,
  ) =>
    atMost({
      name: `edit of the ${what} to central verdict, three skies, 95th percentile of ${count}`,
      value: high * 1000,
      unit: 'ms',
      reference: { ...reference, ratio: fresh / high },
      budget,
    });
  return [
    edit('battery place', battery, 50, 16),
    edit('temperature', warmer, 50, 16),
    edit('launch hour', later, 50, 16),
    edit('wing geometry', wing, 20, 150),
    atMost({
      name: 'uncertainty after an edit, 128 samples, three skies, one core',
      value: uncertainty * 1000,
      unit: 'ms',
      reference: { ...reference, ratio: fresh / uncertainty },
      budget: 1000,
    }),
    atMost({
      name: '1000-sample uncertainty of a day at 20-minute steps, three skies, one core (budget for two)',
      value: thousand,
      unit: 's',
      reference: { ...reference, value: fresh, unit: 's', ratio: fresh / thousand },
      budget: 2,
    }),
  ];
}
