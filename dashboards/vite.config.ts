import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Name the service worker is served under; at the top, so that it may serve every page. */
const workerFile = 'sw.js';

/** Writes the list of everything that was built, and a version made from it, before the service worker's own code. */
const listFilesForWorker: Plugin = {
  name: 'tilth-list-files',
  generateBundle(_options, bundle) {
    const built = Object.keys(bundle).filter((name) => name !== workerFile && !name.endsWith('.html'));
    const files = [...built, ...readdirSync(here('./public'))].map((name) => `/${name}`).sort();
    const worker = bundle[workerFile];
    if (worker?.type !== 'chunk') throw new Error(`the build made no ${workerFile}`);
    const contents = Object.values(bundle).map((part) =>
      part.type === 'asset' ? String(part.source) : part.code,
    );
    const version = createHash('sha256')
      .update(JSON.stringify([files, contents]))
      .digest('hex')
      .slice(0, 12);
    worker.code = `self.tilthFiles=${JSON.stringify(files)};self.tilthVersion="${version}";${worker.code}`;
  },
};

/** Two pages: the app people carry, and the wall that hangs in the shed and must stay small; and what keeps them offline. */
export default defineConfig({
  root: here('.'),
  base: '/',
  publicDir: here('./public'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [listFilesForWorker],
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
