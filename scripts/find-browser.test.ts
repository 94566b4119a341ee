import { describe, expect, it } from 'vitest';
import { findBrowser, howToGetBrowser, isBrowserRequired } from './find-browser.mjs';

interface Given {
  readonly platform?: string;
  readonly environment?: Readonly<Record<string, string>>;
  readonly files: readonly string[];
}

/** Looks on an imagined machine that has these files and no others. */
function found({ platform = 'linux', environment = {}, files }: Given): string | undefined {
  const separator = platform === 'win32' ? '\\' : '/';
  return findBrowser({
    platform,
    environment,
    home: platform === 'win32' ? 'C:\\Users\\ana' : '/home/ana',
    exists: (path) => files.includes(path),
    list: (folder) => {
      const inside = files.filter((path) => path.startsWith(`${folder}${separator}`));
      return [...new Set(inside.map((path) => path.slice(folder.length + 1).split(separator)[0]!))];
    },
  });
}

describe('finding a browser', () => {
  it('takes what is named, and nothing else', () => {
    const files = ['/usr/bin/chromium', '/opt/own/chrome'];
    expect(found({ files, environment: { CHROME_PATH: '/opt/own/chrome' } })).toBe('/opt/own/chrome');
    expect(found({ files, environment: { CHROME_PATH: '/opt/gone/chrome' } })).toBeUndefined();
    expect(found({ files, environment: { CHROME_PATH: '' } })).toBe('/usr/bin/chromium');
  });

  it('finds commands in the folders of the PATH and in the usual ones, a snap last', () => {
    expect(found({ files: ['/opt/tools/google-chrome'], environment: { PATH: '/opt/tools:/usr/bin' } })).toBe(
      '/opt/tools/google-chrome',
    );
    expect(found({ files: ['/usr/bin/google-chrome-stable'] })).toBe('/usr/bin/google-chrome-stable');
    const both = ['/snap/bin/chromium', '/usr/bin/google-chrome'];
    expect(found({ files: both, environment: { PATH: '/snap/bin:/usr/bin' } })).toBe('/usr/bin/google-chrome');
    expect(found({ files: ['/snap/bin/chromium'] })).toBe('/snap/bin/chromium');
  });

  it('does not take a command from a folder that is not absolute', () => {
    expect(found({ files: ['chromium', './chromium'], environment: { PATH: '.:' } })).toBeUndefined();
  });

  it('knows the places of other systems', () => {
    const mac = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';
    expect(found({ platform: 'darwin', files: [mac] })).toBe(mac);
    const own = '/home/ana/Applications/Chromium.app/Contents/MacOS/Chromium';
    expect(found({ platform: 'darwin', files: [own] })).toBe(own);
    const windows = 'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe';
    const environment = { PROGRAMFILES: 'C:\\Program Files' };
    expect(found({ platform: 'win32', environment, files: [windows] })).toBe(windows);
    const edge = 'C:\\Program Files\\Microsoft\\Edge\\Application\\msedge.exe';
    expect(found({ platform: 'win32', environment, files: [edge] })).toBe(edge);
  });

  it('takes the newest download of the test library where nothing is installed', () => {
    const cache = '/home/ana/.cache/ms-playwright';
    const files = [`${cache}/chromium-999/chrome-linux/chrome`, `${cache}/chromium-1200/chrome-linux/chrome`];
    expect(found({ files })).toBe(files[1]);
    expect(found({ files: [...files, '/usr/bin/chromium'] })).toBe('/usr/bin/chromium');
    const other = '/srv/browsers/chromium_headless_shell-1200/chrome-headless-shell-linux64/chrome-headless-shell';
    expect(found({ files: [other], environment: { PLAYWRIGHT_BROWSERS_PATH: '/srv/browsers' } })).toBe(other);
    const local = 'C:\\Users\\ana\\AppData\\Local\\ms-playwright\\chromium-7\\chrome-win64\\chrome.exe';
    expect(found({ platform: 'win32', files: [local] })).toBe(local);
  });

  it('finds nothing where there is nothing', () => {
    for (const platform of ['linux', 'darwin', 'win32', 'freebsd'])
      expect(found({ platform, files: [] })).toBeUndefined();
  });
});

it('says how to get one, and what is wrong with one that was named', () => {
  expect(howToGetBrowser('linux', {})).toContain('apt-get install chromium');
  expect(howToGetBrowser('darwin', {})).toContain('playwright-core/cli.js install chromium');
  expect(howToGetBrowser('linux', { CHROME_PATH: '/gone' })).toContain('/gone');
});

it('demands a browser only where it is asked to', () => {
  expect(isBrowserRequired({})).toBe(false);
  expect(isBrowserRequired({ NOONWING_BROWSER_REQUIRED: '0' })).toBe(false);
  expect(isBrowserRequired({ NOONWING_BROWSER_REQUIRED: '1' })).toBe(true);
});
