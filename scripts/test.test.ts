import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { browserNote, countTests } from './test.mjs';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'noonwing-count-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const file = (status: string, tests: number) => ({
  status,
  assertionResults: Array.from({ length: tests }, () => ({})),
});
const count = (passed: number, failed: number, files: ReturnType<typeof file>[], code: number) => {
  const path = join(folder, 'report.json');
  const report = { numPassedTests: passed, numFailedTests: failed, numPendingTests: 2, numTodoTests: 0 };
  writeFileSync(path, JSON.stringify({ ...report, testResults: files }));
  return countTests(path, code);
};

describe('counting', () => {
  it('takes the counts of the test runner', () => {
    expect(count(5, 0, [file('passed', 7)], 0)).toEqual({ passed: 5, failed: 0, skipped: 2 });
    expect(count(5, 1, [file('failed', 8)], 1)).toEqual({ passed: 5, failed: 1, skipped: 2 });
  });

  it('counts a file that does not load, an error outside the tests, and a run without tests as failed', () => {
    expect(count(5, 0, [file('passed', 7), file('failed', 0)], 1).failed).toBe(1);
    expect(count(5, 0, [file('passed', 7)], 1).failed).toBe(1);
    expect(count(0, 0, [], 0).failed).toBe(1);
  });
});

describe('the note about tests that need a browser', () => {
  it('says which tests were left out and how to get one, and is silent where they ran or failed', () => {
    const howTo = 'Do this.';
    const note = browserNote({ browser: undefined, required: false, howTo });
    expect(note).toMatch(/^Skipped: .*apps\/browser\/e2e.*Do this\.$/);
    expect(browserNote({ browser: '/usr/bin/chromium', required: false, howTo })).toBeUndefined();
    expect(browserNote({ browser: undefined, required: true, howTo })).toBeUndefined();
  });
});
