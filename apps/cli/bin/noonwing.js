#!/usr/bin/env node
// Committed so that `npx noonwing` resolves inside a clone and never asks a registry; the program itself is the build.
import { existsSync } from 'node:fs';
import module from 'node:module';
import { bundleOf, isBundleFresh } from './bundle.js';

// Node 22 and later keep what they have compiled, and start sooner the next time.
module.enableCompileCache?.();

const entry = isBundleFresh() ? bundleOf() : new URL('../dist/main.js', import.meta.url);
if (existsSync(entry)) {
  await import(entry.href);
} else {
  process.stderr.write('noonwing is not built yet. Run `npm start` (or `npm run build`) once in this folder.\n');
  process.exitCode = 3;
}
