import type { QuarantineItem, QuarantineStore } from '../port.ts';
import type { Database, Step } from '../schema.ts';

const counter = 'quarantine';
const counterOf = (yardId: string) => `${counter}:${yardId}`;
/** What is kept of one item; a hostile sender must not fill the disk. */
const payloadBytesKept = 4096;
const textKept = 1000;

type NewItem = Omit<QuarantineItem, 'id'>;

/** Keeps the newest `keep` items of each yard and counts all there ever were. An item's id is its number in that count. */
export function quarantineStore(db: Database, keep: number): QuarantineStore {
  return {
    add: (item) =>
      db.transaction().execute(async (step) => {
        const id = await countOne(step, counter);
        const yardId = await yardOf(step, item);
        if (yardId !== null) await countOne(step, counterOf(yardId));
        await step
          .insertInto('quarantine')
          .values({ id, yardId, ...cutToSize(item) })
          .execute();
        await removeBeyond(step, yardId, keep);
        return yardId;
      }),
    async list(yardId, limit) {
      const kept = db.selectFrom('quarantine').selectAll().where('yardId', '=', yardId);
      const rows = await kept.orderBy('id', 'desc').limit(limit).execute();
      return rows.map(({ yardId: _, ...row }) => ({
        ...row,
        payloadStart: Uint8Array.from(row.payloadStart),
      }));
    },
    totalOf: (yardId) => counted(db, counterOf(yardId)),
    total: () => counted(db, counter),
  };
}

async function counted(db: Database, name: string): Promise<number> {
  const found = db.selectFrom('counters').select('value').where('name', '=', name);
  return (await found.executeTakeFirst())?.value ?? 0;
}

async function countOne(step: Step, name: string): Promise<number> {
  const { value } = await step
    .insertInto('counters')
    .values({ name, value: 1 })
    .onConflict((conflict) =>
      conflict.column('name').doUpdateSet((row) => ({ value: row('counters.value', '+', 1) })),
    )
    .returning('value')
    .executeTakeFirstOrThrow();
  return value;
}

/** A probe that is known says most: it signed in, or the broker let it publish under that name. */
async function yardOf(step: Step, { probe, topic }: NewItem): Promise<string | null> {
  const ofProbe = step
    .selectFrom('probes')
    .select('yardId as id')
    .where('id', '=', shortText(probe ?? ''));
  const found = await ofProbe.executeTakeFirst();
  if (found !== undefined) return found.id;
  const yards = await step.selectFrom('yards').select('id').execute();
  const [root, named] = topic.split('/');
  const ofTopic = root === 'tilth' ? yards.find(({ id }) => id === named) : undefined;
  return (ofTopic ?? (yards.length === 1 ? yards[0]! : null))?.id ?? null;
}

async function removeBeyond(step: Step, yardId: string | null, keep: number): Promise<void> {
  const [operator, value] = yardId === null ? (['is', null] as const) : (['=', yardId] as const);
  const kept = step.selectFrom('quarantine').select('id').where('yardId', operator, value);
  await step
    .deleteFrom('quarantine')
    .where('yardId', operator, value)
    .where('id', '<=', kept.orderBy('id', 'desc').limit(1).offset(keep))
    .execute();
}

function cutToSize(item: NewItem) {
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
