/**
 * What the other scripts share. Node built-ins only: these run before anything is installed, on any system and without a shell.
 */
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds the repository's package.json. */
export const root = fileURLToPath(new URL('..', import.meta.url));

/** Entry files of the installed tools, started with this very node, so that no shell and no PATH is involved. */
export const tools = {
  typescript: join(root, 'node_modules/typescript/bin/tsc'),
  vite: join(root, 'node_modules/vite/bin/vite.js'),
  vitest: join(root, 'node_modules/vitest/vitest.mjs'),
  biome: join(root, 'node_modules/@biomejs/biome/bin/biome'),
  noonwing: join(root, 'apps/cli/bin/noonwing.js'),
};

/**
 * Runs a JavaScript file with this node in the repository's root and shows its output.
 * @param {string} script
 * @param {readonly string[]} [parameters]
 * @param {Record<string, string>} [environment] added to the present one
 * @returns {Promise<number>} exit code; 1 where a signal ended it
 */
export function runNode(script, parameters = [], environment = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [script, ...parameters], {
      cwd: root,
      stdio: 'inherit',
      env: { ...process.env, ...environment },
    });
    child.on('error', reject);
    child.on('exit', (code) => resolve(code ?? 1));
  });
}

/**
 * Runs npm: the one that started this script, else the one on the PATH (a command file on Windows, which needs the shell).
 * @param {readonly string[]} parameters
 * @returns {number} exit code; 127 where npm is missing
 */
export function runNpm(parameters) {
  const started = process.env.npm_execpath;
  const options = { cwd: root, stdio: /** @type {'inherit'} */ ('inherit') };
  const result =
    started !== undefined && /npm-cli\.[cm]?js$/.test(started)
      ? spawnSync(process.execPath, [started, ...parameters], options)
      : spawnSync('npm', parameters, { ...options, shell: process.platform === 'win32' });
  if (result.error) return 127;
  return result.status ?? 1;
}

const skippedFolders = new Set(['node_modules', 'dist', '.git', 'coverage']);

/**
 * Every file below a folder whose path passes the filter, sorted, without dependencies and build results.
 * @param {string} folder
 * @param {(path: string) => boolean} [keep]
 * @returns {string[]} absolute paths
 */
export function listFiles(folder, keep = () => true) {
  if (!existsSync(folder)) return [];
  /** @type {string[]} */
  const found = [];
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      if (!skippedFolders.has(entry.name)) found.push(...listFiles(path, keep));
    } else if (entry.isFile() && keep(path)) found.push(path);
  }
  return found.sort();
}

/**
 * A path as it is written in messages: relative to the root, with forward slashes on every system.
 * @param {string} path
 * @param {string} [base]
 */
export const shown = (path, base = root) => relative(base, path).split(sep).join('/');

/**
 * Content hash of files and their names.
 * @param {readonly string[]} paths
 */
export function hashFiles(paths) {
  const hash = createHash('sha256');
  for (const path of paths) {
    hash.update(shown(path)).update('\0').update(readFileSync(path)).update('\0');
  }
  return hash.digest('hex');
}

/**
 * Text of a file, or the given text where it cannot be read.
 * @param {string} path
 * @param {string} otherwise
 */
export function readTextOr(path, otherwise) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return otherwise;
  }
}
