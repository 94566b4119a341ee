import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, command, goTo, settled } from './support/page.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const places: readonly (readonly [place: string, part?: string])[] = [
  ['Choose'],
  ['Day', 'Plan'],
  ['Day', 'Light and power'],
  ['Day', 'Through the year'],
  ['Design', 'Airframe'],
  ['Design', 'Balance'],
  ['Design', 'Structure'],
  ['Design', 'Cells'],
  ['Design', 'Drive'],
  ['Design', 'Battery'],
  ['Measure'],
  ['Fly'],
];

const themes = ['light', 'dark', 'sunlight'] as const;

type Found = {
  readonly id: string;
  readonly nodes: readonly {
    readonly target: readonly string[];
    readonly any: readonly { readonly message: string }[];
  }[];
};

/** What breaks WCAG 2.2 A and AA on the page as it is, in words. */
async function violations(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe);
  const found = await page.evaluate(async () => {
    const { run } = (
      window as unknown as { axe: { run: (on: Document, how: unknown) => Promise<{ violations: Found[] }> } }
    ).axe;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    return (await run(document, { runOnly: tags, resultTypes: ['violations'] })).violations.map(({ id, nodes }) => ({
      id,
      nodes: nodes.map(({ target, any }) => ({ target, any: any.map(({ message }) => ({ message })) })),
    }));
  });
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ target, any }) => `${id}: ${target.join(' ')} ${any.map(({ message }) => message).join(' ')}`),
  );
}

const shown = ([place, part]: readonly [string, string?]) => (part === undefined ? place : `${place}, ${part}`);

inBrowser('access', ({ visit }) => {
  const widths = [1280, 360] as const;
  describe.each(widths)('at %i px', (width) => {
    it('every place in every theme is free of what the rules of WCAG 2.2 AA can find', async () => {
      const { page } = await visit({ viewport: { width, height: 900 }, reducedMotion: 'reduce' });
      await settled(page);
      const found: string[] = [];
      for (const where of places) {
        await goTo(page, ...where);
        await page.locator('main section').first().waitFor();
        // What is being computed anew is pale until it is there.
        await page.locator('main [class*="_old_"]').first().waitFor({ state: 'detached' });
        for (const theme of themes) {
          await page.evaluate((name) => {
            document.documentElement.dataset.theme = name;
          }, theme);
          for (const words of await violations(page)) found.push(`${shown(where)}, ${theme}: ${words}`);
        }
      }
      expect(found).toEqual([]);
    });
  });

  it('dialogs, menus and the list of commands are free of it too', async () => {
    const { page } = await visit({ reducedMotion: 'reduce' });
    await settled(page);
    const found: string[] = [];
    const look = async (what: string) => found.push(...(await violations(page)).map((words) => `${what}: ${words}`));
    for (const name of ['Preferences', 'All steps', 'Cautions', 'Rename the project', 'Delete the project']) {
      await command(page, name);
      await page.getByRole('dialog').waitFor();
      await look(name);
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
    await page.keyboard.press('ControlOrMeta+k');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor();
    await look('commands');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Menu', exact: true }).click();
    await page.getByRole('menu').waitFor();
    await look('menu');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'What would help most' }).click();
    await page
      .getByRole('button', { name: /^Apply: / })
      .first()
      .waitFor();
    await command(page, 'Compare with the aircraft as it is now');
    await page.getByRole('region', { name: 'Side by side' }).waitFor();
    await look('levers and side by side');
    expect(found).toEqual([]);
  });

  it('fits a screen of 320 px without scrolling sideways, in every place', async () => {
    const { page } = await visit({ viewport: { width: 320, height: 640 } });
    await answered(page);
    const found: string[] = [];
    for (const theme of ['light', 'sunlight']) {
      await command(page, `Theme: ${theme}`);
      for (const where of places) {
        await goTo(page, ...where);
        await page.locator('main section').first().waitFor();
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        if (wide > 320) found.push(`${shown(where)}, ${theme}: ${wide} px`);
      }
    }
    expect(found).toEqual([]);
  });

  it('has large targets in the sunlight theme', async () => {
    const { page } = await visit({ viewport: { width: 1280, height: 900 } });
    await answered(page);
    await command(page, 'Theme: sunlight');
    const found: string[] = [];
    for (const where of places) {
      await goTo(page, ...where);
      await page.locator('main section').first().waitFor();
      const small = await page.evaluate(() =>
        [...document.querySelectorAll<HTMLElement>('button, select, input:not([type="radio"]):not([type="checkbox"])')]
          .filter((element) => element.checkVisibility() && !element.closest('[class*="days"], [class*="months"]'))
          .map((element) => ({ element, box: element.getBoundingClientRect() }))
          .filter(({ box }) => box.height > 0 && (box.height < 44 || box.width < 44))
          .map(
            ({ element, box }) =>
              `${element.getAttribute('aria-label') ?? element.textContent} ${Math.round(box.width)} x ${Math.round(box.height)}`,
          ),
      );
      found.push(...small.map((words) => `${shown(where)}: ${words}`));
    }
    expect(found).toEqual([]);
  });
});
