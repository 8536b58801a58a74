import { wordingsColumn } from '../json.ts';
import type { WordingStore, WordingsVersion } from '../port.ts';
import type { Database } from '../schema.ts';
import { saveNext } from './versionedStore.ts';

export function wordingStore(db: Database): WordingStore {
  async function current(yardId: string): Promise<WordingsVersion> {
    const rows = db.selectFrom('wordings').selectAll().where('yardId', '=', yardId);
    const row = await rows.orderBy('version', 'desc').limit(1).executeTakeFirst();
    if (row === undefined) return { yardId, version: 0, overrides: {}, by: null, savedMs: 0 };
    return { ...row, overrides: wordingsColumn.read(row.overrides) };
  }
  const insert = async ({ overrides, ...row }: WordingsVersion) =>
    db
      .insertInto('wordings')
      .values({ ...row, overrides: wordingsColumn.write(overrides, 'overrides') })
      .execute();
  const table = { whatIs: 'the wordings are', current, insert };
  return { current, save: ({ expectedVersion, ...change }) => saveNext(table, change, expectedVersion) };
}
