import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { findViolations } from './boundaries.mjs';
import { importsOf, impuritiesOf } from './source-tokens.mjs';

let base = '';

const plant = (path: string, text: string) => {
  mkdirSync(dirname(join(base, path)), { recursive: true });
  writeFileSync(join(base, path), text);
};

const manifest = (name: string, dependencies: readonly string[]) =>
  JSON.stringify({ name, dependencies: Object.fromEntries(dependencies.map((one) => [one, '1'])) });

beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'noonwing-boundaries-'));
  plant('package.json', JSON.stringify({ devDependencies: { vitest: '1', 'fast-check': '1' } }));
  for (const name of ['quantities', 'engine', 'work']) plant(`packages/${name}/package.json`, manifest(name, []));
  plant('packages/files/package.json', manifest('files', ['@noonwing/quantities']));
  const below = ['@noonwing/quantities', '@noonwing/files', '@noonwing/engine'];
  plant('packages/design/package.json', manifest('design', [...below, 'yaml']));
  plant('packages/verdict/package.json', manifest('verdict', ['@noonwing/design', '@noonwing/engine']));
  plant('apps/cli/package.json', manifest('cli', [...below, '@noonwing/design', '@noonwing/verdict', 'commander']));
  plant('apps/browser/package.json', manifest('browser', ['@noonwing/verdict']));
});

afterEach(() => rmSync(base, { recursive: true, force: true }));

/** The same module named in every way that the language has. */
const forms = (specifier: string): readonly (readonly [string, string])[] => [
  ['import', `import { a } from '${specifier}';`],
  ['import over lines', `import {\n  a,\n  // b,\n  c,\n} from "${specifier}";`],
  ['import for effect', `import '${specifier}';`],
  ['import type', `import type { A } from '${specifier}';`],
  ['inline type', `import { type A } from '${specifier}';`],
  ['type import()', `export type B = import('${specifier}').A;`],
  ['import()', `export const later = async () => await import('${specifier}');`],
  ['import() with comment', `export const later = () => import(/* chunk */ '${specifier}');`],
  ['import() of a template', `export const later = () => import(\`${specifier}\`);`],
  ['export from', `export { a } from '${specifier}';`],
  ['export all', `export * from '${specifier}';`],
  ['export all as', `export * as everything from '${specifier}';`],
  ['export type from', `export type { A } from '${specifier}';`],
  ['require', `const a = require('${specifier}');`],
  ['import require', `import a = require('${specifier}');`],
  ['import.meta.resolve', `export const where = import.meta.resolve('${specifier}');`],
  ['reference', `/// <reference types="${specifier}" />`],
  ['declare module', `declare module '${specifier}' {}`],
  ['behind a string with slashes', `const a = 'http://x'; import('${specifier}');`],
  ['behind a regular expression', `const a = /['"\`]/; export * from '${specifier}';`],
  ['inside a template', `const a = \`\${await import('${specifier}')} end\`;`],
  ['with an escape', `import '${specifier.replace('e', '\\u0065')}';`],
];

