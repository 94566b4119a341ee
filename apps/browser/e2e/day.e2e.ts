import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, answers, give, goTo, savedFile, settled, soon } from './support/page.js';
import { measuredLight, weatherYear } from './support/weather.js';

inBrowser('the day', ({ visit }) => {
  const start = async () => {
    const { page } = await visit();
    await answered(page);
    return page;
  };
  const day = async (part?: string) => {
    const page = await start();
    await goTo(page, 'Day', part);
    return page;
  };

  it('moves the sun of the whole page by dragging along the band, and back to the best hour', async () => {
    const page = await day('Light and power');
    const band = page.getByRole('slider', { name: 'Hour of the day' });
    const ledger = page.getByRole('heading', { name: /^Where does the light go at/ });
    const box = (await band.boundingBox())!;
    const y = box.y + box.height / 2;
    await page.mouse.move(box.x + box.width / 2, y);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.3, y);
    await page.mouse.move(box.x + box.width * 0.25, y);
    await page.mouse.up();
    const words = (await band.getAttribute('aria-valuetext')) ?? '';
    expect(words).toMatch(/^(0\d|10):\d\d: sun \d+° high in the (E|NE|SE|ENE|ESE)/);
    await soon(() => ledger.textContent()).toContain(words.slice(0, 5));
    await page.getByRole('button', { name: 'Best hour' }).click();
    await soon(() => band.getAttribute('aria-valuetext')).toMatch(/^1[34]:\d\d: sun 7\d° high in the S/);
  });

  it('moves along the band by keys', async () => {
    const page = await start();
    const band = page.getByRole('slider', { name: 'Hour of the day' });
    const at = async () => Number(await band.getAttribute('aria-valuenow'));
    await band.focus();
    await band.press('Home');
    await soon(at).toBeLessThan(7);
    await band.press('ArrowRight');
    await soon(async () => Math.abs(((await at()) * 12) % 1) < 0.01 || ((await at()) * 12) % 1 > 0.99).toBe(true);
    const first = await at();
    for (const [key, hours] of [
      ['ArrowRight', 1 / 12],
      ['PageUp', 1],
      ['ArrowLeft', -1 / 12],
      ['PageDown', -1],
    ] as const) {
      const before = await at();
      await band.press(key);
      await soon(async () => Math.abs((await at()) - before - hours) < 0.001).toBe(true);
    }
    expect(await at()).toBeCloseTo(first, 3);
    await band.press('End');
    await soon(() => band.getAttribute('aria-valuetext')).toMatch(/the sun is down/);
  });

  it('looks at another sky, and computes only what the plan asks for', async () => {
    const page = await day();
    const words = page.getByRole('slider', { name: 'Hour of the day' });
    await page.getByRole('radio', { name: 'broken cloud' }).check({ force: true });
    await soon(() => words.getAttribute('aria-valuetext')).toMatch(/Broken cloud: /);
    await page.locator('#verdict').getByText('What limits it, broken cloud:').waitFor();
    await page.getByLabel('Sky', { exact: true }).selectOption('overcast');
    await soon(() => answers(page)).toMatch(/^overcast/);
  });

  it('takes another date by number and by keys along months and days', async () => {
    const page = await day();
    const date = page.getByLabel('First day');
    const june = await answers(page);
    await date.fill('2026-12-21');
    await date.blur();
    await soon(() => answers(page)).not.toBe(june);
    await page.getByText('21 December 2026').first().waitFor();
    await page.getByRole('radio', { name: /^Dec/ }).press('ArrowRight');
    await soon(() => date.inputValue()).toBe('2027-01-21');
    await page.getByRole('radio', { name: /^21 Jan/ }).press('ArrowLeft');
    await soon(() => date.inputValue()).toBe('2027-01-20');
    await date.fill('yesterday');
    await date.blur();
    await soon(() => date.getAttribute('aria-invalid')).toBe('true');
    await page.getByText('20 January 2027').first().waitFor();
  });

  it('takes a place by coordinates, by name, and says what it cannot read', async () => {
    const page = await day();
    const typed = page.getByLabel('Coordinates');
    await typed.fill('somewhere nice');
    await page.getByText(/^Expected /).waitFor();
    await typed.fill("52°31'N 13°24'E");
    await page.getByText('read as latitude 52.517°, longitude 13.400°').waitFor();
    await typed.press('Enter');
    await typed.blur();
    await page.getByText(/Taken: 52\.5\d*° N 13\.4° E/).waitFor();
    await page.getByLabel('Place by name').fill('lisb');
    await page.getByRole('list', { name: 'Places found' }).getByRole('button', { name: /Lisbo/ }).click();
    await page.getByText(/^Taken: 38\.\d+° N 9\.\d+° W/).waitFor();
    await soon(() => page.getByLabel('Time zone').inputValue()).toBe('Europe/Lisbon');
  });

  it('takes a place from the map, by a press and by keys', async () => {
    const page = await day();
    const map = page.getByRole('application', { name: /^Map\./ });
    const taken = page.getByText(/^Taken: /);
    await map.locator('path').first().waitFor();
    await map.focus();
    await map.press('Shift+ArrowUp');
    await page.getByText(/^Looking at /).waitFor();
    await map.press('Escape');
    await soon(() => taken.textContent()).toContain('40.7° N 0.9° E');
    await map.press('ArrowLeft');
    await map.press('Enter');
    await soon(async () => (await taken.count()) === 1 && (await taken.textContent())?.includes('40.7° N 0.9° E')).toBe(
      false,
    );
    const before = await taken.textContent();
    await map.scrollIntoViewIfNeeded();
    const box = (await map.boundingBox())!;
    await page.mouse.click(box.x + box.width * 0.3, box.y + box.height * 0.3);
    await soon(() => taken.textContent()).not.toBe(before);
    await page.getByRole('button', { name: /^Undo: place/ }).waitFor();
  });

  it('takes the day out of a weather year, showing first what will be set', async () => {
    const page = await day();
    await page.getByRole('button', { name: 'Import weather' }).click();
    const choose = () => page.getByRole('button', { name: 'Choose a file' }).click();
    await give(page, choose, [{ name: 'delta.epw', content: 'LOCATION,nowhere\nnothing' }]);
    await page.getByRole('list', { name: 'Weather file' }).getByText('Error:').waitFor();
    await give(page, choose, [{ name: 'delta.epw', content: weatherYear }]);
    await page.getByText(/of the light of a clear sky/).waitFor();
    const before = await answers(page);
    await page.getByRole('button', { name: /^Set \d values?$/ }).click();
    await soon(() => answers(page)).not.toBe(before);
    expect(await page.getByRole('textbox', { name: 'Own clearness, in place of the skies' }).inputValue()).toMatch(
      /^\d+ % ± 5 %$/,
    );
    await page.getByRole('button', { name: /^Undo/ }).click();
    await soon(() => answers(page)).toBe(before);
  });

  it('takes measured light out of a table, and says what is wrong with another', async () => {
    const page = await day();
    await page.getByRole('button', { name: 'Import weather' }).click();
    const choose = () => page.getByRole('button', { name: 'Choose a file' }).click();
    await give(page, choose, [{ name: 'light.csv', content: 'time,pressure\n12:00,1013\n' }]);
    await page
      .getByRole('list', { name: 'Weather file' })
      .getByText(/pressure/)
      .waitFor();
    await give(page, choose, [{ name: 'light.csv', content: '\u0000\u0001\u0002' }]);
    await page.getByRole('list', { name: 'Weather file' }).getByText('Error:').waitFor();
    await give(page, choose, [{ name: 'light.csv', content: measuredLight }]);
    await page.getByText(/of the light of a clear sky/).waitFor();
    const before = await answers(page);
    await page.getByRole('button', { name: /^Set \d values?$/ }).click();
    await soon(() => answers(page)).not.toBe(before);
  });

  it('reads charts by keys, as a table, and saves them as SVG, PNG and CSV', async () => {
    const page = await day('Light and power');
    const figure = page.getByRole('region', { name: 'When does sunlight carry it?' });
    const chart = figure.getByRole('slider', { name: /read values$/ });
    await chart.focus();
    await chart.press('Home');
    const first = await chart.getAttribute('aria-valuetext');
    await chart.press('PageUp');
    await soon(() => chart.getAttribute('aria-valuetext')).not.toBe(first);
    const keep = async (what: string) => {
      await figure.getByRole('button', { name: 'Table, save' }).click();
      await page.getByRole('menuitem', { name: what }).click();
    };
    await keep('Show as a table');
    await figure.getByRole('table').waitFor();
    const svg = await savedFile(page, () => keep('Save as SVG'));
    expect(svg.name).toBe('the-day.svg');
    expect(svg.content.toString()).toMatch(/^<svg [^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    const csv = await savedFile(page, () => keep('Save the data as CSV'));
    const lines = csv.content.toString().trim().split('\n');
    expect(lines.length).toBeGreaterThan(20);
    // Names with a comma stand in quotation marks.
    const columns = (line: string) => line.replace(/"[^"]*"/g, '').split(',').length;
    expect(new Set(lines.map(columns)).size).toBe(1);
    const png = await savedFile(page, () => keep('Save as PNG'));
    expect(png.content.subarray(1, 4).toString()).toBe('PNG');
    expect(png.content.length).toBeGreaterThan(5000);
  });

  it('stops looking through the year when asked to, and looks again', async () => {
    const page = await day('Through the year');
    const question = page.getByRole('button', { name: 'Look through the year' });
    await question.first().click();
    const progress = page.getByRole('progressbar', { name: 'Look through the year' });
    await progress.waitFor();
    await progress.locator('xpath=..').getByRole('button', { name: 'Stop', exact: true }).click();
    await progress.waitFor({ state: 'detached' });
    await question.first().waitFor();
    await question.first().click();
    await progress.waitFor();
  });

  it('looks through the year, with progress', async () => {
    const page = await day('Through the year');
    await page.getByRole('button', { name: 'Look through the year' }).first().click();
    await page
      .getByRole('img', { name: /solar ratio|date/i })
      .first()
      .waitFor();
    await settled(page);
  });
});
