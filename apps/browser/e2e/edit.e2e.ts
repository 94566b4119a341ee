import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, answers, command, field, goTo, problemOf, soon, type } from './support/page.js';

const rootChord = 'surfaces.wing.stations[1].chord';

/** The text of the design file, in the panel beside the fields. */
async function openText(page: Page) {
  await page.getByRole('button', { name: 'Text of the file' }).click();
  return page.getByRole('textbox', { name: /^Text of / });
}

const undo = (page: Page) => page.getByRole('button', { name: /^Undo/ });
const redo = (page: Page) => page.getByRole('button', { name: /^Redo/ });

inBrowser('editing', ({ visit }) => {
  const airframe = async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Design', 'Airframe');
    return page;
  };
  const balance = async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Design', 'Balance');
    return page;
  };

  it('answers each change at once, and undo and redo go through all of them by name', async () => {
    const page = await airframe();
    const first = await answers(page);
    await type(page, rootChord, '330 mm');
    await soon(() => answers(page)).not.toEqual(first);
    await goTo(page, 'Design', 'Battery');
    await goTo(page, 'Day');
    await page.getByLabel('First day').fill('2026-12-21');
    await page.getByLabel('First day').blur();
    await soon(() => answers(page)).toContain('not carried');
    await soon(async () => await undo(page).getAttribute('aria-label')).toMatch(/^Undo: .*date/);
    await undo(page).click();
    await soon(async () => await undo(page).getAttribute('aria-label')).toMatch(/^Undo: .*chord/);
    await undo(page).click();
    await soon(() => answers(page)).toEqual(first);
    await goTo(page, 'Design', 'Airframe');
    expect(await (await field(page, rootChord)).inputValue()).toBe('230 mm');
    await redo(page).click();
    await soon(async () => (await field(page, rootChord)).inputValue()).toBe('330 mm');
  });

  it('takes any unit and a decimal comma', async () => {
    const page = await airframe();
    const chord = await type(page, rootChord, '9 in');
    await soon(() => chord.inputValue()).toBe('9 in');
    expect(await chord.getAttribute('aria-invalid')).toBeNull();
    await page.getByText('span and').waitFor();
    const text = await openText(page);
    expect(/chord: 9 in/.test(await text.inputValue())).toBe(true);
    await goTo(page, 'Design', 'Balance');
    const all = await type(page, 'all up mass', '1,5 kg');
    await soon(() => all.inputValue()).toMatch(/^1[.,]5 kg$/);
    await page
      .getByRole('definition')
      .filter({ hasText: /^1\.50? kg/ })
      .waitFor();
  });

  it('keeps what cannot be read beside the file, says why, and Escape takes it back', async () => {
    const page = await airframe();
    const before = await answers(page);
    for (const [wrong, why] of [
      ['hello', /hello/],
      ['1,500 mm', /./],
      ['20 kg', /kg/],
      ['-3 m', /./],
    ] as const) {
      const chord = await type(page, rootChord, wrong);
      await soon(() => problemOf(chord)).toMatch(why);
      await soon(() => chord.getAttribute('aria-invalid')).toBe('true');
      expect(await chord.inputValue()).toBe(wrong);
      await chord.press('Escape');
      await soon(() => chord.inputValue()).toBe('230 mm');
      await soon(() => problemOf(chord)).toBe('');
    }
    expect(await answers(page)).toBe(before);
  });

  it('says what is out of range and does not change it', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Day');
    const charge = await type(page, 'charge at launch', '150 %');
    await soon(() => problemOf(charge)).toMatch(/from 0 to 1/);
    expect(await charge.inputValue()).toBe('150 %');
    await charge.press('Escape');
    await soon(() => charge.inputValue()).toMatch(/^95 %/);
  });

  it('steps with the arrow keys, ten with Shift, a tenth with Alt, in one step of the history', async () => {
    const page = await balance();
    const place = await field(page, 'battery.x');
    await place.focus();
    await place.press('ArrowUp');
    await soon(() => place.inputValue()).toBe('25 mm');
    await place.press('ArrowDown');
    await place.press('ArrowDown');
    await soon(() => place.inputValue()).toBe('15 mm');
    await place.press('Shift+ArrowDown');
    await soon(() => place.inputValue()).toBe('-35 mm');
    await place.press('Alt+ArrowUp');
    await soon(() => place.inputValue()).toBe('-34.5 mm');
    await place.blur();
    await undo(page).click();
    await soon(() => place.inputValue()).toBe('20 mm');
    expect(await undo(page).getAttribute('aria-disabled')).toBe('true');
  });

  it('lists all steps and goes to any of them', async () => {
    const page = await balance();
    for (const [path, text] of [
      ['battery.x', '10 mm'],
      ['glue wire and paint', '50 g'],
      ['battery.z', '-30 mm'],
    ] as const)
      await type(page, path, text);
    await command(page, 'All steps');
    const dialog = page.getByRole('dialog', { name: 'All steps' });
    await soon(() => dialog.getByRole('listitem').count()).toBe(3);
    await dialog.getByRole('button', { name: /^Go to: .*battery: aft of the datum/ }).click();
    await dialog.getByText('(undone)').first().waitFor();
    await page.keyboard.press('Escape');
    await soon(async () => (await field(page, 'battery.z')).inputValue()).toBe('-40 mm');
    expect(await (await field(page, 'battery.x')).inputValue()).toBe('10 mm');
  });

  it('keeps the comments of the file, whether fields or the text are edited', async () => {
    const page = await airframe();
    const text = await openText(page);
    const comment = '# washout keeps the tips flying';
    const says = (words: RegExp) => soon(async () => words.test(await text.inputValue())).toBe(true);
    await says(new RegExp(comment));
    await type(page, 'surfaces.wing.stations[3].twist', '-2.5 deg');
    await says(new RegExp(`twist: -2.5 deg} *${comment}`));
    const written = await text.inputValue();
    await text.fill(written.replace(/(\{y: 0 mm, +chord:) 230 mm/, '$1 245 mm'));
    await soon(async () => (await field(page, rootChord)).inputValue()).toBe('245 mm');
    await says(new RegExp(comment));
  });

  it('says where the text is wrong and answers for the last text without errors', async () => {
    const page = await airframe();
    const before = await answers(page);
    const text = await openText(page);
    const good = await text.inputValue();
    await text.fill(good.replace('chord: 150 mm', 'chord: 150 parsecs'));
    await page.getByText('One error in the text').waitFor();
    await page
      .getByRole('button', { name: /^Line \d+$/ })
      .first()
      .click();
    await soon(() =>
      text.evaluate((area: HTMLTextAreaElement) => area.value.slice(area.selectionStart, area.selectionEnd)),
    ).toContain('parsecs');
    expect(await answers(page)).toBe(before);
    await text.fill(`${good}\n  : [`);
    await page.getByText(/errors? in the text/).waitFor();
    expect(await answers(page)).toBe(before);
    await text.fill(good);
    await page.getByText(/errors? in the text/).waitFor({ state: 'detached' });
  });

  it('moves a part of the plan view by pointer: one step, and Escape takes it back', async () => {
    const page = await balance();
    const plan = page.getByRole('application', { name: /from above/ });
    const place = await field(page, 'battery.x');
    const battery = plan.locator('[class*="nw-s-caution"][class*="nw-f-part"]').first();
    const drag = async (by: number) => {
      // A verdict that arrives meanwhile draws the plan anew: then the part is looked for again.
      await soon(() =>
        battery.scrollIntoViewIfNeeded().then(
          () => true,
          () => false,
        ),
      ).toBe(true);
      const box = (await battery.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x, y - by / 2);
      await page.mouse.move(x, y - by);
    };
    await drag(12);
    await soon(() => place.inputValue()).not.toBe('20 mm');
    await page.mouse.up();
    const moved = Number((await place.inputValue()).replace(' mm', ''));
    expect(moved).toBeLessThan(15);
    await undo(page).click();
    await soon(() => place.inputValue()).toBe('20 mm');
    expect(await undo(page).getAttribute('aria-disabled')).toBe('true');
    await drag(20);
    await soon(() => place.inputValue()).not.toBe('20 mm');
    await page.keyboard.press('Escape');
    await soon(() => place.inputValue()).toBe('20 mm');
    await page.mouse.up();
  });

  it('moves a part of the plan view by keys and by number', async () => {
    const page = await balance();
    await page.getByLabel('Part to move').selectOption({ label: 'camera' });
    const plan = page.getByRole('application', { name: /arrow keys move camera/ });
    await plan.focus();
    await plan.press('ArrowUp');
    const place = page.getByRole('group', { name: 'camera' }).locator('[data-path="masses.camera.x"]');
    await soon(() => place.inputValue()).toBe('-95 mm');
    await plan.press('Shift+ArrowDown');
    await soon(() => place.inputValue()).toBe('-45 mm');
    await place.fill('-100 mm');
    await place.press('Enter');
    await page.getByRole('row', { name: /^camera -100 / }).waitFor();
  });

  it('leads from a finding to the field that it is about', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Design', 'Battery');
    await page.getByRole('region', { name: 'What here makes the verdict unsure' }).waitFor();
    await goTo(page, 'Design', 'Airframe');
    const lead = page.getByRole('button', { name: 'To flight: profile drag factor' });
    await lead.click();
    await soon(() => page.evaluate(() => (document.activeElement as HTMLElement).dataset.path)).toBe(
      'flight.profile drag factor',
    );
  });

  it('says of each value where it comes from, and goes back to what is assumed', async () => {
    const page = await airframe();
    const factor = await field(page, 'flight.stall factor');
    expect(await factor.inputValue()).toBe('');
    await type(page, 'flight.stall factor', '1.4');
    await soon(() => factor.inputValue()).toBe('1.4');
    await page.getByRole('button', { name: 'About stall factor' }).click();
    await page.getByLabel('Where stall factor comes from').selectOption('measured');
    await page.getByRole('button', { name: /^Back to what is assumed: 1\.25/ }).click();
    await soon(() => factor.inputValue()).toBe('');
  });

  it('shows what would help most and applies it', async () => {
    const page = await airframe();
    await page.getByRole('button', { name: 'What would help most' }).click();
    const apply = page.getByRole('button', { name: /^Apply: / }).first();
    await apply.waitFor();
    await soon(async () => await apply.getAttribute('aria-disabled')).toBeNull();
    const label = ((await apply.getAttribute('aria-label')) ?? '').replace('Apply: ', '');
    await apply.click();
    await soon(async () => await undo(page).getAttribute('aria-label')).toBe(`Undo: ${label}`);
  });
});
