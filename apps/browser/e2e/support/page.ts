import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { patience } from './index.js';

/** Waits until a value is as it should be. */
export const soon = (read: () => Promise<unknown>) => expect.poll(read, { timeout: patience, interval: 50 });

export const verdictOf = (page: Page): Locator => page.locator('#verdict');

const plain = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** The answer for each sky, with how sure it is. */
export const sureAnswers = async (page: Page): Promise<string> =>
  plain((await verdictOf(page).locator('[data-sky]').allInnerTexts()).join('; '));

/** The central answer for each sky: 'clear sky carried 09:30 to 18:31; ...'. */
export const answers = async (page: Page): Promise<string> =>
  (await verdictOf(page).locator('[data-sky]').allInnerTexts())
    .map((text) => /^.*?(?:not carried|carried \d\d:\d\d to \d\d:\d\d)/.exec(plain(text))?.[0] ?? plain(text))
    .join('; ');

/** Waits for a verdict of the aircraft, by the computed polars of its sections where there are some. */
export async function answered(page: Page, aircraft = 'Alondra'): Promise<void> {
  await verdictOf(page).getByRole('heading', { name: aircraft, exact: true }).waitFor();
  await verdictOf(page).locator('[data-sky="0"]').waitFor();
  await page.locator('#verdict[data-polars="known"]').waitFor();
}

/** Waits until nothing is being computed: the verdict of what the page shows, and how sure it is. */
export async function settled(page: Page, aircraft = 'Alondra'): Promise<void> {
  await answered(page, aircraft);
  await soon(async () => (await sureAnswers(page)).includes('being computed')).toBe(false);
  await verdictOf(page).locator('[data-state="done"]').waitFor({ state: 'attached' });
}

/** Leads to a place, or to a part of it. */
export async function goTo(page: Page, place: string, part?: string): Promise<void> {
  const places = page.getByRole('navigation', { name: 'Places' });
  await places.getByRole('button', { name: place, exact: true }).click();
  await page.getByRole('heading', { level: 2, name: place, exact: true }).waitFor();
  if (part === undefined) return;
  await page
    .getByRole('navigation', { name: `Parts of ${place}` })
    .getByRole('button', { name: part, exact: true })
    .click();
}

/** The input of a value; lists that are folded are opened on the way. */
export async function field(page: Page, path: string): Promise<Locator> {
  const input = page.locator(`main [data-path="${path}"]`).first();
  await input.waitFor({ state: 'attached' });
  for (const folded of await input.locator('xpath=ancestor::details[not(@open)]').all()) {
    await folded.locator('> summary').click();
  }
  return input;
}

/** Types a value and leaves the field with Enter. */
export async function type(page: Page, path: string, text: string): Promise<Locator> {
  const input = await field(page, path);
  await input.fill(text);
  await input.press('Enter');
  return input;
}

/** What is said about a field: its problem. */
export const problemOf = async (input: Locator): Promise<string> => {
  const id = await input.getAttribute('id');
  const problem = input.page().locator(`[id="${id}-problem"]`);
  return (await problem.count()) === 0 ? '' : ((await problem.textContent()) ?? '');
};

/** Runs a command by its name, through the list of all commands. */
export async function command(page: Page, name: string): Promise<void> {
  await page.keyboard.press('ControlOrMeta+k');
  const find = page.getByRole('combobox', { name: 'Find a command' });
  await find.fill(name);
  await page.getByRole('listbox', { name: 'Commands' }).getByRole('option', { name }).first().waitFor();
  await find.press('Enter');
  await find.waitFor({ state: 'detached' });
}

/** Waits until every change is in the storage. */
export const saved = (page: Page): Promise<void> => page.getByText('Saved on this device').waitFor();

/** Chooses files where the page asks for them. */
export async function give(
  page: Page,
  ask: () => Promise<void>,
  files: readonly { readonly name: string; readonly content: string | Buffer }[],
): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), ask()]);
  await chooser.setFiles(
    files.map(({ name, content }) => ({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(content) })),
  );
}

/** What a press saves: its name and content. */
export async function savedFile(page: Page, ask: () => Promise<void>): Promise<{ name: string; content: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download'), ask()]);
  const parts: Buffer[] = [];
  for await (const part of await download.createReadStream()) parts.push(part as Buffer);
  return { name: download.suggestedFilename(), content: Buffer.concat(parts) };
}
