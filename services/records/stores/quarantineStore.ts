import type { QuarantineStore } from '../port.ts';
import type { Database } from '../schema.ts';

const counter = 'quarantine';
/** What is kept of one item; a hostile sender must not fill the disk. */
const payloadBytesKept = 4096;
const textKept = 1000;

/** Keeps the newest `keep` items and counts all there ever were. An item's id is its number in that count. */
export function quarantineStore(db: Database, keep: number): QuarantineStore {
  return {
    add: (item) =>
      db.transaction().execute(async (step) => {
        const { value: id } = await step
          .insertInto('counters')
          .values({ name: counter, value: 1 })
          .onConflict((conflict) =>
            conflict.column('name').doUpdateSet((row) => ({ value: row('counters.value', '+', 1) })),
          )
          .returning('value')
          .executeTakeFirstOrThrow();
        await step
          .insertInto('quarantine')
          .values({ id, ...cutToSize(item) })
          .execute();
        await step
          .deleteFrom('quarantine')
          .where('id', '<=', id - keep)
          .execute();
      }),
    async list(limit) {
      const rows = await db.selectFrom('quarantine').selectAll().orderBy('id', 'desc').limit(limit).execute();
      return rows.map((row) => ({ ...row, payloadStart: Uint8Array.from(row.payloadStart) }));
    },
    async total() {
      const count = db.selectFrom('counters').select('value').where('name', '=', counter);
      return (await count.executeTakeFirst())?.value ?? 0;
    },
  };
}

function cutToSize(item: Parameters<QuarantineStore['add']>[0]) {
  return {
    receivedMs: item.receivedMs,
    topic: shortText(item.topic),
    probe: item.probe === null ? null : shortText(item.probe),
    reason: shortText(item.reason),
    payloadStart: item.payloadStart.subarray(0, payloadBytesKept),
    payloadBytes: item.payloadBytes,
  };
}

/** PostgreSQL takes no NUL in text, and what ends up here may hold anything. */
const shortText = (text: string): string => text.slice(0, textKept).replaceAll('\0', '\ufffd');
