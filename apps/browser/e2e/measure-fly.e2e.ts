import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, answers, command, field, goTo, settled, soon } from './support/page.js';

/** Dark pixels of a grey picture (PGM, 8 bit) in its upper, middle and lower third. */
function inkOf(picture: Buffer): number[] {
  const [, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(picture.subarray(0, 40).toString('latin1'))!;
  const pixels = picture.subarray(picture.length - Number(width) * Number(height));
  const third = Math.floor(pixels.length / 3);
  return [0, 1, 2].map((n) => pixels.subarray(n * third, (n + 1) * third).filter((grey) => grey < 128).length);
}

const hasPoppler = spawnSync('pdftoppm', ['-v']).status === 0;

async function write(page: Page, kind: string, values: Readonly<Record<string, string>>) {
  await page.getByRole('button', { name: `Write down a reading: ${kind}` }).click();
  const form = page.getByRole('form', { name: kind });
  for (const [label, text] of Object.entries(values)) await form.getByLabel(label, { exact: true }).fill(text);
  return form;
}

/** Limits take longer than a verdict, the more on a loaded machine [ms]. */
const later = 60_000;

inBrowser('measuring and flying', ({ visit }) => {
  const measure = async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Measure');
    return page;
  };

  it('adds a static motor run, says what the model expected, and computes with or without it', async () => {
    const page = await measure();
    const before = await answers(page);
    const form = await write(page, 'Motor run, standing still', { Volts: '14,2 V', Amps: '12.5 A ± 0.2 A' });
    await form.getByText(/Difference/).waitFor();
    await form.getByRole('button', { name: 'Add to the design file' }).click();
    await page.getByText('1 record in the design file, 1 of them computed with.').waitFor();
    await soon(() => answers(page)).not.toBe(before);
    const withIt = page.getByRole('switch', { name: 'computed with' });
    await withIt.click({ force: true });
    await page.getByText('1 record in the design file, 0 of them computed with.').waitFor();
    await soon(() => answers(page)).toBe(before);
    await page.getByRole('button', { name: /^Take away Motor run/ }).click();
    await page.getByText('No reading is in the design file yet').waitFor();
    await page.getByRole('button', { name: /^Undo: take motor run/ }).click();
    await page.getByText('1 record in the design file').waitFor();
  });

  it('adds a reading of the cells in the sun', async () => {
    const page = await measure();
    const before = await answers(page);
    const form = await write(page, 'Cells in the sun', {
      'Amps into the battery': '2.1 A',
      'Volts at the battery': '15.2 V',
      'Date and time': '2026-06-21T14:00+02:00',
    });
    await form.getByText(/Difference/).waitFor();
    await form.getByRole('button', { name: 'Add to the design file' }).click();
    await page.getByText('1 record in the design file, 1 of them computed with.').waitFor();
    await soon(() => answers(page)).not.toBe(before);
  });

  it('adds a load test: what was expected, the factor it leaves, and the limit speed with it', async () => {
    const page = await measure();
    const form = await write(page, 'Load test of the wing', {
      'Weight put on': '0.4 kg',
      'Weight at': '1100',
      'Went down by': '60 mm ± 1 mm',
    });
    await form
      .getByText(/60 mm down under 0\.40 kg at 1100 mm, expected \d+ mm: bending stiffness \d+ % ± \d+ %/)
      .waitFor({ timeout: later });
    await form.getByText(/Limit speed .* with it\./).waitFor({ timeout: later });
    await form.getByRole('button', { name: 'Add to the design file' }).click();
    await page.getByText('1 record in the design file, 1 of them computed with.').waitFor();
    const row = page.getByRole('listitem').filter({ hasText: 'Load test of the wing' });
    await row.getByText(/bending stiffness \d+ %/).waitFor();
    await page.getByRole('button', { name: 'Undo: add load test of the wing' }).waitFor();
  });

  it('adds a bent strip of a material that is chosen', async () => {
    const page = await measure();
    const form = await write(page, 'Bent strip of a material', {
      Width: '50 mm',
      Thickness: '1.5 mm',
      'Supports apart': '150 mm',
      Weight: '50 g',
      'Went down by': '0.8 mm',
    });
    await form.getByRole('button', { name: 'Add to the design file' }).click();
    await form.getByText('Material is needed.').waitFor();
    await form.getByLabel('Material', { exact: true }).selectOption('balsa');
    await form.getByText(/MPa by a bent strip, expected .* MPa: stiffness of balsa \d+ %/).waitFor({ timeout: later });
    await form.getByRole('button', { name: 'Add to the design file' }).click();
    await page.getByText('1 record in the design file, 1 of them computed with.').waitFor();
  });

  it('adds a weighing and takes it in place of the sum', async () => {
    const page = await measure();
    const form = await write(page, 'Weighing', { 'Mass ready to fly': 'heavy' });
    await form.getByText(/start with a number/).waitFor();
    await form.getByRole('button', { name: 'Add to the design file' }).click();
    await page.getByText('No reading is in the design file yet').waitFor();
    await form.getByLabel('Mass ready to fly', { exact: true }).fill('1.62 kg ± 0.01 kg');
    await form.getByRole('button', { name: 'Add to the design file' }).click();
    await page.getByText('1 record in the design file, 1 of them computed with.').waitFor();
    await goTo(page, 'Design', 'Balance');
    await page
      .getByRole('definition')
      .filter({ hasText: /^1\.62\d? kg/ })
      .waitFor();
  });

  it('prints one page of A4 for the field, with words and a drawing on all of it', async () => {
    const page = await measure();
    await goTo(page, 'Fly');
    await settled(page);
    await page.getByRole('img', { name: /^First flight/ }).waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    const text = pdf.toString('latin1');
    expect(text.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(text)!;
    // A4 is 210 mm x 297 mm, in points of 1/72 inch.
    expect(Number(box[1])).toBeCloseTo((210 / 25.4) * 72, -1);
    expect(Number(box[2])).toBeCloseTo((297 / 25.4) * 72, -1);
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('navigation', { name: 'Places' }).isVisible()).toBe(false);
    if (!hasPoppler) return;
    const folder = mkdtempSync(join(tmpdir(), 'noonwing-print-'));
    try {
      writeFileSync(join(folder, 'page.pdf'), pdf);
      spawnSync('pdftoppm', ['-gray', '-r', '60', '-singlefile', 'page.pdf', 'page'], { cwd: folder });
      for (const ink of inkOf(readFileSync(join(folder, 'page.pgm')))) expect(ink).toBeGreaterThan(500);
      const words = spawnSync('pdftotext', ['-layout', 'page.pdf', '-'], { cwd: folder, encoding: 'utf8' }).stdout;
      for (const word of ['First flight: Alondra', 'Stall', 'Keep the balance point', 'Cautions', 'Wind, at most'])
        expect(words).toContain(word);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('sets another aircraft, and an earlier state, side by side', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Choose');
    await page.getByRole('button', { name: 'Compare with Bandeja' }).click();
    const panel = page.getByRole('region', { name: 'Side by side' });
    await panel.getByRole('columnheader', { name: /Bandeja/ }).waitFor();
    await panel.getByRole('row', { name: /^mass / }).waitFor();
    await panel.getByText(/values of the files differ/).waitFor();
    await panel.getByRole('button', { name: 'Stop comparing' }).click();
    await panel.waitFor({ state: 'detached' });
    await command(page, 'Compare with the aircraft as it is now');
    await panel.getByText('The files say the same.').waitFor();
    await goTo(page, 'Design', 'Balance');
    const place = await field(page, 'battery.x');
    await place.fill('0 mm');
    await place.press('Enter');
    await panel.getByText('1 value of the files differs').waitFor();
  });

  it('shows values in the units that the person prefers, and keeps the file as it is', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Design', 'Airframe');
    const chord = await field(page, 'surfaces.wing.stations[1].chord');
    expect(await chord.inputValue()).toBe('230 mm');
    await command(page, 'Preferences');
    const dialog = page.getByRole('dialog', { name: 'Preferences' });
    await dialog.getByLabel('lengths').selectOption('in');
    await page.keyboard.press('Escape');
    await soon(() => chord.inputValue()).toMatch(/^9\.0\d+ in$/);
    await page.getByRole('button', { name: 'Text of the file' }).click();
    const text = await page.getByRole('textbox', { name: /^Text of / }).inputValue();
    expect(text.includes('chord: 230 mm')).toBe(true);
    await page.reload();
    await answered(page);
    await soon(async () => (await field(page, 'surfaces.wing.stations[1].chord')).inputValue()).toMatch(/ in$/);
  });
});
