/** Tags of YAML 1.2 alone: `openDocument` of packages/design reads every file by them, whatever version a file names. */
const coreTags = `
import { map } from './common/map.js';
import { seq } from './common/seq.js';
import { string } from './common/string.js';
import { schema as core } from './core/schema.js';

export const coreKnownTags = {};
export function getTags(customTags, name) {
  if (name === 'core') return core.slice();
  if (name === 'failsafe') return [map, seq, string];
  throw new Error('the page is built without the YAML schema ' + name);
}
`;

const writers: Readonly<Record<string, readonly string[]>> = {
  stringify: ['stringify', 'createStringifyContext'],
  stringifyCollection: ['stringifyCollection'],
  stringifyComment: ['stringifyComment', 'indentComment', 'lineComment'],
  stringifyDocument: ['stringifyDocument'],
  stringifyNumber: ['stringifyNumber'],
  stringifyPair: ['stringifyPair'],
  stringifyString: ['stringifyString'],
};

const noWriter = (names: readonly string[]): string => `
const never = () => {
  throw new Error('this worker reads files and writes none');
};
export { ${names.map((name) => `never as ${name}`).join(', ')} };
`;

const partOfYaml = /\/node_modules\/yaml\/browser\/dist\/(\w+)\/(\w+)\.js$/;

/**
 * Leaves out of the YAML reader what is never used: the tags of YAML 1.1, and in the worker `readingOnly`, whose script the first
 * verdict waits for, everything that writes. A plugin of Vite.
 *
 * readingOnly - end of the path of a worker's file
 */
export function leanYaml(readingOnly?: string) {
  let writes = true;
  return {
    name: 'lean-yaml',
    apply: 'build' as const,
    enforce: 'pre' as const,
    buildStart({ input }: { readonly input: readonly string[] | Readonly<Record<string, string>> }): void {
      writes = readingOnly === undefined || !Object.values(input).some((path) => path.endsWith(readingOnly));
    },
    load(id: string): string | null {
      const [, folder, file] = partOfYaml.exec(id) ?? [];
      if (folder === 'schema' && file === 'tags') return coreTags;
      const names = folder === 'stringify' && !writes ? writers[file!] : undefined;
      return names === undefined ? null : noWriter(names);
    },
  };
}
