import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  resolve: {
    // Tests run from source, so that a failing test points at the line that is wrong.
    alias: [
      { find: '@noonwing/engine/relations', replacement: here('./packages/engine/src/relations.ts') },
      { find: /^@noonwing\/engine\/(.*)$/, replacement: `${here('./packages/engine/src')}/$1/index.ts` },
      { find: /^@noonwing\/verdict\/(.*)$/, replacement: `${here('./packages/verdict/src')}/$1.ts` },
      ...readdirSync(here('./packages')).map((name) => ({
        find: new RegExp(`^@noonwing/${name}$`),
        replacement: here(`./packages/${name}/src/index.ts`),
      })),
    ],
  },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'program',
          include: ['packages/*/src/**/*.test.ts', 'apps/*/src/**/*.test.{ts,tsx}', 'scripts/**/*.test.ts'],
          sequence: { groupOrder: 0 },
        },
      },
      {
        // After the others, so that a browser does not share the machine with them.
        extends: true,
        test: {
          name: 'browser',
          include: ['apps/browser/e2e/**/*.e2e.ts'],
          globalSetup: [here('./apps/browser/e2e/support/prepare.ts')],
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
          sequence: { groupOrder: 1 },
        },
      },
    ],
    setupFiles: [here('./scripts/test-setup.ts')],
    env: { TZ: 'UTC' },
    testTimeout: 60_000,
  },
});
