import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { listFilesForWorker, workerFile } from './offline/listFiles.ts';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Two pages: the app people carry, and the wall that hangs in the shed and must stay small; and what keeps them offline. */
export default defineConfig({
  root: here('.'),
  base: '/',
  publicDir: here('./public'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [listFilesForWorker(here('./public'))],
  build: {
    outDir: here('./dist'),
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: {
        app: here('./index.html'),
        wall: here('./wall.html'),
        worker: here('./offline/serviceWorker.ts'),
      },
      output: {
        entryFileNames: ({ name }) => (name === 'worker' ? workerFile : 'assets/[name]-[hash].js'),
      },
    },
  },
});
