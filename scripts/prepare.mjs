/**
 * Brings a clone into working order: installs what package-lock.json asks for and builds what is stale, and nothing else.
 * `npm start` and `npm test` run it first. `--build` rebuilds everything; `--install` stops before the build, which the
 * test script then counts as one of its gates.
 */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isBundleFresh } from '../apps/cli/bin/bundle.js';
import { hashFiles, listFiles, readTextOr, root, runNode, runNpm, shown, tools } from './tools.mjs';

const lockPath = join(root, 'package-lock.json');
const installedStamp = join(root, 'node_modules/.noonwing-installed');
const browser = join(root, 'apps/browser');
const browserStamp = join(browser, 'dist/.built-from');

/**
 * Whether every package of the lock file is installed in the version it names. Optional packages may be absent:
 * they are builds for other systems.
 * @param {{ packages?: Record<string, { version?: string, integrity?: string, optional?: boolean, devOptional?: boolean, link?: boolean }> }} wanted
 *   content of package-lock.json
 * @param {{ packages?: Record<string, { version?: string, integrity?: string }> }} present what npm says it installed
 */
export function sameInstallation(wanted, present) {
  const installed = present.packages ?? {};
  const asked = wanted.packages ?? {};
  for (const [path, entry] of Object.entries(asked)) {
    if (path === '') continue;
    const found = installed[path];
    if (found === undefined) {
      if (entry.optional || entry.devOptional) continue;
      return false;
    }
    if (found.version !== entry.version || found.integrity !== entry.integrity) return false;
  }
  return Object.keys(installed).every((path) => path in asked);
}

/** @param {string} wantedStamp */
function isInstalled(wantedStamp) {
  const key = [tools.typescript, tools.vitest, tools.biome, join(root, 'node_modules/@noonwing/engine/package.json')];
  if (!key.every((path) => existsSync(path))) return false;
  if (readTextOr(installedStamp, '').trim() === wantedStamp) return true;
  try {
    const present = JSON.parse(readFileSync(join(root, 'node_modules/.package-lock.json'), 'utf8'));
    return sameInstallation(JSON.parse(readFileSync(lockPath, 'utf8')), present);
  } catch {
    return false;
  }
}

/** @returns {boolean} whether everything is installed afterwards */
function install() {
  // Some packages carry programs for one system: a folder copied from another machine is not an installation.
  const wantedStamp = `${hashFiles([lockPath])} ${process.platform}-${process.arch}`;
  if (!isInstalled(wantedStamp)) {
    console.log('Installing the packages that package-lock.json names (needs the network this once) ...');
    // A NODE_ENV of "production" in the environment would leave the compiler out: ask for it by name.
    const code = runNpm(['ci', '--include=dev', '--no-audit', '--no-fund', '--prefer-offline']);
    if (code !== 0) {
      console.error(
        code === 127
          ? 'npm was not found. Install Node 20.19 or later together with npm, then try again.'
          : `Installing failed: "npm ci" ended with code ${code}. The lines above say why; without a network the first start cannot work.`,
      );
      return false;
    }
  }
  if (readTextOr(installedStamp, '').trim() !== wantedStamp) writeFileSync(installedStamp, `${wantedStamp}\n`);
  return true;
}

/**
 * @param {boolean} force
 * @returns {Promise<boolean>}
 */
async function buildPackages(force) {
  const code = await runNode(tools.typescript, force ? ['-b', '--force'] : ['-b']);
  if (code !== 0) console.error('The build failed: the compiler lines above name file and line.');
  return code === 0;
}

/**
 * The command line in a few files, after the packages are compiled.
 * @param {boolean} force
 * @returns {Promise<boolean>}
 */
async function bundleCommandLine(force) {
  if (isBundleFresh() && !force) return true;
  const code = await runNode(tools.vite, ['build', join(root, 'apps/cli'), '--logLevel', 'warn']);
  if (code !== 0) console.error('Bundling the command line failed: the lines above say why.');
  return code === 0;
}

/** Everything that the page is made of: its own files and the sources of the packages it bundles. */
function browserSources() {
  const isSource = (/** @type {string} */ path) => !/\.test\.[cm]?tsx?$|^apps\/browser\/e2e\//.test(shown(path));
  const packages = listFiles(join(root, 'packages'), (path) => isSource(path) && /[\\/]src[\\/]/.test(path));
  return [...listFiles(browser, isSource), ...packages, ...listFiles(join(root, 'examples')), lockPath];
}

/**
 * @param {boolean} force
 * @returns {Promise<boolean>}
 */
async function buildPage(force) {
  if (!existsSync(join(browser, 'index.html'))) return true;
  const hash = hashFiles(browserSources());
  const isFresh = existsSync(join(browser, 'dist/index.html')) && readTextOr(browserStamp, '').trim() === hash;
  if (isFresh && !force) return true;
  // Removed first, so that a build that fails half-way is not taken for a finished one next time.
  rmSync(browserStamp, { force: true });
  console.log('Building the page ...');
  const code = await runNode(tools.vite, ['build', browser, '--logLevel', 'warn'], { NODE_ENV: 'production' });
  if (code !== 0) {
    console.error('Building the page failed: the lines above say why.');
    return false;
  }
  writeFileSync(browserStamp, `${hash}\n`);
  return true;
}

/** @param {{ force: boolean, builds: boolean }} options */
export async function prepare({ force, builds }) {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Node ${process.versions.node} is too old: noonwing needs 20.19 or later.`);
    return false;
  }
  if (!install()) return false;
  return !builds || ((await buildPackages(force)) && (await bundleCommandLine(force)) && (await buildPage(force)));
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const asked = { force: process.argv.includes('--build'), builds: !process.argv.includes('--install') };
  process.exitCode = (await prepare(asked)) ? 0 : 1;
}
