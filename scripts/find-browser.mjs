/**
 * Finds a Chromium or Chrome for the tests in a browser, the bench and the pictures. Nothing is installed or downloaded here.
 * `node scripts/find-browser.mjs` prints its path, or says how to get one and ends with code 1.
 */
import { existsSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { posix, win32 } from 'node:path';
import { pathToFileURL } from 'node:url';

/**
 * What the search may look at; given by tests, read from this machine otherwise.
 * @typedef {object} Surroundings
 * @property {string} platform as process.platform
 * @property {Readonly<Record<string, string | undefined>>} environment
 * @property {string} home
 * @property {(path: string) => boolean} exists
 * @property {(folder: string) => readonly string[]} list names in a folder; empty where there is none
 */

/** @returns {Surroundings} */
const thisMachine = () => ({
  platform: process.platform,
  environment: process.env,
  home: homedir(),
  exists: existsSync,
  list: (folder) => {
    try {
      return readdirSync(folder);
    } catch {
      return [];
    }
  },
});

/** Commands by which Linux distributions know it, the plainest first. */
const commands = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge-stable'];

/** @type {readonly string[]} */
const macApplications = [
  'Google Chrome.app/Contents/MacOS/Google Chrome',
  'Chromium.app/Contents/MacOS/Chromium',
  'Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
];

const windowsPrograms = ['Google\\Chrome\\Application\\chrome.exe', 'Chromium\\Application\\chrome.exe'];
const windowsEdge = 'Microsoft\\Edge\\Application\\msedge.exe';

/**
 * Where browsers are installed for everybody or for this user, in the order of preference.
 * @param {Surroundings} surroundings
 * @returns {string[]}
 */
function installedPlaces({ platform, environment, home }) {
  if (platform === 'darwin') {
    return ['/Applications', posix.join(home, 'Applications')].flatMap((folder) =>
      macApplications.map((application) => posix.join(folder, application)),
    );
  }
  if (platform === 'win32') {
    const roots = [environment.PROGRAMFILES, environment['PROGRAMFILES(X86)'], environment.LOCALAPPDATA].filter(
      (folder) => folder !== undefined,
    );
    return [...windowsPrograms, windowsEdge].flatMap((program) => roots.map((folder) => win32.join(folder, program)));
  }
  const folders = [...(environment.PATH ?? '').split(':'), '/usr/bin', '/usr/local/bin', '/opt/google/chrome'];
  // A browser in a snap sees neither /tmp nor hidden folders: taken only where there is no other.
  const own = [...new Set(folders)].filter((folder) => posix.isAbsolute(folder) && !folder.startsWith('/snap/'));
  return [...own, '/snap/bin'].flatMap((folder) => commands.map((name) => posix.join(folder, name)));
}

const testChrome = 'Google Chrome for Testing.app/Contents/MacOS/Google Chrome for Testing';

/** Paths inside a folder of the test library's downloads, by system. @type {Readonly<Record<string, readonly string[]>>} */
const insideDownload = {
  linux: [
    'chrome-linux64/chrome',
    'chrome-linux-arm64/chrome',
    'chrome-linux/chrome',
    'chrome-headless-shell-linux64/chrome-headless-shell',
    'chrome-headless-shell-linux-arm64/chrome-headless-shell',
  ],
  darwin: [`chrome-mac-arm64/${testChrome}`, `chrome-mac-x64/${testChrome}`],
  win32: ['chrome-win64\\chrome.exe', 'chrome-headless-shell-win64\\chrome-headless-shell.exe'],
};

/**
 * Browsers that playwright-core's own installer fetched, the newest first.
 * @param {Surroundings} surroundings
 * @returns {string[]}
 */
function downloadedPlaces({ platform, environment, home, list }) {
  const { join } = platform === 'win32' ? win32 : posix;
  const usual = {
    darwin: join(home, 'Library/Caches'),
    win32: environment.LOCALAPPDATA ?? join(home, 'AppData', 'Local'),
  };
  const caches = usual[/** @type {'darwin' | 'win32'} */ (platform)] ?? join(home, '.cache');
  const folder = environment.PLAYWRIGHT_BROWSERS_PATH || join(caches, 'ms-playwright');
  const number = (/** @type {string} */ name) => Number(name.slice(name.lastIndexOf('-') + 1));
  return list(folder)
    .filter((name) => /^chromium(_headless_shell)?-\d+$/.test(name))
    .sort((a, b) => number(b) - number(a) || a.localeCompare(b))
    .flatMap((name) => (insideDownload[platform] ?? []).map((inside) => join(folder, name, inside)));
}

/**
 * Path of a browser, or undefined where none is found. CHROME_PATH in the environment names one and is then the only
 * one looked at, so that a wrong path is noticed.
 * @param {Surroundings} [surroundings]
 * @returns {string | undefined}
 */
export function findBrowser(surroundings = thisMachine()) {
  const { environment, exists } = surroundings;
  const asked = environment.CHROME_PATH;
  if (asked !== undefined && asked !== '') return exists(asked) ? asked : undefined;
  return [...installedPlaces(surroundings), ...downloadedPlaces(surroundings)].find((path) => exists(path));
}

/**
 * How to get a browser, in words.
 * @param {string} [platform]
 * @param {Readonly<Record<string, string | undefined>>} [environment]
 */
export function howToGetBrowser(platform = process.platform, environment = process.env) {
  if (environment.CHROME_PATH) return `CHROME_PATH names ${environment.CHROME_PATH}, which is not there: correct it.`;
  const usual =
    platform === 'linux' ? 'apt-get install chromium (or the like of your system)' : 'install Chrome or Chromium';
  return `To get one: ${usual}, or: node node_modules/playwright-core/cli.js install chromium. CHROME_PATH=/path/to/chrome names one elsewhere.`;
}

/** Whether a browser that is missing is a failure (as where changes are judged) rather than tests left out. */
export const isBrowserRequired = (
  /** @type {Readonly<Record<string, string | undefined>>} */ environment = process.env,
) => !['', '0', 'no', 'false'].includes(environment.NOONWING_BROWSER_REQUIRED ?? '');

/**
 * How to start it: without a window, and without anything that it would like to fetch by itself. As root its own sandbox
 * does not start, so that it is left out there.
 * @param {string} executablePath
 */
export const launchOptions = (executablePath) => ({
  executablePath,
  args: [
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
    '--disable-quic',
    // Three dimensions without a graphics card.
    '--enable-unsafe-swiftshader',
    ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
  ],
});

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const found = findBrowser();
  console.log(found ?? `No browser was found. ${howToGetBrowser()}`);
  if (found === undefined) process.exitCode = 1;
}
