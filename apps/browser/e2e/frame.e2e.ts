import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, command, goTo, soon } from './support/page.js';

/** Name and role of what has the focus. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const { activeElement: element } = document;
    return element === null ? '' : (element.getAttribute('aria-label') ?? element.textContent ?? '').trim();
  });

/** Presses Tab until something has the focus. */
async function tabTo(page: Page, name: RegExp, most = 60): Promise<void> {
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press('Tab');
    if (name.test(await focused(page))) return;
  }
  throw new Error(`${name} is not reached by ${most} presses of Tab; the focus is on ${await focused(page)}`);
}

inBrowser('the frame', ({ visit }) => {
  it('finds every command by typing, and runs it', async () => {
    const { page } = await visit();
    await answered(page);
    await page.keyboard.press('ControlOrMeta+k');
    const find = page.getByRole('combobox', { name: 'Find a command' });
    await find.fill('no such thing');
    await page.getByText('No command has these words.').waitFor();
    await find.fill('sunl');
    await soon(() => page.getByRole('listbox', { name: 'Commands' }).getByRole('option').count()).toBe(1);
    await find.press('Enter');
    await soon(() => page.locator('html').getAttribute('data-theme')).toBe('sunlight');
    await command(page, 'Design: Drive');
    await page.getByRole('heading', { level: 2, name: 'Design', exact: true }).waitFor();
    expect(
      await page
        .getByRole('navigation', { name: 'Parts of Design' })
        .getByRole('button', { name: 'Drive' })
        .getAttribute('aria-current'),
    ).toBe('page');
    await page.keyboard.press('Alt+1');
    await page.getByRole('heading', { level: 2, name: 'Choose', exact: true }).waitFor();
    await page.getByRole('button', { name: 'Commands', exact: true }).click();
    await find.press('Escape');
    await soon(() => focused(page)).toContain('Commands');
  });

  it('can be used by keyboard alone: from the first key to a changed verdict and back', async () => {
    const { page } = await visit();
    await answered(page);
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe('To the verdict');
    await tabTo(page, /^Menu$/);
    await page.keyboard.press('Enter');
    await page.getByRole('menu').waitFor();
    await page.keyboard.press('Escape');
    expect(await focused(page)).toBe('Menu');
    await tabTo(page, /^Hour of the day$/);
    await page.keyboard.press('ArrowLeft');
    await tabTo(page, /^Design$/);
    await page.keyboard.press('Enter');
    await tabTo(page, /^Balance$/);
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: 'Does it balance?' }).waitFor();
    let path = '';
    for (let i = 0; i < 40 && path !== 'battery.x'; i += 1) {
      await page.keyboard.press('Tab');
      path = await page.evaluate(() => (document.activeElement as HTMLElement).dataset.path ?? '');
    }
    expect(path).toBe('battery.x');
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('-10 mm');
    await page.keyboard.press('Enter');
    await page
      .getByText('Battery at -10 mm')
      .or(page.getByRole('row', { name: /^battery -10 / }))
      .first()
      .waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.press('ControlOrMeta+z');
    await page.getByRole('row', { name: /^battery 20 / }).waitFor();
  });

  it('shows where the focus is', async () => {
    const { page } = await visit();
    await answered(page);
    for (let i = 0; i < 25; i += 1) {
      await page.keyboard.press('Tab');
      const seen = await page.evaluate(() => {
        const element = document.activeElement as HTMLElement;
        const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
        // A radio button that is not drawn itself shows it on its label.
        const label = element.closest('label');
        const around = label === null ? undefined : getComputedStyle(label.querySelector('span') ?? label);
        const drawn = (style: string, width: string) => style !== 'none' && Number.parseFloat(width) >= 2;
        return (
          drawn(outlineStyle, outlineWidth) ||
          boxShadow !== 'none' ||
          (around !== undefined && drawn(around.outlineStyle, around.outlineWidth))
        );
      });
      expect(seen, await focused(page)).toBe(true);
    }
  });

  it('keeps the focus where a button goes away that had it', async () => {
    const { page } = await visit();
    await answered(page);
    await page.getByRole('button', { name: 'What would help most' }).first().click();
    const share = page.locator('progress[aria-label="changes tried"]');
    const stop = page.locator('div').filter({ has: share }).last().getByRole('button', { name: 'Stop' });
    await stop.focus();
    await stop.press('Enter');
    await stop.waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY');
  });

  it('shows the aircraft in three dimensions, turned by keys, and the light on its cells', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Day', 'Light and power');
    const view = page.getByRole('application', { name: /in three dimensions/ });
    await view.scrollIntoViewIfNeeded();
    await view.locator('canvas').waitFor();
    const hash = async () => (await view.screenshot()).toString('base64');
    const first = await hash();
    await view.focus();
    for (let i = 0; i < 6; i += 1) await view.press('ArrowLeft');
    await soon(hash).not.toBe(first);
    await page.getByText(/the sun stands \d+° above the horizon/).waitFor();
    await page.getByText(/Most light: /).waitFor();
  });

  it('stands in drawn views where the browser cannot draw in three dimensions', async () => {
    const { page } = await visit({
      before: () => {
        const original = HTMLCanvasElement.prototype.getContext;
        HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, kind: string, ...rest: unknown[]) {
          if (kind.startsWith('webgl')) return null;
          return Reflect.apply(original, this, [kind, ...rest]);
        } as typeof original;
      },
    });
    await answered(page);
    await goTo(page, 'Day', 'Light and power');
    await page.getByText('This browser cannot draw in three dimensions').waitFor();
    await page
      .getByRole('img', { name: /views|from above/ })
      .first()
      .waitFor();
  });

  it('takes a new theme at once and keeps it', async () => {
    const { page } = await visit({ colorScheme: 'dark' });
    await answered(page);
    const paper = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const dark = await paper();
    await command(page, 'Theme: light');
    await soon(paper).not.toBe(dark);
    const light = await paper();
    await page.getByText('Saved on this device').waitFor();
    await page.reload();
    await answered(page);
    expect(await paper()).toBe(light);
    await command(page, 'Theme: sunlight');
    await soon(paper).toBe('rgb(255, 255, 255)');
  });

  it('says the cautions once, where they are asked for', async () => {
    const { page } = await visit();
    await answered(page);
    await command(page, 'Cautions');
    const dialog = page.getByRole('dialog', { name: 'Cautions' });
    await dialog.getByText('Take the propeller off').waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    expect(await page.locator('main').getByText('Take the propeller off').count()).toBe(0);
  });
});

