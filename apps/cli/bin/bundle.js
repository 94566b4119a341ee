import { readdirSync, statSync } from 'node:fs';

const root = new URL('../../../', import.meta.url);

/** The built program in a few files, which load faster than the hundreds that the compiler writes. */
export const bundleOf = (from = root) => new URL('apps/cli/dist/bundle/main.js', from);

/** When a file was written [ms since 1970]; 0 where it is not there. @param {URL} file */
const writtenAt = (file) => statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;

/** Whether the bundle is there and nothing was compiled after it. from - folder of the repository */
export function isBundleFresh(from = root) {
  const made = writtenAt(bundleOf(from));
  if (made === 0) return false;
  const packages = readdirSync(new URL('packages/', from)).map((name) => `packages/${name}`);
  return ['apps/cli', ...packages].every((name) => writtenAt(new URL(`${name}/dist/.tsbuildinfo`, from)) <= made);
}
