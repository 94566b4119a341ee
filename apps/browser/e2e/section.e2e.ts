import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, goTo, savedFile } from './support/page.js';

inBrowser('section', ({ visit }) => {
  const opened = async (page: Page) => {
    await answered(page);
    await goTo(page, 'Design', 'Section');
    await page.getByText(/^Covering .* with cells .* in level flight/).waitFor();
  };

  it('says first what covering costs; a flush edge does nothing', async () => {
    const { page } = await visit();
    await opened(page);
    await page.getByText(/^Front edge at .*Reynolds number of the step/).waitFor();
    const edge = page.getByRole('textbox', { name: /^Height of cells and film/ });
    await edge.fill('0');
    await edge.press('Enter');
    await page.getByText(/^Front edge at .*: flush, it does nothing\.$/).waitFor();
  });

  it('draws layers and polars that are read by keyboard and saved', async () => {
    const { page } = await visit();
    await opened(page);
    await page.getByRole('heading', { name: 'What does the air do along it?' }).waitFor();
    await page.getByRole('tab', { name: 'Moment' }).click();
    const figure = page.locator('figure').filter({ hasText: 'What pitching moment?' });
    const file = await savedFile(page, async () => {
      await figure.getByRole('button', { name: 'Table, save' }).click();
      await page.getByRole('menuitem', { name: 'Save the data as CSV' }).click();
    });
    expect(file.content.toString()).toMatch(/^incidence \[deg\],/);
  });
});
