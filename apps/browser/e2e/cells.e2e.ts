import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, goTo, settled, soon, verdictOf } from './support/page.js';

inBrowser('cells', ({ visit }) => {
  const cells = async (page: Page) => {
    await goTo(page, 'Design', 'Cells');
    await page.getByRole('heading', { name: 'What does each cell get?' }).waitFor();
    await page
      .getByText(/^Over the day under a clear sky a cell has/)
      .first()
      .waitFor();
    return {
      panel: page.getByRole('region', { name: 'What does each cell get?' }),
      map: page.getByRole('application', { name: /^Cells: arrow keys choose one/ }),
      facts: page.getByRole('region', { name: 'The chosen cell' }),
    };
  };

  it('chooses a cell by pointer, arrow keys and name, and says what it gets', async () => {
    const { page } = await visit();
    await settled(page);
    const { panel, map, facts } = await cells(page);
    await facts.getByRole('heading', { name: 'Cell 1 of row "top", right side' }).waitFor();
    await map.focus();
    await page.keyboard.press('ArrowRight');
    await facts.getByRole('heading', { name: 'Cell 2 of row "top", right side' }).waitFor();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await facts.getByRole('heading', { name: 'Cell 1 of row "top", left side' }).waitFor();
    for (const term of [
      'Light now',
      'Shade now',
      'Energy of the day',
      'Temperature',
      'Sharpest bend',
      'String',
      'Place',
    ]) {
      await facts.getByText(term, { exact: true }).waitFor();
    }
    await facts.getByText(/W\/m² get in/).waitFor();
    await panel.getByLabel('Cell', { exact: true }).selectOption({ label: 'cell 8 of row "top", right side' });
    await facts.getByRole('heading', { name: 'Cell 8 of row "top", right side' }).waitFor();
    const box = (await map.locator('svg').first().boundingBox())!;
    await page.mouse.click(box.x + box.width * 0.3, box.y + box.height - 40);
    await facts.getByRole('heading', { name: /^Cell \d of row "top", left side$/ }).waitFor();
  });

  it('follows hour and heading', async () => {
    const { page } = await visit();
    await settled(page);
    const { panel, facts } = await cells(page);
    await panel.getByRole('tab', { name: 'Light at this hour' }).click();
    await panel
      .getByText(/^Under a clear sky at \d\d:\d\d, heading 0°/)
      .first()
      .waitFor();
    const light = facts.getByText(/W\/m² get in/);
    const before = await light.textContent();
    const hour = panel.getByRole('textbox', { name: 'Hour, typed, in h' });
    await hour.fill('9');
    await hour.press('Enter');
    const heading = panel.getByRole('textbox', { name: 'Heading, typed, in deg' });
    await heading.fill('90');
    await heading.press('Enter');
    await panel
      .getByText(/^Under a clear sky at 09:00, heading 90°/)
      .first()
      .waitFor();
    expect(await light.textContent()).not.toBe(before);
    await page
      .getByText(/^At 09:00, heading 90° it gives at most \d/)
      .first()
      .waitFor();
  });

  it('gives cells to a new string as one step that undo takes back', async () => {
    const { page } = await visit();
    await settled(page);
    const { panel, map, facts } = await cells(page);
    await map.focus();
    await page.keyboard.press('Space');
    await panel.getByRole('button', { name: 'Mark this cell', pressed: true }).waitFor();
    await panel.getByRole('button', { name: 'Mark none' }).click();
    await panel.getByLabel('Or by number, from the root').selectOption({ label: 'top, left side' });
    await panel.getByRole('textbox', { name: 'First cell' }).fill('9');
    await panel.getByRole('button', { name: 'Mark these' }).click();
    await panel.getByText(/numbers from 1 to 8/).waitFor();
    await panel.getByRole('textbox', { name: 'First cell' }).fill('1');
    await panel.getByRole('textbox', { name: 'Last cell' }).fill('8');
    await panel.getByRole('button', { name: 'Mark these' }).click();
    await panel.getByRole('button', { name: 'Give 8 cells' }).click();
    await panel
      .getByText(/string 2: top/)
      .first()
      .waitFor({ state: 'attached' });
    await facts.getByText(/"all", cell \d of 8, to converter "tracker"/).waitFor();
    await answered(page);
    await page.keyboard.press('ControlOrMeta+z');
    await facts.getByText(/"all", cell \d+ of 16, to converter "tracker"/).waitFor();
  });

  it('names losses, draws curves and wiring, and says that an array in light is live', async () => {
    const { page } = await visit();
    await settled(page);
    await cells(page);
    await page.getByText(/^Of \d+ Wh of light on the open cells \d+ Wh arrive at the bus/).waitFor();
    const wiring = page.getByRole('region', { name: 'How is it wired?' });
    await wiring.getByText('An array in light is always live', { exact: false }).first().waitFor();
    await wiring
      .getByText(/microtesla|µT/)
      .first()
      .waitFor();
    await page.getByRole('slider', { name: /^Shade through the day: read values/ }).focus();
    await page.keyboard.press('ArrowRight');
    await soon(() => verdictOf(page).count()).toBe(1);
  });

  it('looks for layouts, can be stopped, and takes one as a step that undo takes back', async () => {
    const { page } = await visit();
    await settled(page);
    const { facts } = await cells(page);
    const panel = page.getByRole('region', { name: 'Which layout gives most over this day?' });
    await panel.getByRole('button', { name: 'Look for layouts' }).press('Enter');
    await panel.getByRole('progressbar', { name: 'Layouts' }).waitFor();
    await panel.getByRole('button', { name: 'Stop: Layouts' }).press('Enter');
    await panel.getByText('Layouts: stopped.').waitFor();
    await panel.getByRole('button', { name: 'Compute: Layouts' }).press('Enter');
    const table = panel.getByRole('table', { name: 'Layouts of the array, most energy of the day first' });
    await table.getByRole('rowheader', { name: /^As built/ }).waitFor();
    const layout = table.getByRole('row', { name: /^1 row with 14 cells on "wing", 1 string/ });
    await layout.getByText('1 string of 14 cells at 7.2 V').waitFor();
    await layout.getByText(/^\d+ Wh\s+\(−\d+ Wh\)$/).waitFor();
    await layout.getByRole('button', { name: /^Take this layout/ }).press('Enter');
    await facts.getByText(/cell \d+ of 14, to converter/).waitFor();
    await panel.getByText(/^Before the last change/).waitFor();
    await answered(page);
    await page.keyboard.press('ControlOrMeta+z');
    await facts.getByText(/"all", cell \d+ of 16, to converter "tracker"/).waitFor();
  });

  it('ranks changes of the array by the energy of the day and applies one', async () => {
    const { page } = await visit();
    await settled(page);
    const { facts } = await cells(page);
    const panel = page.getByRole('region', { name: 'What to change about the array?' });
    await panel.getByText(/^Most energy over the day under a clear sky: 2 more cells in the row "top"/).waitFor();
    const rows = panel.getByRole('table').getByRole('row');
    await rows
      .nth(1)
      .getByText(/^\d+ Wh\s+\(\+\d+ Wh\)$/)
      .waitFor();
    await rows
      .nth(1)
      .getByRole('button', { name: /^Apply: 2 more cells/ })
      .click();
    await facts.getByText(/"all", cell \d+ of 18, to converter "tracker"/).waitFor();
  });
});
