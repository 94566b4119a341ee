import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  // Relative addresses: the built folder works below any path of any web host.
  base: './',
  build: {
    target: 'es2022',
    // Nothing inlined: the page is served with a policy that allows files of its own origin only.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  worker: { format: 'es' },
  server: { fs: { allow: [fileURLToPath(new URL('../..', import.meta.url))] } },
});
