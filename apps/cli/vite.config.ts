import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** The built program and all packages in a few files: a command starts in less time than with hundreds of them. */
export default defineConfig({
  root: at('.'),
  build: {
    ssr: at('dist/main.js'),
    outDir: at('dist/bundle'),
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    // Nobody downloads it.
    chunkSizeWarningLimit: 4000,
    reportCompressedSize: false,
  },
  ssr: { noExternal: true },
});
