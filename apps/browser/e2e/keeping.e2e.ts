import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { launchOptions } from '../../../scripts/find-browser.mjs';
import { browserPath, inBrowser } from './support/index.js';
import { answered, answers, field, goTo, saved, savedFile, soon, type } from './support/page.js';
import { builtPage, startSite } from './support/site.js';

const balance = async (page: Page) => {
  await answered(page);
  await goTo(page, 'Design', 'Balance');
};

const battery = async (page: Page) => (await field(page, 'battery.x')).inputValue();

/** Waits until the page is kept for use without a network. */
const kept = (page: Page) =>
  page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    if (active?.state === 'activated') return;
    await new Promise<void>((resolve) =>
      active?.addEventListener('statechange', () => active.state === 'activated' && resolve()),
    );
  });

/** The records of the storage whose keys begin so, changed. */
const damage = (page: Page, prefix: string) =>
  page.evaluate(
    (begin) =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open('noonwing');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const writing = opening.result.transaction('records', 'readwrite');
          const store = writing.objectStore('records');
          let count = 0;
          store.openCursor().onsuccess = (event) => {
            const cursor = (event.target as IDBRequest<IDBCursorWithValue | null>).result;
            if (cursor === null) return;
            if (String(cursor.key).startsWith(begin)) {
              count += 1;
              cursor.update(`${String(cursor.value).slice(0, -20)}`);
            }
            cursor.continue();
          };
          writing.oncomplete = () => {
            opening.result.close();
            resolve(count);
          };
        };
      }),
    prefix,
  );

