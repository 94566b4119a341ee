import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser, howToGetBrowser, isBrowserRequired, launchOptions } from '../../../../scripts/find-browser.mjs';
import { type Site, startSite } from './site.js';
import { type Watch, watch } from './watch.js';

export const browserPath = findBrowser();

/** A page of its own with storage of its own. */
export interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly watch: Watch;
}

export interface VisitOptions extends BrowserContextOptions {
  /** Opened at first: the page, where absent; undefined opens nothing. */
  readonly at?: string | undefined;
  /** Runs in every page before any script of its own. */
  readonly before?: () => void;
}

export interface Given {
  readonly site: () => Site;
  readonly browser: () => Browser;
  /** Opens the page in a browser that never saw it. */
  readonly visit: (options?: VisitOptions) => Promise<Visit>;
  /** Watches a context that the test made itself. */
  readonly watched: (context: BrowserContext) => Watch;
}

/** How long anything may take to show [ms]: far beyond what it takes, as a loaded machine is slow. */
export const patience = 20_000;

/**
 * Tests in one browser with one server. After each of them nothing may have happened that never should: an error, a request to
 * elsewhere, a question of the browser. Without a browser they are left out, or fail where one is demanded.
 */
export function inBrowser(name: string, tests: (given: Given) => void): void {
  if (browserPath === undefined && isBrowserRequired()) {
    it(`${name}: has a browser`, () => {
      throw new Error(`No browser was found, and one is demanded. ${howToGetBrowser()}`);
    });
    return;
  }
  describe.skipIf(browserPath === undefined)(name, () => {
    let browser: Browser | undefined;
    let site: Site | undefined;
    const watches: Watch[] = [];
    beforeAll(async () => {
      site = await startSite();
      browser = await chromium.launch(launchOptions(browserPath!));
    });
    afterAll(async () => {
      await browser?.close();
      await site?.stop();
    });
    afterEach(async () => {
      await Promise.all(browser!.contexts().map((context) => context.close()));
      const complaints = watches.splice(0).flatMap((one) => one.complaints());
      expect(complaints).toEqual([]);
    });
    const watched = (context: BrowserContext) => {
      context.setDefaultTimeout(patience);
      const made = watch(context, site!.address);
      watches.push(made);
      return made;
    };
    const visit: Given['visit'] = async ({ at, before, ...options } = {}) => {
      const context = await browser!.newContext({
        viewport: { width: 1280, height: 900 },
        locale: 'en-GB',
        timezoneId: 'Europe/Madrid',
        serviceWorkers: 'block',
        ...options,
      });
      const made = watched(context);
      if (before !== undefined) await context.addInitScript(before);
      const page = await context.newPage();
      await page.goto(at ?? site!.address);
      return { page, context, watch: made };
    };
    tests({ site: () => site!, browser: () => browser!, visit, watched });
  });
}