inBrowser('long places', ({ visit }) => {
  it('fold to their headings on a phone, and open one by one', async () => {
    const { page } = await visit({ viewport: { width: 360, height: 800 } });
    await answered(page);
    await goTo(page, 'Design', 'Airframe');
    const surfaces = page.getByRole('region', { name: 'Surfaces' });
    expect(await surfaces.getByRole('button', { name: 'Add a surface' }).isVisible()).toBe(false);
    await page.getByText('Surfaces', { exact: true }).click();
    await surfaces.getByRole('button', { name: 'Add a surface' }).waitFor();
    expect(await page.getByRole('navigation', { name: 'On this page' }).count()).toBe(0);
  });

  it('open where a finding leads to a field in one of them', async () => {
    const { page } = await visit({ viewport: { width: 360, height: 800 } });
    await answered(page);
    await goTo(page, 'Design', 'Airframe');
    await page.getByText('What here makes the verdict unsure', { exact: true }).click();
    await page.getByRole('button', { name: 'To flight: profile drag factor' }).click();
    await soon(() => page.evaluate(() => (document.activeElement as HTMLElement).dataset.path)).toBe(
      'flight.profile drag factor',
    );
    expect(await page.locator('[data-path="flight.profile drag factor"]').isVisible()).toBe(true);
  });

  it('have a list that leads to each panel where there is room', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Design', 'Airframe');
    const list = page.getByRole('navigation', { name: 'On this page' });
    await list.getByRole('button', { name: 'The file itself' }).press('Enter');
    await soon(() => page.evaluate(() => document.activeElement?.querySelector('h3')?.textContent ?? '')).toBe(
      'The file itself',
    );
  });
});
