import type { InboundTextStore } from '../port.ts';
import { found, refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function inboundTextStore(db: Database): InboundTextStore {
  return {
    async take({ key, personId, address, text, receivedMs }) {
      const row = { key, personId, address, text, receivedMs, doneMs: null, outcome: null };
      const insert = db
        .insertInto('inboundTexts')
        .values(row)
        .onConflict((conflict) => conflict.column('key').doNothing());
      await refusing(insert.execute(), { reference: 'personId' });
      const stored = await db
        .selectFrom('inboundTexts')
        .select(['receivedMs', 'doneMs'])
        .where('key', '=', key)
        .executeTakeFirst();
      const { receivedMs: firstMs, doneMs } = found(stored, 'key', key);
      return { receivedMs: firstMs, done: doneMs !== null };
    },
    async finish(key, atMs, outcome) {
      const update = db.updateTable('inboundTexts').set({ doneMs: atMs, outcome }).where('key', '=', key);
      found(await update.returning('key').executeTakeFirst(), 'key', key);
    },
  };
}
