import type { Pile } from '../../../shared/yard/yard.ts';
import { buildColumn } from '../json.ts';
import { newId } from '../newId.ts';
import { type PileStore, RecordsError } from '../port.ts';
import { found, isEmptyChange, refusing } from '../refusals.ts';
import type { Database, PileRow } from '../schema.ts';

export function pileStore(db: Database): PileStore {
  const read = (id: string) => db.selectFrom('piles').selectAll().where('id', '=', id).executeTakeFirst();
  return {
    async list(yardId, { openAtMs } = {}) {
      const piles = db.selectFrom('piles').selectAll().where('yardId', '=', yardId);
      const asked =
        openAtMs === undefined
          ? piles
          : piles.where((pile) => pile.or([pile('endedMs', 'is', null), pile('endedMs', '>', openAtMs)]));
      return (await asked.orderBy('name').orderBy('id').execute()).map(pileOf);
    },
    get: async (id) => {
      const row = await read(id);
      return row === undefined ? null : pileOf(row);
    },
    async create({ id = newId(), yardId, name, place, method, startedMs, build }) {
      const row = { id, yardId, name, place, method, startedMs, endedMs: null, build: written(build) };
      const insert = db.insertInto('piles').values(row).returningAll().executeTakeFirstOrThrow();
      const made = await refusing(insert, {
        unique: ['id', `there is a pile ${id} already`],
        reference: 'yardId',
      });
      return pileOf(made);
    },
    async update(id, { build, ...change }) {
      const row = build === undefined ? change : { ...change, build: written(build) };
      if (isEmptyChange(row)) return pileOf(found(await read(id), 'pileId', id));
      const update = db.updateTable('piles').set(row).where('id', '=', id).returningAll();
      return pileOf(found(await update.executeTakeFirst(), 'pileId', id));
    },
    async end(id, endedMs) {
      const end = db
        .updateTable('piles')
        .set({ endedMs })
        .where('id', '=', id)
        .where('startedMs', '<=', endedMs)
        .returningAll();
      const ended = await end.executeTakeFirst();
      if (ended) return pileOf(ended);
      const { startedMs } = found(await read(id), 'pileId', id);
      throw new RecordsError('endedMs', `endedMs ${endedMs} is before the pile was started (${startedMs})`);
    },
  };
}

const written = (build: Pile['build']): string | null =>
  build == null ? null : buildColumn.write(build, 'build');

/** What nobody wrote down is left out. */
function pileOf({ build, ...pile }: PileRow): Pile {
  return build === null ? pile : { ...pile, build: buildColumn.read(build) };
}