const upward = [
  ['packages/engine/src/wing/a.ts', '@noonwing/quantities', 'engine may import nothing of ours'],
  ['packages/engine/src/wing/a.ts', '../../../quantities/src/index.js', 'engine by relative path'],
  ['packages/quantities/src/a.ts', '@noonwing/engine', 'quantities may import nothing of ours'],
  ['packages/work/src/a.ts', '@noonwing/engine/wing', 'work may import nothing of ours, nor a part of it'],
  ['packages/files/src/a.ts', '@noonwing/engine', 'files may import quantities only'],
  ['packages/design/src/a.ts', '@noonwing/verdict', 'design may not import upward'],
  ['packages/design/src/a.ts', '../../engine/src/index.js', 'even what is allowed goes by name'],
  ['packages/verdict/src/a.ts', '@noonwing/files', 'verdict may not import files'],
  ['packages/verdict/src/a.ts', '../../../apps/cli/src/main.js', 'no package imports an app'],
  ['apps/browser/src/a.ts', '@noonwing/cli', 'an app imports no other app'],
  ['apps/browser/src/a.tsx', '@noonwing/design', 'not among its dependencies'],
  ['packages/engine/src/air/a.ts', '../sun/index.js', 'folders of one group'],
  ['packages/engine/src/math/a.ts', '../air/index.js', 'to the right'],
  ['packages/engine/src/section/a.ts', '../wing/lattice.js', 'to the right'],
  ['packages/engine/src/wing/a.ts', '../drive/index.js', 'folders of one group'],
  ['packages/engine/src/wing/deep/a.ts', '../../flight/index.js', 'from a sub-folder'],
  ['packages/engine/src/flight/a.ts', '@noonwing/engine/day', 'by the own package name'],
  ['packages/engine/src/wing/a.ts', '@noonwing/engine', 'the whole engine from a part'],
  ['packages/engine/src/wing/a.ts', '../index.js', 'the whole engine by path'],
  ['packages/engine/src/check.ts', './wing/index.js', 'common files stand below'],
  ['packages/engine/src/colours/a.ts', '../math/index.js', 'a folder without a place'],
  ['packages/engine/src/day/a.ts', 'node:fs', 'no Node in the engine'],
  ['packages/engine/src/day/a.ts', 'fs/promises', 'no Node in the engine, old name'],
  ['packages/engine/src/day/a.ts', 'ml-matrix', 'no library in the engine'],
  ['packages/quantities/src/a.ts', 'zod', 'no library in quantities'],
  ['packages/work/src/pool.ts', 'node:worker_threads', 'no Node in work: its adapters take the worker'],
  ['packages/design/src/a.ts', 'node:path', 'design runs in the browser'],
  ['packages/design/src/a.ts', 'zod', 'not declared'],
  ['packages/design/src/a.ts', 'vitest', 'a test library in the program'],
  ['packages/design/src/a.ts', '/engine/index.js', 'absolute'],
  ['packages/design/src/a.ts', '#inner', 'private names'],
] as const;

describe('planted violations', () => {
  for (const [path, specifier, why] of upward) {
    it(`${path} -> ${specifier}: ${why}`, () => {
      for (const [form, text] of forms(specifier)) {
        plant(path, text);
        expect(findViolations(base), form).toHaveLength(1);
        expect(findViolations(base)[0], form).toContain(`${path}:`);
      }
    });
  }

  it('finds a package without a rule, and a computed module name', () => {
    plant('packages/design/src/a.ts', 'export const f = (name: string) => import("../" + name);');
    plant('packages/extra/src/index.ts', 'export {};');
    expect(findViolations(base)).toEqual([
      expect.stringContaining('packages/design/src/a.ts:1: import() "..."'),
      expect.stringContaining('packages/extra: no rule'),
    ]);
  });

  it('finds clock and randomness in the engine, not in its tests', () => {
    const text = 'export const a = Math.random() + Date.now() + new Date().valueOf() + performance.now();';
    plant('packages/engine/src/math/a.ts', text);
    plant('packages/engine/src/math/a.test.ts', text);
    expect(findViolations(base)).toHaveLength(4);
  });

  it('holds tests to the order of packages', () => {
    plant('packages/engine/src/wing/a.test.ts', "import { read } from '@noonwing/quantities';");
    plant('packages/files/src/a.test.ts', "import { b } from '../../design/src/index.js';");
    plant('packages/work/src/a.test.ts', "import zod from 'zod';");
    expect(findViolations(base)).toHaveLength(3);
  });
});

