import type { DesignStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

/** How piles were planned, as text: what it means is the planner's matter, and whoever reads it checks it. */
export function designStore(db: Database): DesignStore {
  return {
    async get(pileId) {
      const row = await db
        .selectFrom('pileDesigns')
        .select('design')
        .where('pileId', '=', pileId)
        .executeTakeFirst();
      return row?.design ?? null;
    },
    async save(pileId, design, savedMs) {
      const insert = db
        .insertInto('pileDesigns')
        .values({ pileId, design, savedMs })
        .onConflict((conflict) => conflict.column('pileId').doUpdateSet({ design, savedMs }))
        .execute();
      await refusing(insert, { reference: 'pileId' });
    },
  };
}
