import type { MarkStore } from '../port.ts';
import type { Database } from '../schema.ts';

export function markStore(db: Database): MarkStore {
  return {
    async get(name) {
      const row = await db.selectFrom('marks').select('value').where('name', '=', name).executeTakeFirst();
      return row?.value ?? null;
    },
    set: (name, value) => writeMarks(db, [[name, value]]),
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
