import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { goTo, settled } from './support/page.js';

/** Words of the drawings that cover each other or leave their drawing, as the browser laid them out. */
const faults = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = [];
    // Beyond what fonts of another machine add [px].
    const slack = 2;
    for (const svg of document.querySelectorAll<SVGSVGElement>('main svg[role="img"], #day svg[role="img"]')) {
      if (!svg.checkVisibility()) continue;
      const frame = svg.getBoundingClientRect();
      const name = svg.querySelector('title')?.textContent ?? '';
      const texts = [...svg.querySelectorAll('text')].map((element) => {
        const box = element.getBoundingClientRect();
        // Letters are lower than the line they stand in.
        const inset = box.height * 0.2;
        return {
          words: element.textContent ?? '',
          left: box.left,
          right: box.right,
          top: box.top + inset,
          bottom: box.bottom - inset,
        };
      });
      for (const [i, a] of texts.entries()) {
        if (
          a.left < frame.left - slack ||
          a.right > frame.right + slack ||
          a.top < frame.top - slack ||
          a.bottom > frame.bottom + slack
        )
          found.push(`${name}: "${a.words}" leaves the drawing`);
        for (const b of texts.slice(i + 1)) {
          const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
          const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
          if (wide > slack && high > slack) found.push(`${name}: "${a.words}" and "${b.words}" cover each other`);
        }
      }
    }
    return found;
  });

const drawn = async (page: Page): Promise<number> => page.locator('main svg[role="img"]').count();

inBrowser('drawings', ({ visit }) => {
  it.each([360, 800, 1280])(
    'have words that cover none and stay inside, as the browser draws them, at %i px',
    async (width) => {
      const { page } = await visit({ viewport: { width, height: 900 } });
      await settled(page);
      const found: string[] = [];
      let count = 0;
      const places: readonly (readonly [string, string?])[] = [
        ['Day', 'Light and power'],
        ['Design', 'Airframe'],
        ['Design', 'Balance'],
        ['Design', 'Structure'],
        ['Design', 'Cells'],
        ['Design', 'Drive'],
        ['Design', 'Battery'],
        ['Fly'],
      ];
      for (const where of places) {
        await goTo(page, ...where);
        await page.locator('main section').first().waitFor();
        await page.waitForFunction(
          () => !/(being computed|loading) …/.test(document.querySelector('main')?.textContent ?? ''),
        );
        count += await drawn(page);
        found.push(...(await faults(page)).map((words) => `${where.join(', ')}: ${words}`));
      }
      expect(count).toBeGreaterThan(14);
      expect([...new Set(found)]).toEqual([]);
    },
  );
});