describe('what is allowed', () => {
  it('passes a type given to files by a pattern, and nothing else that is declared', () => {
    plant('packages/design/src/a.d.ts', "declare module '*.css'; declare module '*?raw' { const text: string; }");
    expect(findViolations(base)).toEqual([]);
    plant('packages/design/src/a.d.ts', "declare module 'zod';");
    expect(findViolations(base)).toHaveLength(1);
  });

  it('passes the order from left to right', () => {
    plant(
      'packages/engine/src/wing/a.ts',
      "import { b } from '../section/index.js'; import type { C } from '../check.js';",
    );
    plant(
      'packages/engine/src/day/a.ts',
      "export * from '../flight/index.js'; export * from './b.js'; import '../sun/x.js';",
    );
    plant('packages/engine/src/index.ts', "export * from './check.js'; export * from './day/index.js';");
    plant('packages/engine/src/relations.ts', "export * from './wing/relations.js';");
    plant(
      'packages/verdict/src/a.ts',
      "import { b } from '@noonwing/engine/wing'; import { c } from '@noonwing/design';",
    );
    plant('packages/design/src/a.ts', "import { parse } from 'yaml'; import { d } from '@noonwing/files';");
    plant('apps/cli/src/main.ts', "import { join } from 'node:path'; import 'commander'; import('@noonwing/verdict');");
    expect(findViolations(base)).toEqual([]);
  });

  it('lets tests use test libraries, Node, and all of their own package', () => {
    const text = "import { it } from 'vitest'; import 'fast-check'; import 'node:fs'; import '../day/index.js';";
    plant('packages/engine/src/wing/a.test.ts', text);
    expect(findViolations(base)).toEqual([]);
  });

  it('lets tests of a whole application start it by the scripts, and nothing else do so', () => {
    const text = "import 'node:fs'; import { it } from 'vitest'; import { b } from '../../../scripts/b.mjs';";
    plant('apps/browser/e2e/a.e2e.ts', text);
    expect(findViolations(base)).toEqual([]);
    plant('apps/browser/src/a.test.ts', "import { b } from '../../../scripts/b.mjs';");
    plant('packages/design/e2e/a.ts', "import { b } from '../../../scripts/b.mjs';");
    plant('apps/browser/e2e/b.ts', "import { b } from '../../cli/src/main.js';");
    expect(findViolations(base)).toHaveLength(3);
  });

  it('does not read comments, strings, templates and regular expressions', () => {
    const hidden = "import { a } from '@noonwing/verdict'";
    const text = [
      `// ${hidden};`,
      `/* ${hidden}; */`,
      `const a = "import('@noonwing/verdict')";`,
      `const b = \`${hidden} \${1 + 1} require('@noonwing/verdict')\`;`,
      "const c = /import\\('@noonwing\\/verdict'\\)/;",
      "const d = 6 / 2; const e = other.import('@noonwing/verdict'); const f = 3 / 1;",
      "const note = 'Math.random() and Date.now()';",
    ].join('\n');
    plant('packages/engine/src/wing/a.ts', text);
    expect(findViolations(base)).toEqual([]);
  });
});

describe('reading of source text', () => {
  it('gives line numbers and forms', () => {
    expect(importsOf("\n\nimport a,\n{ b } from 'c';\nexport * from './d.js';\nimport(e);")).toEqual([
      { specifier: 'c', line: 4, form: 'from' },
      { specifier: './d.js', line: 5, form: 'from' },
      { specifier: undefined, line: 6, form: 'import()' },
    ]);
    expect(importsOf('import.meta.url; const from = 1; from; a.from("x"); Array.from(b)')).toEqual([]);
    expect(impuritiesOf('new Date(0); Math.sqrt(2)')).toEqual([]);
  });

  it('survives text that ends anywhere', () => {
    const template = ['`x $', '{d ? `y $', "{'z'}` : /[/]/g} w`"].join('');
    const text = `import { a } from 'b'; const c = ${template}; /* e */ import('f') // g`;
    for (let end = 0; end <= text.length; end += 1) expect(() => importsOf(text.slice(0, end))).not.toThrow();
    expect(importsOf(text)).toHaveLength(2);
  });
});
