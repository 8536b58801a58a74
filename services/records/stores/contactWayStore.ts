import { newId } from '../newId.ts';
import type { ContactWayStore } from '../port.ts';
import { found, refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function contactWayStore(db: Database): ContactWayStore {
  return {
    list: (yardId) =>
      db
        .selectFrom('contactWays')
        .innerJoin('people', 'people.id', 'contactWays.personId')
        .selectAll('contactWays')
        .where('people.yardId', '=', yardId)
        .orderBy('contactWays.createdMs')
        .orderBy('contactWays.id')
        .execute(),
    async create({ personId, channel, address, toldFrom, createdMs }) {
      const own = { personId, channel, address, toldFrom, createdMs };
      const row = { ...own, id: newId(), goneMs: null, goneDetail: null };
      const taken = ['address', `the person has this ${channel} address already`] as const;
      await refusing(db.insertInto('contactWays').values(row).execute(), {
        unique: taken,
        reference: 'personId',
      });
      return row;
    },
    async remove(id) {
      const gone = db.deleteFrom('contactWays').where('id', '=', id).returning('id');
      found(await gone.executeTakeFirst(), 'contactWayId', id);
    },
    async markGone(channel, address, atMs, detail) {
      const { numUpdatedRows } = await db
        .updateTable('contactWays')
        .set({ goneMs: atMs, goneDetail: detail })
        .where('channel', '=', channel)
        .where('address', '=', address)
        .where('goneMs', 'is', null)
        .executeTakeFirstOrThrow();
      return Number(numUpdatedRows);
    },
  };
}
