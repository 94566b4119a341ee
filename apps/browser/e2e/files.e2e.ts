import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, answers, command, field, give, goTo, savedFile, soon, type } from './support/page.js';

const example = (name: string) =>
  readFileSync(fileURLToPath(new URL(`../../../examples/${name}`, import.meta.url)), 'utf8');

const choose = async (page: Page) => {
  await answered(page);
  await goTo(page, 'Choose');
};

const importFiles = (page: Page, ...files: { name: string; content: string | Buffer }[]) =>
  give(page, () => page.getByRole('button', { name: 'Import files or a zip' }).click(), files);

inBrowser('files', ({ visit }) => {
  it('imports a design and its day, and answers for them', async () => {
    const { page } = await visit();
    await choose(page);
    await importFiles(
      page,
      { name: 'mine.yaml', content: example('bandeja.yaml').replace('name: Bandeja', 'name: My tray') },
      { name: 'mine.day.yaml', content: example('bandeja.day.yaml') },
    );
    await answered(page, 'My tray');
    await page.getByRole('button', { name: 'Rename mine' }).waitFor();
  });

  it('takes files that are dropped', async () => {
    const { page } = await visit();
    await choose(page);
    const text = example('vigilia.yaml').replace('name: Vigilia', 'name: Dropped');
    const transfer = await page.evaluateHandle((content) => {
      const made = new DataTransfer();
      made.items.add(new File([content], 'dropped.yaml', { type: 'text/yaml' }));
      return made;
    }, text);
    await page.getByRole('region', { name: 'Drop files here' }).dispatchEvent('drop', { dataTransfer: transfer });
    await answered(page, 'Dropped');
  });

  it('gives a project out as a zip and takes the same project back in', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Design', 'Balance');
    await type(page, 'battery.x', '-33 mm');
    await soon(() => page.getByRole('button', { name: /^Undo/ }).getAttribute('aria-label')).toContain('battery');
    const zip = await savedFile(page, () => page.keyboard.press('ControlOrMeta+s'));
    expect(zip.name).toMatch(/^Alondra.*\.zip$/);
    expect(zip.content.subarray(0, 2).toString()).toBe('PK');
    await page.getByRole('button', { name: /^Undo/ }).click();
    const first = await answers(page);
    await goTo(page, 'Choose');
    await importFiles(page, { name: 'back again.zip', content: zip.content });
    await page.getByRole('button', { name: 'Rename back again' }).waitFor();
    await goTo(page, 'Design', 'Balance');
    await soon(async () => (await field(page, 'battery.x')).inputValue()).toBe('-33 mm');
    expect(first).toContain('carried');
  });

  it('saves the design file as it is, comments too', async () => {
    const { page } = await visit();
    await answered(page);
    const file = await savedFile(page, () => command(page, 'Save the design file'));
    expect(file.name).toBe('alondra.yaml');
    expect(file.content.toString()).toBe(example('alondra.yaml'));
    const plan = await savedFile(page, () => command(page, 'Save the day plan'));
    expect(plan.content.toString()).toBe(example('alondra.day.yaml'));
  });

  it('says what it does not take, and leaves what is open alone', async () => {
    const { page } = await visit();
    await choose(page);
    const before = await answers(page);
    const notices = page.getByRole('list', { name: 'Notices' });
    await importFiles(
      page,
      { name: 'broken.zip', content: Buffer.from('PK\u0003\u0004 and then nothing of a zip') },
      { name: 'picture.yaml', content: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 1, 255, 254]) },
    );
    await notices.getByText(/broken\.zip was not taken/i).waitFor();
    await notices.getByText(/picture\.yaml was not taken/i).waitFor();
    expect(await answers(page)).toBe(before);
    expect(await page.getByRole('button', { name: /^Rename / }).count()).toBe(3);
  });

  it('opens a design with errors, says where they are, and computes once they are gone', async () => {
    const { page } = await visit();
    await choose(page);
    const good = example('alondra.yaml').replace('name: Alondra', 'name: Mended');
    await importFiles(page, { name: 'torn.yaml', content: good.slice(0, 900) });
    await page.getByRole('button', { name: 'Rename torn' }).waitFor();
    await goTo(page, 'Design');
    await page.getByRole('button', { name: 'Text of the file' }).click();
    const text = page.getByRole('textbox', { name: /^Text of / });
    await text.fill(good);
    await answered(page, 'Mended');
  });
});
