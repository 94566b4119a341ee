/**
 * Pictures of each place for docs: on a desk (1280 px), on a phone (360 px) and in the theme for bright sunlight, with an index
 * and words for those who do not see them. Run after `npm run build`: node builders/pictures.mjs
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { findBrowser, howToGetBrowser, launchOptions } from '../scripts/find-browser.mjs';
import { createPageServer, listen } from '../scripts/page-server.mjs';
import { root } from '../scripts/tools.mjs';

/** @typedef {import('playwright-core').Page} Page */
/** @typedef {{ readonly id: string, readonly place: string, readonly part?: string, readonly title: string, readonly alt: string, readonly to?: string }} Scene */

const folder = join(root, 'docs/pictures');

/** @type {readonly Scene[]} */
const scenes = [
  {
    id: 'choose',
    place: 'Choose',
    title: 'Choose',
    alt: 'projects on this device, the examples, and the questions of a new aircraft',
  },
  {
    id: 'day',
    place: 'Day',
    part: 'Plan',
    title: 'Day: plan',
    alt: 'place with a map, date as months and days, weather and flight',
  },
  {
    id: 'day-light',
    place: 'Day',
    part: 'Light and power',
    title: 'Day: light and power',
    alt: 'the aircraft under the sun of the hour, the day as income against need, charge and ledger',
  },
  {
    id: 'airframe',
    place: 'Design',
    part: 'Airframe',
    title: 'Design: airframe',
    alt: 'the aircraft from above with parts to move, and level power against airspeed',
  },
  {
    id: 'balance',
    place: 'Design',
    part: 'Balance',
    title: 'Design: balance',
    alt: 'the aircraft as a loaded beam in millimetres, with the allowed range of its balance point',
  },
  {
    id: 'structure',
    place: 'Design',
    part: 'Structure',
    title: 'Design: structure',
    alt: 'the limit speed with its reason, every limit as a band, what to stiffen, and the lay-up as a cut',
  },
  {
    id: 'section',
    place: 'Design',
    part: 'Section',
    title: 'Design: section',
    alt: 'what covering the wing section with cells costs in level flight, and where the flow along it is laminar, in a bubble or turbulent',
  },
  {
    id: 'cells',
    place: 'Design',
    part: 'Cells',
    title: 'Design: cells',
    alt: 'every cell on the wing laid flat with the energy of its day, the chosen cell in words, and cells to give to another string',
  },
  {
    id: 'drive',
    place: 'Design',
    part: 'Drive',
    title: 'Design: drive',
    alt: 'how motor and propeller match, with the shares that are lost',
  },
  {
    id: 'battery',
    place: 'Design',
    part: 'Battery',
    title: 'Design: battery',
    alt: 'the pack, its capacity and the charge through the day',
  },
  {
    id: 'measure',
    place: 'Measure',
    title: 'Measure',
    alt: 'what is worth measuring first, and forms for readings from bench and scales',
  },
  {
    id: 'fly',
    place: 'Fly',
    title: 'Fly',
    alt: 'what stands against the first flight, limits in words, and the page to print',
  },
];

/** @type {readonly { id: string, title: string, words: string, width: number, height: number, theme: string, scale: number }[]} */
const looks = [
  { id: 'desk', title: 'Desk', words: 'on a desk', width: 1280, height: 1100, theme: 'light', scale: 1 },
  { id: 'phone', title: 'Phone', words: 'on a phone', width: 360, height: 740, theme: 'light', scale: 1 },
  {
    id: 'sunlight',
    title: 'Sunlight',
    words: 'in the theme for bright sunlight',
    width: 900,
    height: 1250,
    theme: 'sunlight',
    scale: 1,
  },
];

/** Takes a picture; smaller where pngquant is installed, the same to the eye. @param {Page} page @param {string} path */
async function keep(page, path) {
  await page.screenshot({ path });
  spawnSync('pngquant', ['--force', '--skip-if-larger', '--quality', '80-98', '--output', path, path]);
}

/** Waits until nothing is being computed or loaded any more. @param {Page} page */
async function quiet(page) {
  await page.locator('#verdict [data-sky="0"]').waitFor();
  await page.waitForFunction(() => {
    const words = document.body.textContent ?? '';
    return !/being computed|being looked for|is loading|being tried/i.test(words);
  });
  await page.locator('#verdict [data-state="done"]').waitFor({ state: 'attached' });
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
}

/** @param {Page} page @param {Scene} scene @param {boolean} isNarrow */
async function show(page, { place, part }, isNarrow) {
  await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: place, exact: true }).click();
  if (part !== undefined) {
    const parts = page.getByRole('navigation', { name: `Parts of ${place}` });
    await parts.getByRole('button', { name: part, exact: true }).click();
  }
  await page.locator('main section').first().waitFor();
  await quiet(page);
  await page.evaluate((narrow) => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    // On a phone the place itself lies below the day and the verdict.
    if (narrow) document.getElementById('place')?.scrollIntoView();
    else window.scrollTo(0, 0);
  }, isNarrow);
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
}

/** @param {import('playwright-core').Browser} browser @param {string} address @param {(typeof looks)[number]} look */
async function take(browser, address, look) {
  const context = await browser.newContext({
    viewport: { width: look.width, height: look.height },
    deviceScaleFactor: look.scale,
    locale: 'en-GB',
    timezoneId: 'Europe/Madrid',
    colorScheme: 'light',
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  // The hour of the picture does not change what it shows.
  await page.clock.setFixedTime(new Date('2026-06-01T09:00:00+02:00'));
  await page.goto(address);
  await quiet(page);
  await page.evaluate((theme) => {
    document.documentElement.dataset.theme = theme;
  }, look.theme);
  for (const scene of scenes) {
    await show(page, scene, look.width < 500);
    await keep(page, join(folder, `${scene.id}-${look.id}.png`));
  }
  if (look.id === 'desk') {
    await page.setViewportSize({ width: look.width, height: 1120 });
    await show(page, scenes.find(({ id }) => id === 'day-light') ?? scenes[0], false);
    await keep(page, join(root, 'docs/page.png'));
  }
  await context.close();
}

/** The index of the pictures, as Markdown. */
function index() {
  const sections = scenes.map(({ id, title, alt }) =>
    [`## ${title}`, ...looks.map((look) => `![${title}, ${look.words}: ${alt}](pictures/${id}-${look.id}.png)`)].join(
      '\n\n',
    ),
  );
  return `# Pictures of the page\n\nEach place with the demo aircraft, on a desk, on a phone and in the theme for bright sunlight. Made by \`node builders/pictures.mjs\`.\n\n${sections.join('\n\n')}\n\nThe arrays of the demo aircraft, cell by cell, are in [arrays.md](arrays.md).\n`;
}

async function main() {
  const executable = findBrowser();
  if (executable === undefined) throw new Error(`No browser was found. ${howToGetBrowser()}`);
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder).filter((one) => one.endsWith('.png'))) rmSync(join(folder, name));
  const server = createPageServer({ page: join(root, 'apps/browser/dist'), examples: join(root, 'examples') });
  const port = await listen(server, 0, 0);
  const browser = await chromium.launch(launchOptions(executable));
  try {
    for (const look of looks) await take(browser, `http://127.0.0.1:${port}/`, look);
    writeFileSync(join(root, 'docs/pictures.md'), index());
  } finally {
    await browser.close();
    server.close();
    server.closeAllConnections();
  }
}

await main();
