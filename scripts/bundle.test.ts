import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isBundleFresh } from '../apps/cli/bin/bundle.js';

describe('whether the bundle of the command line can be started', () => {
  let folder = '';
  const from = () => pathToFileURL(`${folder}/`);
  const write = (path: string, second: number) => {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, '');
    utimesSync(file, second, second);
  };
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'noonwing-bundle-'));
    write('packages/engine/dist/.tsbuildinfo', 100);
    write('packages/verdict/dist/.tsbuildinfo', 110);
    write('apps/cli/dist/.tsbuildinfo', 120);
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it('cannot where there is none', () => expect(isBundleFresh(from())).toBe(false));

  it('can where it was made last', () => {
    write('apps/cli/dist/bundle/main.js', 121);
    expect(isBundleFresh(from())).toBe(true);
  });

  it.each(['packages/engine', 'packages/verdict', 'apps/cli'])('cannot where %s was compiled after it', (name) => {
    write('apps/cli/dist/bundle/main.js', 121);
    write(`${name}/dist/.tsbuildinfo`, 122);
    expect(isBundleFresh(from())).toBe(false);
  });
});
