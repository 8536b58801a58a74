import { newId } from '../newId.ts';
import type { YardStore } from '../port.ts';
import { found, isEmptyChange, refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function yardStore(db: Database): YardStore {
  const get = async (id: string) =>
    (await db.selectFrom('yards').selectAll().where('id', '=', id).executeTakeFirst()) ?? null;
  return {
    list: () => db.selectFrom('yards').selectAll().orderBy('name').orderBy('id').execute(),
    get,
    create({ id = newId(), name, timeZone, temperatureUnit, altitudeMetres }) {
      const row = { id, name, timeZone, temperatureUnit, altitudeMetres };
      const insert = db.insertInto('yards').values(row).returningAll().executeTakeFirstOrThrow();
      return refusing(insert, { unique: ['id', `there is a yard ${id} already`] });
    },
    async update(id, change) {
      if (isEmptyChange(change)) return found((await get(id)) ?? undefined, 'yardId', id);
      const update = db.updateTable('yards').set(change).where('id', '=', id).returningAll();
      return found(await update.executeTakeFirst(), 'yardId', id);
    },
  };
}
