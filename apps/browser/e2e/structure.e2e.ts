import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, field, goTo, savedFile, settled, soon, type, verdictOf } from './support/page.js';

/** What comes after the verdict takes longer on a loaded machine [ms]. */
const later = 60_000;

inBrowser('structure', ({ visit }) => {
  const structure = async (page: Page) => {
    await goTo(page, 'Design', 'Structure');
    await page.getByRole('heading', { name: 'How fast may it fly?' }).waitFor();
    await page.getByText(/^Limit speed \d/).waitFor({ timeout: later });
  };

  it('says the limit speed with its reason, the margin, the dives and what to stiffen; the verdict and the page for the field name it', async () => {
    const { page } = await visit();
    await settled(page);
    await structure(page);
    const found = (await page.getByText(/^Limit speed \d/).textContent())!;
    const [, speed] = /^Limit speed (\d+\.\d m\/s): a full pull-up reaches/.exec(found)!;
    await page.getByText(/^That is \d\.\d times the .* of room\.$/).waitFor();
    expect(await page.getByRole('list', { name: 'Dives' }).getByRole('listitem').count()).toBe(3);
    await page
      .getByRole('list', { name: 'What to stiffen' })
      .getByText(/carbon tubes.*limit speed/)
      .first()
      .waitFor({ timeout: later });
    expect(await page.getByText('Follow the rules of your club and your country.').count()).toBe(1);
    await verdictOf(page)
      .getByText(new RegExp(`${speed} \\(\\d+\\.\\d m/s in the noon sun\\), \\d\\.\\d times the speed flown`))
      .waitFor();
    await goTo(page, 'Fly');
    const limit = page.getByRole('region', { name: 'Airspeeds' }).locator('div', { hasText: 'Limit' });
    await limit.getByText(speed!, { exact: true }).waitFor();
    await limit.getByText(/full pull-up/).waitFor();
  });

  it('reads the bands by keyboard, shows them as a table and saves them', async () => {
    const { page } = await visit();
    await answered(page);
    await structure(page);
    const chart = page.getByRole('slider', { name: /^Limit speeds of Alondra: read values/ });
    await chart.focus();
    await page.keyboard.press('Home');
    for (let i = 0; i < 2; i++) await page.keyboard.press('PageUp');
    expect(await chart.getAttribute('aria-valuetext')).toMatch(/manoeuvre: chance that it lies below \d+ %/);
    const tools = page.locator('figure').filter({ has: chart }).getByRole('button', { name: 'Table, save' });
    await tools.click();
    await page.getByRole('menuitem', { name: 'Show as a table' }).click();
    await page.getByRole('rowheader', { name: 'manoeuvre' }).waitFor();
    const file = await savedFile(page, async () => {
      await tools.click();
      await page.getByRole('menuitem', { name: 'Save the data as CSV' }).click();
    });
    expect(file.content.toString()).toMatch(/^limit,lower edge \[m\/s\],best estimate/);
  });

  it('cuts where one asks, bends as one asks, and turns the bent shape in three dimensions', async () => {
    const { page } = await visit({ reducedMotion: 'reduce' });
    await settled(page);
    await structure(page);
    const cut = page.getByRole('textbox', { name: 'Cut at a distance from the middle, typed, in mm' });
    await cut.fill('900');
    await cut.press('Enter');
    await page
      .locator('svg title', { hasText: 'Cut through the wing, 900 mm from the middle' })
      .waitFor({ state: 'attached' });
    await cut.fill('99999');
    await cut.press('Enter');
    expect(await cut.inputValue()).toBe('1203');
    const shape = page.getByRole('region', { name: 'What do loads do to its shape?' });
    await shape
      .getByText(/and 1\.0 g the tip of the wing: leading edge/)
      .first()
      .waitFor();
    const load = page.getByRole('textbox', { name: 'Load factor, typed, in g' });
    await load.fill('4');
    await load.press('Enter');
    await shape
      .getByText(/and 4\.0 g the tip of the wing: leading edge \d+ mm up/)
      .first()
      .waitFor();
    await page
      .getByText(/the wing stalls first/)
      .or(shape.getByText(/displacements to scale/i))
      .first()
      .waitFor();
    await page
      .getByRole('region', { name: 'What do the cells bear?' })
      .getByText(/and 4\.0 g the worst cell is cell/)
      .first()
      .waitFor();
    await shape.getByRole('tab', { name: 'In three dimensions' }).click();
    await shape.getByText('Displacements to scale.', { exact: true }).last().waitFor();
  });

  it('edits every key of the structure; a change asks again and can be taken back', async () => {
    const { page } = await visit();
    await settled(page);
    await structure(page);
    const before = await page.getByText(/^Limit speed \d/).textContent();
    await type(page, 'surfaces.wing.structure.spars.main.height', '0.2 mm');
    await soon(() => page.getByText(/^Limit speed \d/).textContent()).not.toBe(before);
    await page.getByRole('button', { name: /^Undo: / }).click();
    await soon(() => page.getByText(/^Limit speed \d/).textContent()).toBe(before);
    await page.getByRole('button', { name: 'Describe the structure of tailplane', exact: true }).click();
    await field(page, 'surfaces.tailplane.structure.core');
    await page.getByRole('button', { name: 'Undo: describe the structure of tailplane' }).click();
    await page.getByRole('button', { name: 'Describe the structure of tailplane', exact: true }).waitFor();
  });

  it('leads to the spar that cannot be', async () => {
    const { page } = await visit();
    await settled(page);
    await structure(page);
    await type(page, 'surfaces.wing.structure.spars.main.height', '0 mm');
    await page.getByText(/Limit speeds: not known\. It has no height/).waitFor();
    await goTo(page, 'Fly');
    await page.getByRole('region', { name: 'Airspeeds' }).getByText('not known').waitFor();
  });
});
