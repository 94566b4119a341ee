import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { leanYaml } from './lean-yaml.js';

const icon = (size: number, purpose: 'any' | 'maskable') => ({
  src: `./icon${purpose === 'maskable' ? '-maskable' : ''}-${size}.png`,
  sizes: `${size}x${size}`,
  type: 'image/png',
  purpose,
});

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  // Relative addresses: the built folder works below any path of any web host.
  base: './',
  plugins: [
    react(),
    leanYaml(),
    VitePWA({
      // The page registers the worker itself and offers a new version; it is used only when the user agrees.
      registerType: 'prompt',
      injectRegister: false,
      filename: 'sw.js',
      manifest: {
        name: 'noonwing',
        short_name: 'noonwing',
        description: 'Will sunlight carry this aircraft, here, on that day, and which change would help most?',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#fffcf5',
        theme_color: '#fffcf5',
        icons: [
          { src: './icon.svg', sizes: 'any', type: 'image/svg+xml' },
          icon(192, 'any'),
          icon(512, 'any'),
          icon(512, 'maskable'),
        ],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,png,json,webmanifest}'],
        // Everything that the built page has, places that load later included: offline means all of it.
        maximumFileSizeToCacheInBytes: 8_000_000,
        navigateFallback: 'index.html',
        cleanupOutdatedCaches: true,
        inlineWorkboxRuntime: true,
        sourcemap: false,
      },
    }),
  ],
  build: {
    target: 'es2022',
    // Nothing inlined: the page is served with a policy that allows files of its own origin only.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  worker: { format: 'es', plugins: () => [leanYaml('/src/worker.ts')] },
  server: { fs: { allow: [fileURLToPath(new URL('../..', import.meta.url))] } },
});
