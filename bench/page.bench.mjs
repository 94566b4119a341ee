/** The page in a real browser: first load, first verdict, edits, and frames while the hour is dragged. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { findBrowser, howToGetBrowser, launchOptions } from '../scripts/find-browser.mjs';
import { createPageServer, listen } from '../scripts/page-server.mjs';
import { root } from '../scripts/tools.mjs';
import { atMost, forInformation, notMeasured } from './measure.mjs';

const built = join(root, 'apps/browser/dist');

/** @typedef {import('playwright-core').Page} Page */

const names = {
  load: 'first load: all script that the verdict needs, worker included, compressed',
  first: 'first verdict of the demo in the browser, from the address to the words',
  balance: 'edit of the battery place to central verdict in the browser, asked and answered, 95th percentile of 30',
  balanceDrawn: 'the same until the page has drawn it',
  wing: 'edit of the wing to central verdict in the browser, asked and answered, 95th percentile of 15',
  wingDrawn: 'the same until the page has drawn it',
  frames: 'frames while the hour is dragged, 95th percentile',
};

/** @param {readonly number[]} values @param {number} part */
const quantile = (values, part) =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(part * values.length))] ?? Number.NaN;

/** Scripts that a script imports before it runs, itself included. @param {string} name @param {Set<string>} [found] */
function closure(name, found = new Set()) {
  if (found.has(name)) return found;
  found.add(name);
  const text = readFileSync(join(built, 'assets', name), 'utf8');
  // What import() asks for has a bracket, and comes later.
  for (const [, other] of text.matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g)) closure(String(other), found);
  return found;
}

/** @param {Iterable<string>} names */
const compressed = (names) =>
  [...names].reduce((sum, name) => sum + gzipSync(readFileSync(join(built, 'assets', name)), { level: 9 }).length, 0) /
  1000;

/**
 * What the verdict needs: every other script is held back until its words stand there, so that they prove it.
 * @param {Page} page @param {string} address
 */
async function firstLoad(page, address) {
  const entry = /src="\.\/assets\/([^"]+\.js)"/.exec(readFileSync(join(built, 'index.html'), 'utf8'))?.[1] ?? '';
  const worker = readdirSync(join(built, 'assets')).find((name) => /^worker-.*\.js$/.test(name)) ?? '';
  const needed = closure(entry);
  closure(worker, needed);
  /** @type {(() => void)[]} */
  const held = [];
  let isShown = false;
  /** @type {Set<string>} */
  const asked = new Set();
  await page.route('**/assets/*.js', async (route) => {
    const name = new URL(route.request().url()).pathname.split('/').at(-1) ?? '';
    if (!isShown) asked.add(name);
    if (!isShown && !needed.has(name)) await new Promise((resolve) => held.push(() => resolve(undefined)));
    await route.continue();
  });
  await page.goto(address, { waitUntil: 'commit' });
  await page.locator('#verdict [data-sky="0"]').waitFor();
  isShown = true;
  for (const release of held) release();
  return { needed: compressed(needed), count: needed.size, asked: compressed(asked) };
}

/** From the address to the words of the verdict, nothing held back [s]. @param {Page} page @param {string} address */
async function firstVerdict(page, address) {
  const start = performance.now();
  await page.goto(address, { waitUntil: 'commit' });
  await page.locator('#verdict [data-sky="0"]').waitFor();
  return (performance.now() - start) / 1000;
}

/** Notes how long the workers take for each central verdict, question and answer passed over included. @param {Page} page */
const noteWorkers = (page) =>
  page.addInitScript(() => {
    const state = /** @type {{ verdicts: number[] }} */ (/** @type {unknown} */ (window));
    state.verdicts = [];
    const Original = Worker;
    window.Worker = class extends Original {
      /** @param {string | URL} address @param {WorkerOptions} [options] */
      constructor(address, options) {
        super(address, options);
        /** @type {Map<number, number>} */
        const begun = new Map();
        const post = this.postMessage.bind(this);
        this.postMessage = (/** @type {any} */ message, /** @type {any} */ ...rest) => {
          const { kind, job, request } = message;
          if (kind === 'start' && request.kind === 'verdict' && request.samples === 0)
            begun.set(job, performance.now());
          post(message, ...rest);
        };
        this.addEventListener('message', ({ data }) => {
          const start = begun.get(data.job);
          if (data.kind === 'done' && start !== undefined) state.verdicts.push((performance.now() - start) / 1000);
        });
      }
    };
  });

