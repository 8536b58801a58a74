import type { ErrandStore } from '../port.ts';
import type { Database } from '../schema.ts';

export function errandStore(db: Database): ErrandStore {
  return {
    async add(errand) {
      await db
        .insertInto('errands')
        .values({ ...errand, taken: 0, answer: null })
        .execute();
    },
    async take(channels) {
      if (channels.length === 0) return [];
      // One statement, so that of two processes one gets it: a test is not to be sent twice.
      const rows = await db
        .updateTable('errands')
        .set({ taken: 1 })
        .where('taken', '=', 0)
        .where('channel', 'in', channels)
        .returning(['id', 'channel', 'address', 'createdMs'])
        .execute();
      return rows.sort((a, b) => a.createdMs - b.createdMs);
    },
    async answer(id, answer) {
      await db.updateTable('errands').set({ answer }).where('id', '=', id).execute();
    },
    async takeAnswer(id) {
      const gone = db.deleteFrom('errands').where('id', '=', id).where('answer', 'is not', null);
      return (await gone.returning('answer').executeTakeFirst())?.answer ?? null;
    },
    async takeBack(id) {
      const gone = db.deleteFrom('errands').where('id', '=', id).where('taken', '=', 0);
      return (await gone.returning('id').executeTakeFirst()) !== undefined;
    },
    async sweep(beforeMs) {
      await db.deleteFrom('errands').where('createdMs', '<', beforeMs).execute();
    },
  };
}
