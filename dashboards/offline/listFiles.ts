import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import type { Plugin } from 'vite';

/** Name the service worker is served under; at the top, so that it may serve every page. */
export const workerFile = 'sw.js';

/** Writes the list of everything that was built, and a version made from it, before the service worker's own code. */
export function listFilesForWorker(publicFolder: string): Plugin {
  return {
    name: 'tilth-list-files',
    generateBundle(_options, bundle) {
      const built = Object.keys(bundle).filter((name) => name !== workerFile && !name.endsWith('.html'));
      const files = [...built, ...readdirSync(publicFolder)].map((name) => `/${name}`).sort();
      const worker = bundle[workerFile];
      if (worker?.type !== 'chunk') throw new Error(`the build made no ${workerFile}`);
      const html = Object.values(bundle).map((part) =>
        part.type === 'asset' ? String(part.source) : part.code,
      );
      const version = createHash('sha256')
        .update(JSON.stringify([files, html]))
        .digest('hex')
        .slice(0, 12);
      worker.code = `self.tilthFiles=${JSON.stringify(files)};self.tilthVersion="${version}";${worker.code}`;
    },
  };
}