/**
 * Times from Enter in a field to the next verdict whose words are drawn, and what its worker took of them [s].
 * @param {Page} page @param {string} path @param {readonly string[]} values
 */
async function edits(page, path, values) {
  await page.locator(`main [data-path="${path}"]`).first().waitFor();
  return page.evaluate(
    async ({ selector, texts }) => {
      const input = /** @type {HTMLInputElement} */ (document.querySelector(selector));
      const verdict = /** @type {HTMLElement} */ (document.querySelector('#verdict'));
      const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
      const setText = /** @type {(text: string) => void} */ (
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set
      );
      const isOld = () => (verdict.textContent ?? '').includes('how sure: being computed');
      // Edits after a rest: nothing else is being computed when one begins.
      const isQuiet = async () => {
        const busy = /being computed|being looked for|being tried/i;
        while (busy.test(document.body.textContent ?? '')) await frame();
      };
      const state = /** @type {{ verdicts: number[] }} */ (/** @type {unknown} */ (window));
      state.verdicts.length = 0;
      /** @type {number[]} */
      const times = [];
      for (const text of texts) {
        await isQuiet();
        input.focus();
        setText.call(input, text);
        input.dispatchEvent(new Event('input', { bubbles: true }));
        await frame();
        const start = performance.now();
        input.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
        // A fresh central verdict has no samples yet, and says so.
        while (!isOld() && performance.now() - start < 5000) await new Promise((resolve) => setTimeout(resolve, 1));
        await frame();
        times.push((performance.now() - start) / 1000);
      }
      return { drawn: times, worker: [...state.verdicts] };
    },
    { selector: `main [data-path="${path}"]`, texts: [...values] },
  );
}

/** Times between frames while the pointer goes along the day band, and of a page that does nothing [s]. @param {Page} page */
async function frames(page) {
  const record = () =>
    page.evaluate(() => {
      const state = /** @type {{ times?: number[], stop?: boolean }} */ (/** @type {unknown} */ (window));
      state.times = [];
      state.stop = false;
      const tick = (/** @type {number} */ at) => {
        state.times?.push(at);
        if (!state.stop) requestAnimationFrame(tick);
      };
      requestAnimationFrame(tick);
    });
  const stop = () =>
    page.evaluate(() => {
      const state = /** @type {{ times?: number[], stop?: boolean }} */ (/** @type {unknown} */ (window));
      state.stop = true;
      const times = state.times ?? [];
      return times.slice(1).map((at, i) => (at - (times[i] ?? at)) / 1000);
    });
  await record();
  await page.waitForTimeout(1000);
  const idle = await stop();
  const box = await page.locator('#day-band').boundingBox();
  if (box === null) throw new Error('there is no day band');
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + 0.2 * box.width, y);
  await page.mouse.down();
  await record();
  for (let i = 0; i < 180; i += 1) {
    await page.mouse.move(box.x + box.width * (0.2 + 0.6 * Math.abs(Math.sin(i / 28))), y);
    await page.waitForTimeout(8);
  }
  const moving = await stop();
  await page.mouse.up();
  return { idle, moving };
}

/** @param {Page} page */
async function quiet(page) {
  await page.locator('#verdict [data-state="done"]').waitFor({ state: 'attached' });
  await page.waitForFunction(() => !/being computed|being looked for/.test(document.body.textContent ?? ''));
}

/** @param {Page} page @param {string} place @param {string} part */
async function open(page, place, part) {
  await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: place }).click();
  await page
    .getByRole('navigation', { name: `Parts of ${place}` })
    .getByRole('button', { name: part })
    .click();
}

