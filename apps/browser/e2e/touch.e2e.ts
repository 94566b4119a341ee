import type { Locator, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, field, goTo, soon } from './support/page.js';

type Place = readonly [x: number, y: number];

/** A finger that goes down, moves in steps and is lifted, as the screen would report it. */
async function finger(page: Page, from: Place, to: Place, steps = 8): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const send = (kind: 'touchStart' | 'touchMove' | 'touchEnd', at?: Place) =>
    session.send('Input.dispatchTouchEvent', {
      type: kind,
      touchPoints: at === undefined ? [] : [{ x: at[0], y: at[1] }],
    });
  await send('touchStart', from);
  for (let i = 1; i <= steps; i++) {
    const share = i / steps;
    await send('touchMove', [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]);
  }
  await send('touchEnd');
  await session.detach();
}

const middleOf = async (what: Locator): Promise<Place> => {
  const box = (await what.boundingBox())!;
  return [box.x + box.width / 2, box.y + box.height / 2];
};

inBrowser('fingers', ({ visit }) => {
  const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;

  it('move the sun along the band of the day', async () => {
    const { page } = await visit(phone);
    await answered(page);
    const band = page.getByRole('slider', { name: 'Hour of the day' });
    const at = async () => Number(await band.getAttribute('aria-valuenow'));
    await band.scrollIntoViewIfNeeded();
    const box = (await band.boundingBox())!;
    const y = box.y + box.height / 2;
    await finger(page, [box.x + box.width * 0.5, y], [box.x + box.width * 0.15, y]);
    await soon(at).toBeLessThan(11);
    const morning = await at();
    await finger(page, [box.x + box.width * 0.15, y], [box.x + box.width * 0.6, y]);
    await soon(at).toBeGreaterThan(morning + 4);
  });

  it('scroll the page where they go down and not along', async () => {
    const { page } = await visit(phone);
    await answered(page);
    const [x, y] = await middleOf(page.getByRole('heading', { name: 'Alondra', exact: true }));
    await finger(page, [x, y + 300], [x, y]);
    await soon(() => page.evaluate(() => window.scrollY)).toBeGreaterThan(100);
  });

  it('move a part of the plan view, in one step of the history', async () => {
    const { page } = await visit(phone);
    await answered(page);
    await goTo(page, 'Design', 'Balance');
    const plan = page.getByRole('application', { name: /from above/ });
    // On a phone the panels of a place are folded to their headings.
    await page.getByText('Move it', { exact: true }).click();
    await plan.scrollIntoViewIfNeeded();
    const place = await field(page, 'battery.x');
    const battery = plan.locator('[class*="nw-s-caution"][class*="nw-f-part"]').first();
    await battery.evaluate((element) => element.scrollIntoView({ block: 'center' }));
    const from = await middleOf(battery);
    const stood = (await plan.boundingBox())!.y;
    await finger(page, from, [from[0], from[1] - 14]);
    await soon(() => place.inputValue()).not.toBe('20 mm');
    expect(Number((await place.inputValue()).replace(' mm', ''))).toBeLessThan(15);
    // The part moved, and not the page.
    expect((await plan.boundingBox())!.y).toBeCloseTo(stood, -1);
    await page.keyboard.press('Control+z');
    await soon(() => place.inputValue()).toBe('20 mm');
  });
});
