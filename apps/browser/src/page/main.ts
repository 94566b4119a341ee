import {
  type BrowserWorkerLike,
  browserWorkerPort,
  createPool,
  type FromWorker,
  type Notice,
  type ToWorker,
} from '@noonwing/work';
import type { DayAnswer, DayRequest, DayResult, LeversResult } from '../answer.js';
import { createAsker, type Progress } from '../asker.js';
import { chargeChart } from '../drawing/charge-chart.js';
import { dayChart } from '../drawing/day-chart.js';
import { fieldKinds } from '../field-checks.js';
import { planEdits, writtenValue } from '../plan-text.js';
import { noticeText, progressText } from '../status.js';
import { summaryText } from '../words.js';
import { chartView } from './chart-view.js';
import { createEditor } from './editor.js';
import { element } from './elements.js';
import { type Example, examples } from './examples.js';
import { createFields, type Fields } from './fields.js';
import { leversView } from './levers-view.js';
import { assumptionsView, contributionsView, ledgerView } from './tables-view.js';
import { factsView, findingView, verdictView } from './verdict-view.js';

const samples = 128;
/** Pause in the edits after which the uncertainty is asked for [ms]. */
const pause = 200;
/** A worker that goes on with an unwanted answer is let finish this long: ending it would lose what it remembers [ms]. */
const grace = 4000;

const startPool = () =>
  createPool<DayRequest, DayAnswer, number>({
    size: 1,
    grace,
    connect: () =>
      browserWorkerPort<ToWorker<DayRequest>, FromWorker<DayAnswer, number>>(
        new Worker(new URL('../worker.ts', import.meta.url), {
          type: 'module',
          name: 'noonwing verdict',
        }) as unknown as BrowserWorkerLike,
      ),
    onNotice: (notice: Notice) => {
      notices.textContent = noticeText(notice);
    },
  });

const page = document.getElementById('page')!;
const notices = element('p', { class: 'notices', role: 'status' });
const status = element('p', { class: 'status' });
const summary = element('p', { class: 'unseen', role: 'status' });
const bar = element('progress', { max: '1', value: '0', 'aria-label': 'Share computed' });
const stop = element('button', { type: 'button' }, 'Stop');
const planMessages = element('div', { class: 'messages', role: 'status' });
const answer = element('div', { class: 'answer-part' });
const charts = element('div', { class: 'charts' });
const facts = element('section', { class: 'facts-part' });
const changes = element('section', { class: 'tables' });
const ledger = element('section', { class: 'tables' });
const contributions = element('section', { class: 'tables' });
const assumptions = element('section', { class: 'tables' });

/** What was written for each example, so that going to another and back loses nothing. */
const kept = new Map<Example, { design: string; fields: ReturnType<Fields['contents']> }>();
let current = examples[0]!;
let shown: DayResult | undefined;
/** Text of the design before a lever was applied. */
let beforeLever: string | undefined;

const central = startPool();
const sampling = startPool();
const asker = createAsker({
  central,
  sampling,
  samples,
  onAnswer: showAnswer,
  onProgress: showProgress,
  afterPause: (action) => {
    const timer = setTimeout(action, pause);
    return () => clearTimeout(timer);
  },
});

const editor = createEditor(ask, () => choose(current, true));
const fields = createFields(ask);

const question = () => ({
  design: editor.text(),
  plan: current.plan,
  edits: planEdits(current.plan, fields.values()),
});

function ask(): void {
  asker.ask(question());
}

/** Shows what would help most; undefined where it was not asked for yet. */
function showLevers(found: LeversResult | undefined): void {
  const actions = {
    compare: () => asker.compare(question()),
    apply: (text: string) => {
      beforeLever = editor.text();
      editor.setText(text);
      ask();
    },
    takeBack:
      beforeLever === undefined
        ? undefined
        : () => {
            editor.setText(beforeLever ?? editor.text());
            beforeLever = undefined;
            ask();
          },
  };
  changes.replaceChildren(...leversView(found, actions));
}

function choose(example: Example, afresh: boolean): void {
  if (example !== current) kept.set(current, { design: editor.text(), fields: fields.contents() });
  current = example;
  beforeLever = undefined;
  const before = afresh ? undefined : kept.get(example);
  editor.setText(before?.design ?? example.design);
  if (before === undefined) fields.fill(planValues(example.plan));
  else fields.restore(before.fields);
  ask();
}

const planValues = (plan: string): Record<string, string> =>
  Object.fromEntries(fieldKinds.map(({ key, path }) => [key, writtenValue(plan, path.at(-1)!)]));