/** @param {string} executable @param {string} address */
async function measured(executable, address) {
  const { chromium } = await import('playwright-core');
  const browser = await chromium.launch(launchOptions(executable));
  try {
    const fresh = () => browser.newPage({ viewport: { width: 1280, height: 900 }, serviceWorkers: 'block' });
    const first = await fresh();
    const load = await firstLoad(first, address);
    await first.close();
    const page = await fresh();
    await noteWorkers(page);
    const seconds = await firstVerdict(page, address);
    await quiet(page);
    await open(page, 'Design', 'Balance');
    const balance = await edits(
      page,
      'battery.x',
      Array.from({ length: 30 }, (_, i) => `${10 - i} mm`),
    );
    await open(page, 'Design', 'Airframe');
    const chord = 'surfaces.wing.stations[2].chord';
    const wing = await edits(
      page,
      chord,
      Array.from({ length: 15 }, (_, i) => `${235 + i} mm`),
    );
    await quiet(page);
    const moved = await frames(page);
    const blank = await fresh();
    const start = performance.now();
    await blank.goto(`${address}icon.svg`);
    const bare = (performance.now() - start) / 1000;
    return { load, seconds, balance, wing, moved, bare };
  } finally {
    await browser.close();
  }
}

export default async function page() {
  const executable = findBrowser();
  if (executable === undefined) return Object.values(names).map((name) => notMeasured(name, howToGetBrowser()));
  if (!existsSync(join(built, 'index.html'))) {
    return Object.values(names).map((name) => notMeasured(name, 'The page is not built: npm run build.'));
  }
  const server = createPageServer({ page: built, examples: join(root, 'examples') });
  const port = await listen(server, 0, 0);
  try {
    const found = await measured(executable, `http://127.0.0.1:${port}/`);
    return rows(found);
  } finally {
    server.close();
    server.closeAllConnections();
  }
}

/**
 * @param {{ drawn: readonly number[], worker: readonly number[] }} times
 * @param {number} whole the first verdict of this run [s]
 * @param {{ name: string, drawnName: string, budget: number }} of
 */
function editRows({ drawn, worker }, whole, { name, drawnName, budget }) {
  const reference = { name: 'the first verdict of this run, from the address', value: whole, unit: 's' };
  const [high, shown] = [quantile(worker, 0.95), quantile(drawn, 0.95)];
  return [
    atMost({ name, value: high * 1000, unit: 'ms', reference: { ...reference, ratio: whole / high }, budget }),
    forInformation({
      name: `${drawnName} (in the middle ${Math.round(1000 * quantile(drawn, 0.5))} ms)`,
      value: shown * 1000,
      unit: 'ms',
      reference: { ...reference, ratio: whole / shown },
    }),
  ];
}

/** @param {Awaited<ReturnType<typeof measured>>} found */
function rows({ load, seconds, balance, wing, moved, bare }) {
  const idle = quantile(moved.idle, 0.95);
  const p95 = quantile(moved.moving, 0.95);
  // A frame of 60 Hz and the resolution of the clock.
  const share = moved.moving.filter((time) => time <= 0.0175).length / moved.moving.length;
  return [
    atMost({
      name: `${names.load} (${load.count} files)`,
      value: load.needed,
      unit: 'kB',
      reference: {
        name: 'all script asked for until then',
        value: load.asked,
        unit: 'kB',
        ratio: load.asked / load.needed,
      },
      budget: 300,
    }),
    forInformation({
      name: names.first,
      value: seconds,
      unit: 's',
      reference: { name: 'opening a picture of the same server', value: bare, unit: 's', ratio: bare / seconds },
    }),
    ...editRows(balance, seconds, { name: names.balance, drawnName: names.balanceDrawn, budget: 16 }),
    ...editRows(wing, seconds, { name: names.wing, drawnName: names.wingDrawn, budget: 150 }),
    forInformation({
      name: `${names.frames}; ${Math.round(share * 100)} % of ${moved.moving.length} within a frame of 60 Hz`,
      value: p95 * 1000,
      unit: 'ms',
      reference: { name: 'frames of the page at rest', value: idle * 1000, unit: 'ms', ratio: idle / p95 },
    }),
  ];
}
