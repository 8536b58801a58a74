import { newId } from '../newId.ts';
import { type PileStore, RecordsError } from '../port.ts';
import { found, isEmptyChange, refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function pileStore(db: Database): PileStore {
  const read = (id: string) => db.selectFrom('piles').selectAll().where('id', '=', id).executeTakeFirst();
  return {
    list(yardId, { openAtMs } = {}) {
      const piles = db.selectFrom('piles').selectAll().where('yardId', '=', yardId);
      const asked =
        openAtMs === undefined
          ? piles
          : piles.where((pile) => pile.or([pile('endedMs', 'is', null), pile('endedMs', '>', openAtMs)]));
      return asked.orderBy('name').orderBy('id').execute();
    },
    get: async (id) => (await read(id)) ?? null,
    create({ id = newId(), yardId, name, place, method, startedMs }) {
      const row = { id, yardId, name, place, method, startedMs, endedMs: null };
      const insert = db.insertInto('piles').values(row).returningAll().executeTakeFirstOrThrow();
      return refusing(insert, {
        unique: ['id', `there is a pile ${id} already`],
        reference: 'yardId',
      });
    },
    async update(id, change) {
      if (isEmptyChange(change)) return found(await read(id), 'pileId', id);
      const update = db.updateTable('piles').set(change).where('id', '=', id).returningAll();
      return found(await update.executeTakeFirst(), 'pileId', id);
    },
    async end(id, endedMs) {
      const end = db
        .updateTable('piles')
        .set({ endedMs })
        .where('id', '=', id)
        .where('startedMs', '<=', endedMs)
        .returningAll();
      const ended = await end.executeTakeFirst();
      if (ended) return ended;
      const { startedMs } = found(await read(id), 'pileId', id);
      throw new RecordsError('endedMs', `endedMs ${endedMs} is before the pile was started (${startedMs})`);
    },
  };
}