function showProgress(progress: Progress): void {
  document.documentElement.dataset.state = progress.kind;
  status.textContent = progressText(progress);
  const isLong = progress.kind === 'sampling' || progress.kind === 'comparing';
  bar.hidden = !isLong;
  stop.hidden = !isLong;
  if (isLong) bar.value = progress.share;
  answer.classList.toggle('old', progress.kind === 'unreadable' || progress.kind === 'failed');
  if (progress.kind === 'stopped') contributions.replaceChildren();
}

function showAnswer(given: DayAnswer): void {
  editor.showMessages(given.design);
  showPlanMessages(given);
  const { result, levers } = given;
  if (levers !== undefined) showLevers(levers);
  if (result === undefined) return;
  shown = result;
  summary.textContent = summaryText(result);
  answer.replaceChildren(...verdictView(result));
  facts.replaceChildren(...factsView(result));
  ledger.replaceChildren(...ledgerView(result));
  // The central case comes without them: the last ones stay until the new ones are there.
  if (result.samples > 0) contributions.replaceChildren(...contributionsView(result));
  assumptions.replaceChildren(assumptionsView(result));
  if (result.samples === 0) showLevers(undefined);
  drawCharts();
  performance.mark(result.samples > 0 ? 'sure verdict' : 'central verdict', { detail: given.milliseconds });
}

/** Findings in the plan go to their field; those without a field stand below. */
function showPlanMessages({ plan }: DayAnswer): void {
  const rest = plan.filter((message) => {
    const kind = fieldKinds.find(({ path }) => path.join('.') === message.path);
    if (kind !== undefined) fields.showFault(kind.key, message.text);
    return kind === undefined;
  });
  planMessages.replaceChildren(
    ...rest.map(({ text, path }) =>
      findingView({ text: path === '' ? text : `${path}: ${text}`, where: '', remedy: '' }, 'warning'),
    ),
  );
}

function drawCharts(): void {
  if (shown === undefined || shown.skies.length === 0) {
    charts.replaceChildren();
    return;
  }
  const width = Math.max(260, Math.min(760, Math.floor(charts.clientWidth) - 2));
  const views = [chartView('day', dayChart(shown, width))];
  if (shown.hasBattery) views.push(chartView('charge', chargeChart(shown, width)));
  charts.replaceChildren(...views);
}

function exampleChoice(): HTMLElement {
  const options = examples.map((example, i) => {
    const input = element('input', { type: 'radio', name: 'example', id: `example-${i}` });
    input.checked = example === current;
    input.addEventListener('change', () => choose(example, false));
    return element(
      'div',
      { class: 'choice' },
      input,
      element('label', { for: input.id }, element('b', {}, example.name), ` ${example.about}`),
    );
  });
  return element(
    'fieldset',
    { class: 'examples' },
    element('legend', {}, 'Aircraft (invented for the demo)'),
    ...options,
  );
}

function build(): void {
  stop.addEventListener('click', () => asker.stop());
  stop.hidden = true;
  bar.hidden = true;
  page.replaceChildren(
    element(
      'section',
      { class: 'choosing', 'aria-label': 'Aircraft, place and day' },
      exampleChoice(),
      element('fieldset', { class: 'day' }, element('legend', {}, 'Place and day'), fields.root, planMessages),
    ),
    element(
      'section',
      { id: 'verdict', class: 'verdict', tabindex: '-1', 'aria-labelledby': 'verdict-heading' },
      element('h2', { id: 'verdict-heading' }, 'The verdict'),
      element('div', { class: 'progress' }, status, bar, stop),
      notices,
      summary,
      answer,
      charts,
      changes,
      facts,
      ledger,
      contributions,
      assumptions,
      cautions(),
    ),
    editor.root,
  );
  let lastWidth = 0;
  new ResizeObserver(() => {
    if (charts.clientWidth === lastWidth) return;
    lastWidth = charts.clientWidth;
    drawCharts();
  }).observe(charts);
}

const cautions = (): HTMLElement =>
  element(
    'section',
    { class: 'cautions' },
    element('h2', {}, 'Cautions'),
    element(
      'p',
      {},
      'This is computed energy, not a permission to fly. It does not know gusts, radio range, people below or the rules of the place. Weigh and balance the real aircraft, run motor and cells on the bench, and keep enough charge to come home without sun.',
    ),
  );

build();
central.warm();
sampling.warm();
choose(current, true);
