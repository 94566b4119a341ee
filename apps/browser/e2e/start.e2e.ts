import { expect, it } from 'vitest';
import { inBrowser } from './support/index.js';
import { answered, answers, goTo, settled, soon, sureAnswers, verdictOf } from './support/page.js';

inBrowser('starting', ({ visit, site }) => {
  it('shows the verdict of the demo at the first start, in words and with how sure it is', async () => {
    const { page } = await visit();
    await settled(page);
    const found = await sureAnswers(page);
    expect(found).toMatch(/clear sky ?carried \d\d:\d\d to \d\d:\d\d/);
    expect(found).toMatch(/thin cloud ?carried/);
    expect(found).toMatch(/in 10|in every case/);
    expect(await page.title()).toBe('Alondra: noonwing');
    await verdictOf(page).getByText('What limits it').waitFor();
    await page.getByRole('slider', { name: 'Hour of the day' }).waitFor();
  });

  it('has every example ready, and opens another copy of one', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Choose');
    for (const name of ['Bandeja', 'Vigilia']) {
      await page.getByRole('button', { name: `Open ${name}`, exact: true }).click();
      await answered(page, name);
      expect(await answers(page)).toContain('clear sky');
    }
    const rows = page.getByRole('button', { name: /^Rename / });
    const before = await rows.count();
    await page.getByText('An example once more, as it was at first').click();
    await page.getByRole('button', { name: 'Open afresh: Alondra' }).click();
    await answered(page);
    expect(await rows.count()).toBe(before + 1);
  });

  it('makes a new aircraft out of a few answers, and says which answer it cannot use', async () => {
    const { page } = await visit();
    await answered(page);
    await goTo(page, 'Choose');
    const form = page.getByRole('region', { name: 'New aircraft' });
    await form.getByLabel('What is it called?').fill('Golondrina');
    const span = form.getByLabel('Wing span?');
    await span.fill('wide');
    await form.getByRole('button', { name: 'Create the aircraft' }).click();
    await form.getByText('"wide": expected').waitFor();
    await soon(() => span.evaluate((input) => input === document.activeElement)).toBe(true);
    await span.fill('2,2 m');
    await form.getByLabel('How many solar cells?').fill('20');
    await form.getByRole('button', { name: 'Create the aircraft' }).click();
    await answered(page, 'Golondrina');
    await page.getByRole('heading', { level: 2, name: 'Design', exact: true }).waitFor();
    await page.getByText('2.2 m of span').or(page.getByText('2.20 m of span')).waitFor();
  });

  it('is served with a policy that allows neither words as scripts nor anything from elsewhere', async () => {
    const { page, watch } = await visit();
    watch.allow(/Content Security Policy/);
    const answer = await page.request.get(site().address);
    const policy = answer.headers()['content-security-policy'] ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toMatch(/script-src 'self'(;|$)/);
    expect(policy).toMatch(/style-src 'self'(;|$)/);
    expect(policy).toMatch(/connect-src 'self'(;|$)/);
    expect(policy).not.toContain('unsafe');
    expect(await answer.text()).not.toMatch(/<script(?![^>]*\ssrc=)|\son[a-z]+=|\sstyle=|<style/i);
    await answered(page);
    const reaches = await page.evaluate(async () => {
      const inline = document.createElement('script');
      inline.textContent = 'window.reached = true';
      document.body.append(inline);
      const elsewhere = await fetch('http://127.0.0.1:9/').then(
        () => true,
        () => false,
      );
      return { inline: 'reached' in window, elsewhere };
    });
    expect(reaches).toEqual({ inline: false, elsewhere: false });
  });

  it('shows names and notes of files as words, whatever they contain', async () => {
    const { page } = await visit();
    await answered(page);
    const attack = '<img src=x onerror=alert(1)><svg onload=alert(2)></svg><script>alert(3)</script>';
    await goTo(page, 'Design', 'Airframe');
    const name = page.getByRole('region', { name: 'The file itself' }).getByLabel('name', { exact: true });
    await name.fill(attack);
    await name.blur();
    await verdictOf(page).getByRole('heading', { name: attack }).waitFor();
    await page.getByRole('button', { name: 'Text of the file' }).click();
    const text = page.getByRole('textbox', { name: /^Text of / });
    const written = await text.inputValue();
    await text.fill(
      written
        .replace('  pod:             {mass', `  "${attack}": {mass: 10 g, x: 0 mm}\n  pod:             {mass`)
        .replace('notes: |\n', `notes: |\n  ${attack}\n`),
    );
    await text.blur();
    await goTo(page, 'Day');
    await page.getByLabel('Name of the place').fill(attack);
    await page.getByLabel('Name of the place').blur();
    await goTo(page, 'Choose');
    await page.getByRole('button', { name: 'Rename Alondra' }).click();
    await page.getByRole('dialog').getByLabel('Name').fill(attack);
    await page.getByRole('dialog').getByRole('button', { name: 'Rename' }).click();
    for (const place of ['Choose', 'Day', 'Measure', 'Fly', 'Design']) {
      await goTo(page, place);
      if (place === 'Design') {
        const parts = page.getByRole('navigation', { name: 'Parts of Design' }).getByRole('button');
        for (const part of await parts.all()) await part.click();
      }
      await answered(page, attack);
      expect(await page.locator('img, script:not([src]), [onerror], [onload]').count()).toBe(0);
    }
    await page.getByText('<img src=x onerror=alert(1)>').first().waitFor();
  });
});