inBrowser('keeping', ({ visit, watched, site }) => {
  it('starts without a network after the first visit', async () => {
    const own = await startSite();
    const { page, watch } = await visit({ at: own.address, serviceWorkers: 'allow' });
    watch.allow(/^a request to elsewhere: http:\/\/127\.0\.0\.1:/);
    await answered(page);
    await kept(page);
    await own.stop();
    await page.reload();
    await answered(page);
    for (const place of ['Choose', 'Day', 'Measure', 'Fly', 'Design']) await goTo(page, place);
    await page.getByRole('region', { name: 'Surfaces' }).waitFor();
  });

  it('takes a new version only when the user agrees', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'noonwing-update-'));
    cpSync(builtPage, folder, { recursive: true });
    const own = await startSite({ page: folder });
    try {
      const { page, watch } = await visit({ at: own.address, serviceWorkers: 'allow' });
      watch.allow(/^a request to elsewhere: http:\/\/127\.0\.0\.1:/);
      await balance(page);
      await kept(page);
      await page.reload();
      await balance(page);
      const index = readFileSync(join(folder, 'index.html'), 'utf8');
      writeFileSync(join(folder, 'index.html'), index.replace('<body>', '<body data-version="next">'));
      const worker = readFileSync(join(folder, 'sw.js'), 'utf8');
      const changed = worker.replace(
        /(url:"index\.html",revision:")[^"]*|(revision:")[^"]*(",url:"index\.html)/,
        (all) => all.replace(/revision:"[^"]*/, 'revision:"next'),
      );
      expect(changed).not.toBe(worker);
      writeFileSync(join(folder, 'sw.js'), changed);
      const version = () => page.evaluate(() => document.body.dataset.version ?? 'first');
      await page.reload();
      const notice = page.getByText('A new version of noonwing is ready.');
      await notice.waitFor();
      expect(await version()).toBe('first');
      await page.getByRole('button', { name: 'Later' }).click();
      await notice.waitFor({ state: 'detached' });
      await page.reload();
      await notice.waitFor();
      expect(await version()).toBe('first');
      await balance(page);
      await type(page, 'battery.x', '-7 mm');
      await page.getByRole('button', { name: 'Load it now' }).click();
      await soon(() => version().catch(() => '')).toBe('next');
      await balance(page);
      await soon(() => battery(page)).toBe('-7 mm');
    } finally {
      await own.stop();
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('lets one of two tabs write, shows its changes in the other, and hands over', async () => {
    const { page: first, context } = await visit();
    await balance(first);
    await saved(first);
    const second = await context.newPage();
    await second.goto(site().address);
    await second.getByText('Open in another tab: read only').waitFor();
    await balance(second);
    await type(first, 'battery.x', '-12 mm');
    await soon(() => battery(second)).toBe('-12 mm');
    await second.getByRole('button', { name: 'Take over here' }).click();
    await saved(second);
    await first.getByText('Open in another tab: read only').waitFor();
    await type(second, 'battery.x', '-14 mm');
    await soon(() => battery(first)).toBe('-14 mm');
    await type(first, 'battery.x', '99 mm');
    await saved(second);
    await second.reload();
    await balance(second);
    expect(await battery(second)).toBe('-14 mm');
  });

  it('loses nothing when the browser is killed', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'noonwing-profile-'));
    const launch = async () => {
      const server = await chromium.launchPersistentContext(folder, {
        ...launchOptions(browserPath!),
        serviceWorkers: 'block',
        viewport: { width: 1280, height: 900 },
      });
      const page = server.pages()[0] ?? (await server.newPage());
      watched(server);
      await page.goto(site().address);
      await balance(page);
      return { server, page };
    };
    try {
      const { server, page } = await launch();
      const session = await server.newCDPSession(page);
      await type(page, 'battery.x', '-21 mm');
      await type(page, 'battery.z', '-25 mm');
      await soon(() => battery(page)).toBe('-21 mm');
      await saved(page);
      // As a crash: no page gets a word before its end.
      await session.send('Browser.crash' as 'Browser.close').catch(() => {});
      await server.close().catch(() => {});
      const again = await launch();
      expect(await battery(again.page)).toBe('-21 mm');
      expect(await (await field(again.page, 'battery.z')).inputValue()).toBe('-25 mm');
      await again.page.getByRole('button', { name: /^Undo: .*battery/ }).click();
      await soon(async () => (await field(again.page, 'battery.z')).inputValue()).toBe('-40 mm');
      await again.server.close();
    } finally {
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    }
  });

  it('says that the device is full, gives the work out, and saves it once there is room', async () => {
    const { page } = await visit({
      before: () => {
        const state = window as unknown as { full: boolean };
        state.full = false;
        for (const name of ['add', 'put'] as const) {
          const original = IDBObjectStore.prototype[name];
          IDBObjectStore.prototype[name] = function (...given) {
            if (state.full) throw new DOMException('no room', 'QuotaExceededError');
            return original.apply(this, given);
          };
        }
      },
    });
    const setFull = (full: boolean) =>
      page.evaluate((value) => {
        (window as unknown as { full: boolean }).full = value;
      }, full);
    await balance(page);
    await saved(page);
    await setFull(true);
    await type(page, 'battery.x', '-5 mm');
    await page.getByText('This device has no room left for noonwing.').waitFor();
    await page.getByText('Not saved', { exact: true }).waitFor();
    const copy = await savedFile(page, () => page.getByRole('button', { name: 'Save a copy of everything' }).click());
    expect(copy.content.subarray(0, 2).toString()).toBe('PK');
    await setFull(false);
    await page.getByRole('button', { name: 'Try again' }).click();
    await saved(page);
    await page.reload();
    await balance(page);
    expect(await battery(page)).toBe('-5 mm');
  });

  it('says which records are damaged, keeps them to look at, and goes on with the others', async () => {
    const { page, watch } = await visit();
    // The picture alone, which stands in for another page of the site, asks for a favicon.
    watch.allow(/404/);
    await balance(page);
    await type(page, 'battery.x', '-6 mm');
    await saved(page);
    await page.goto(`${site().address}icon.svg`);
    expect(await damage(page, 'journal/')).toBeGreaterThan(0);
    await page.goto(site().address);
    await answered(page);
    await page.getByRole('button', { name: 'Show what is damaged' }).first().click();
    const dialog = page.getByRole('dialog', { name: 'What is damaged' });
    await dialog
      .getByRole('heading', { name: /^damaged\/journal\// })
      .first()
      .waitFor();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await goTo(page, 'Design', 'Balance');
    await type(page, 'battery.x', '-8 mm');
    await saved(page);
    await page.reload();
    await balance(page);
    expect(await battery(page)).toBe('-8 mm');
  });

  it('replaces a background worker that dies, and says so', async () => {
    const { page } = await visit({
      before: () => {
        const made: Worker[] = [];
        (window as unknown as { made: Worker[] }).made = made;
        const Original = Worker;
        window.Worker = class extends Original {
          constructor(...given: ConstructorParameters<typeof Worker>) {
            super(...given);
            made.push(this);
          }
        };
      },
    });
    await balance(page);
    const before = await answers(page);
    const count = () => page.evaluate(() => (window as unknown as { made: Worker[] }).made.length);
    const first = await count();
    await page.evaluate(() => {
      for (const worker of (window as unknown as { made: Worker[] }).made) {
        worker.terminate();
        worker.dispatchEvent(new ErrorEvent('error', { message: 'out of memory' }));
      }
    });
    await type(page, 'masses.camera.mass', '400 g').catch(() => type(page, 'all up mass', '1.7 kg'));
    await page.getByText(/A background worker (ended|did not stop)/).waitFor();
    await soon(() => answers(page)).not.toBe(before);
    expect(await count()).toBeGreaterThan(first);
  });
});
