/**
 * `npm test`: every gate, then every test, in one run. The last line is 'N passed, N failed': one for each gate and each test.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { findBrowser, howToGetBrowser, isBrowserRequired } from './find-browser.mjs';
import { root, runNode, tools } from './tools.mjs';

/** Fixed, so that the same tests see the same days on every machine; the seed of the property tests is in scripts/test-setup.ts. */
const environment = {
  TZ: 'UTC',
  LANG: 'C.UTF-8',
  LC_ALL: 'C.UTF-8',
  // Colour codes only hinder where the output goes to a file.
  ...(process.stdout.isTTY ? {} : { NO_COLOR: '1' }),
};

/** @type {readonly (readonly [name: string, script: string, parameters: readonly string[]])[]} */
const gates = [
  ['build and types of the program', join(root, 'scripts/prepare.mjs'), []],
  ['types of the tests', tools.typescript, ['-p', 'tsconfig.test.json']],
  ['types of the scripts', tools.typescript, ['-p', 'tsconfig.scripts.json']],
  ...(existsSync(join(root, 'apps/browser/tsconfig.json'))
    ? [/** @type {const} */ (['types of the page', tools.typescript, ['-p', 'apps/browser/tsconfig.json', '--noEmit']])]
    : []),
  ['format and lint', tools.biome, ['check', '.', '--error-on-warnings']],
  ['who imports whom', join(root, 'scripts/boundaries.mjs'), []],
  ['VALIDATION.md is what the checks give', join(root, 'scripts/validation.mjs'), ['--check']],
];

/**
 * @param {string} reportPath JSON report of the test runner
 * @param {number} code its exit code
 */
export function countTests(reportPath, code) {
  /** @type {{ numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number,
   *   testResults: { status: string, assertionResults: unknown[] }[] }} */
  const report = JSON.parse(readFileSync(reportPath, 'utf8'));
  // A file that does not even load has no test that could fail: count the file.
  const unloaded = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  const passed = report.numPassedTests;
  let failed = report.numFailedTests + unloaded.length;
  if (failed === 0 && (code !== 0 || passed === 0)) failed = 1;
  return { passed, failed, skipped: report.numPendingTests + report.numTodoTests };
}

async function runTests() {
  const folder = mkdtempSync(join(tmpdir(), 'noonwing-test-'));
  const reportPath = join(folder, 'report.json');
  try {
    const parameters = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${reportPath}`];
    const code = await runNode(tools.vitest, parameters, environment);
    return existsSync(reportPath) ? countTests(reportPath, code) : { passed: 0, failed: 1, skipped: 0 };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * What to say of the tests in a browser; undefined where they run or fail by themselves.
 * @param {{ browser: string | undefined, required: boolean, howTo: string }} found
 */
export const browserNote = ({ browser, required, howTo }) =>
  browser !== undefined || required
    ? undefined
    : `Skipped: the tests of the page in a browser (apps/browser/e2e), because no browser was found. ${howTo}`;

async function main() {
  let passed = 0;
  /** @type {string[]} */
  const failures = [];
  for (const [name, script, parameters] of gates) {
    const code = await runNode(script, parameters, environment);
    console.log(`${code === 0 ? 'passed' : 'FAILED'}: ${name}`);
    if (code === 0) passed += 1;
    else failures.push(name);
  }
  const tests = await runTests();
  const failed = failures.length + tests.failed;
  if (tests.failed > 0) failures.push(`${tests.failed} of the tests`);
  if (failures.length > 0) console.log(`\nFailed: ${failures.join('; ')}`);
  const note = browserNote({ browser: findBrowser(), required: isBrowserRequired(), howTo: howToGetBrowser() });
  if (note !== undefined) console.log(`\n${note}`);
  const skipped = tests.skipped > 0 ? `, ${tests.skipped} skipped` : '';
  console.log(`\n${passed + tests.passed} passed, ${failed} failed${skipped}`);
  return failed === 0 ? 0 : 1;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) process.exitCode = await main();
