import { readFileSync } from 'node:fs';

const manifest: { readonly version: string } = JSON.parse(
  readFileSync(new URL('../package.json', import.meta.url), 'utf8'),
);

/** Version of this program, as its package says. */
export const programVersion = manifest.version;
