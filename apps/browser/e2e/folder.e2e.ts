import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, field, goTo, soon, type } from './support/page.js';

const example = (name: string) =>
  readFileSync(fileURLToPath(new URL(`../../../examples/${name}`, import.meta.url)), 'utf8');

/**
 * The picker of the browser cannot be pressed by a test. The private file system of the page hands out the same kind of handle,
 * with real files behind it.
 */
function pickFromPrivateFiles(): void {
  const picker = async () => (await navigator.storage.getDirectory()).getDirectoryHandle('bird', { create: true });
  Object.assign(window, { showDirectoryPicker: picker });
}

/** The same where the browser asks again after a reload. */
function pickAndAskAgain(): void {
  const picker = async () => (await navigator.storage.getDirectory()).getDirectoryHandle('bird', { create: true });
  // A page that is not yet that of the server has no files.
  if (typeof FileSystemHandle === 'undefined') return;
  let granted = false;
  Object.assign(window, { showDirectoryPicker: picker });
  Object.assign(FileSystemHandle.prototype, {
    queryPermission: async () => (granted ? 'granted' : 'prompt'),
    requestPermission: async () => {
      granted = true;
      return 'granted';
    },
  });
}

/** Writes a file of the folder as another program would. */
const writeOutside = (page: Page, name: string, text: string) =>
  page.evaluate(
    async ([path, content]) => {
      const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('bird', { create: true });
      const file = await (await folder.getFileHandle(path!, { create: true })).createWritable();
      await file.write(content!);
      await file.close();
    },
    [name, text],
  );

const readOutside = (page: Page, name: string) =>
  page.evaluate(async (path) => {
    const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('bird');
    return (await (await folder.getFileHandle(path)).getFile()).text();
  }, name);

const lookAgain = (page: Page) => page.evaluate(() => window.dispatchEvent(new Event('focus')));

const design = example('alondra.yaml').replace('name: Alondra', 'name: Folder bird');

inBrowser('a folder opened in place', ({ visit }) => {
  async function opened(before: () => void): Promise<Page> {
    const { page } = await visit({ before });
    await answered(page);
    await writeOutside(page, 'bird.yaml', design);
    await writeOutside(page, 'bird.day.yaml', example('alondra.day.yaml'));
    await goTo(page, 'Choose');
    await page.getByRole('button', { name: 'Open a folder in place' }).click();
    await page.getByText('The folder bird is open in place').waitFor();
    await answered(page, 'Folder bird');
    await goTo(page, 'Design', 'Balance');
    return page;
  }

  it('writes changes into its files, and takes changes from outside', async () => {
    const page = await opened(pickFromPrivateFiles);
    await type(page, 'battery.x', '11 mm');
    await soon(async () => /\bx: 11 mm/.test(await readOutside(page, 'bird.yaml'))).toBe(true);
    const text = await readOutside(page, 'bird.yaml');
    // What was not touched stays as it was written, comments included.
    expect(text.replace('x: 11 mm', 'x: 20 mm')).toBe(design);
    await writeOutside(page, 'bird.yaml', text.replace('x: 11 mm', 'x: 7 mm'));
    await lookAgain(page);
    await soon(async () => (await field(page, 'battery.x')).inputValue()).toBe('7 mm');
  });

  it('asks which to keep where a file changed on both sides', async () => {
    const page = await opened(pickFromPrivateFiles);
    await writeOutside(page, 'bird.yaml', design.replace('x: 20 mm\n  z: -40 mm', 'x: 3 mm\n  z: -40 mm'));
    await type(page, 'battery.x', '15 mm');
    const dialog = page.getByRole('dialog', { name: 'bird.yaml changed on both sides' });
    await dialog.waitFor();
    await dialog.getByRole('button', { name: 'Take the one of the folder' }).click();
    await soon(async () => (await field(page, 'battery.x')).inputValue()).toBe('3 mm');
  });

  it('goes on after a reload', async () => {
    const page = await opened(pickFromPrivateFiles);
    await type(page, 'battery.x', '12 mm');
    await soon(async () => /\bx: 12 mm/.test(await readOutside(page, 'bird.yaml'))).toBe(true);
    await page.reload();
    await answered(page, 'Folder bird');
    await page.getByText('The folder bird is open in place').waitFor();
    await type(page, 'battery.x', '13 mm');
    await soon(async () => /\bx: 13 mm/.test(await readOutside(page, 'bird.yaml'))).toBe(true);
  });

  it('is used again after one press where the browser asks, with what changed meanwhile', async () => {
    const page = await opened(pickAndAskAgain);
    await page.reload();
    await answered(page, 'Folder bird');
    const again = page.getByRole('button', { name: 'Open it again' });
    await again.waitFor();
    await type(page, 'battery.x', '14 mm');
    await writeOutside(page, 'notes.txt', 'flew well');
    expect(await readOutside(page, 'bird.yaml')).toBe(design);
    await again.click();
    await page.getByText('The folder bird is open in place').waitFor();
    await soon(async () => /\bx: 14 mm/.test(await readOutside(page, 'bird.yaml'))).toBe(true);
  });
});
