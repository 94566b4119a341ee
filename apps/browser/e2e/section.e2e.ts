import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, goTo, saved, savedFile, soon, type, verdictOf } from './support/page.js';

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

  it('lays measured points over the computed polar, and says where a file cannot be used', async () => {
    const { page } = await visit();
    await opened(page);
    const give = (text: string) =>
      page
        .getByLabel('File of measured points')
        .setInputFiles({ name: 'points.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await give('Reynolds number,incidence (deg),lift,drag\n120000,2,high,0.02\n');
    await page.getByText(/points\.csv, line 2, column "lift": "high" was found/).waitFor();
    await give('Reynolds number,incidence (deg),lift,drag\n120000,0,0.3,0.03\n120000,3,0.6,0.03\n120000,6,0.9,0.04\n');
    await page.getByText(/^Reynolds number 120000: measured \d+ % more drag than computed/).waitFor();
    await page.getByRole('button', { name: 'Take the points away' }).click();
    await page.getByText('Points out of a wind tunnel').waitFor();
  });

  it('flies with measured points that the project keeps, also after the page is loaded again, until they are taken back', async () => {
    const { page } = await visit();
    await opened(page);
    const verdict = verdictOf(page);
    const computedWords = verdict.getByText(/^Sections: Computed, from polars kept in this browser \(wing: NACA 3410/);
    await computedWords.waitFor();
    const points =
      'Reynolds number,incidence (deg),lift,drag\n120000,0,0.3,0.03\n120000,3,0.6,0.03\n120000,6,0.9,0.04\n';
    await page
      .getByLabel('File of measured points')
      .setInputFiles({ name: 'points.csv', mimeType: 'text/csv', buffer: Buffer.from(points) });
    await page.getByText(/They are compared here; the verdict does not fly with them yet\.$/).waitFor();
    await page.getByRole('button', { name: 'Fly with these points' }).click();
    const named = verdict.getByText(/wing: NACA 3410 with the measured points of points\.csv at Reynolds numbers 120/);
    await named.waitFor();
    await verdict.getByText(/Level power is \d+\.\d W; with the polars known before it was/).waitFor();
    await page.getByText(/limits and levers of this project fly with them\.$/).waitFor();
    await saved(page);
    await page.reload();
    await named.waitFor();
    await page.getByText(/limits and levers of this project fly with them\.$/).waitFor();
    await page.getByRole('button', { name: 'Fly without these points' }).click();
    await computedWords.waitFor();
    await soon(() => named.count()).toBe(0);
  });

  it('flies with computed polars, those of a new section computed in the background until that is stopped', async () => {
    const { page } = await visit();
    await opened(page);
    const verdict = verdictOf(page);
    await verdict.getByText(/^Sections: Computed, from polars kept in this browser \(wing: NACA 3410/).waitFor();
    await verdict.getByText(/Level power is \d+\.\d W; by the first estimate it was/).waitFor();
    await type(page, 'surfaces.wing.section', 'NACA 2409');
    await verdict.getByText(/first estimate for wing: NACA 2409/).waitFor();
    await verdict.getByText(/^Polars of its sections are being computed/).waitFor();
    await verdict.getByRole('button', { name: 'Stop computing polars' }).click();
    await verdict.getByRole('button', { name: 'Compute polars of the sections' }).waitFor();
    // An edit does not begin it again.
    await type(page, 'surfaces.wing.section', 'NACA 3410');
    await verdict.getByText(/^Sections: Computed, .*wing: NACA 3410/).waitFor();
    await soon(() => verdict.getByRole('button', { name: 'Compute polars of the sections' }).count()).toBe(0);
  });

  it('computes another shape by numbers, and puts it into the design as points', async () => {
    const { page } = await visit();
    await opened(page);
    const thickness = page.getByRole('textbox', { name: /^Thickness, typed/ });
    await thickness.fill('8');
    await thickness.press('Enter');
    await page.getByText(/^8\.0 % thick, camber .* drag under the cells/).waitFor();
    await page.getByRole('button', { name: 'Use it on wing' }).click();
    await page.getByText(/^Covering naca-3410-reshaped\.dat with cells/).waitFor();
  });
});
