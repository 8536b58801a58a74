import { sql } from 'kysely';
import type { MarkStore } from '../port.ts';
import type { Database } from '../schema.ts';

export function markStore(db: Database): MarkStore {
  return {
    async get(name) {
      const row = await db.selectFrom('marks').select('value').where('name', '=', name).executeTakeFirst();
      return row?.value ?? null;
    },
    async withPrefix(prefix) {
      // Not LIKE, because names hold _ and %; not a range, because databases order text each in their own way.
      const start = sql<string>`substr(name, 1, ${prefix.length})`;
      const found = await db.selectFrom('marks').selectAll().where(start, '=', prefix).execute();
      return new Map(found.map(({ name, value }) => [name, value]));
    },
    set: (name, value) => writeMarks(db, [[name, value]]),
    async setOnce(name, value) {
      await db
        .insertInto('marks')
        .values({ name, value })
        .onConflict((conflict) => conflict.column('name').doNothing())
        .execute();
      const stored = db.selectFrom('marks').select('value').where('name', '=', name);
      return (await stored.executeTakeFirstOrThrow()).value;
    },
  };
}

/** Sets marks in the order of their names, so that two writers never wait for each other. */
export async function writeMarks(db: Database, marks: readonly (readonly [string, string])[]): Promise<void> {
  for (const [name, value] of [...marks].sort(([a], [b]) => (a < b ? -1 : 1))) {
    await db
      .insertInto('marks')
      .values({ name, value })
      .onConflict((conflict) => conflict.column('name').doUpdateSet({ value }))
      .execute();
  }
}
