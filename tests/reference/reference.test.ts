import { readdirSync } from 'node:fs';
import { describe, test } from 'vitest';
import type { CheckRow } from './checkRow.ts';

const folder = new URL('.', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.rows.ts'));

for (const file of files) {
  const { rows } = (await import(new URL(file, folder).href)) as { rows: CheckRow[] };
  describe(file.replace('.rows.ts', ''), () => {
    test.each(rows.map((row) => [row.id, row] as const))('%s', async (_id, row) => {
      try {
        await row.check();
      } catch (cause) {
        throw new Error(`${row.id} (${row.source}; ${row.status})`, { cause });
      }
    });
  });
}
