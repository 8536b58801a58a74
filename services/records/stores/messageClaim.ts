import type { Expression, ExpressionBuilder, SqlBool } from 'kysely';
import type { Message, MessageStore } from '../port.ts';
import { priorityRank } from '../priorityRank.ts';
import type { Database, Schema, Step } from '../schema.ts';
import { messageFromRow } from './messageWrite.ts';

type Claim = Parameters<MessageStore['claimDue']>[0];
/** A message `m` being considered; `o` below is another one that may have to go before it. */
type OneMessage = ExpressionBuilder<Schema & { m: Schema['messages'] }, 'm'>;
/**
 * Claims due messages, the most pressing of each recipient first. The order kept for one recipient is told in the port.
 * On PostgreSQL a row another claimant is just taking is skipped; on SQLite claimants take turns.
 */
export async function claimDue(db: Database, claim: Claim): Promise<Message[]> {
  if (claim.limit <= 0) return [];
  await releaseLapsed(db, claim.nowMs);
  const rows = await db
    .with('picked', () => pick(db, claim))
    .updateTable('messages')
    .set({ state: 'sending', claimedBy: claim.claimant, leaseUntilMs: claim.nowMs + claim.leaseMs })
    .where('id', 'in', (message) => message.selectFrom('picked').select('picked.id'))
    .returningAll()
    .returning((message) => priorityRank(message.ref('priority')).as('rank'))
    .execute();
  return rows
    .sort((a, b) => a.rank - b.rank || a.sequence - b.sequence)
    .map(({ rank: _, ...row }) => messageFromRow(row));
}

/** A claimant that did not report within its lease is taken for dead; its messages wait again. */
export async function releaseLapsed(db: Database, nowMs: number): Promise<void> {
  const lapsed = (from: Database | Step) =>
    from
      .selectFrom('messages')
      .select(['id', 'attempts', 'attemptBeganMs', 'maybeSent'])
      .where('state', '=', 'sending')
      .where('leaseUntilMs', '<=', nowMs);
  if ((await lapsed(db).limit(1).executeTakeFirst()) === undefined) return;
  await db.transaction().execute(async (step) => {
    for (const message of await lapsed(step).orderBy('id').forUpdate().execute()) {
      await step
        .updateTable('messages')
        .set({ state: 'waiting', claimedBy: null, leaseUntilMs: null, attemptBeganMs: null })
        .where('id', '=', message.id)
        .execute();
      if (message.attemptBeganMs !== null) await noteUnknownEnd(step, message, message.attemptBeganMs, nowMs);
    }
  });
}

/** An attempt that was begun and never reported: it may have gone out, and its history says so. */
async function noteUnknownEnd(
  step: Step,
  { id, attempts, maybeSent }: { id: string; attempts: number; maybeSent: number },
  startedMs: number,
  finishedMs: number,
): Promise<void> {
  const detail = 'the program stopped while sending: it may have gone out';
  const attempt = { messageId: id, attempt: attempts + 1, startedMs, finishedMs, detail };
  await step
    .insertInto('messageAttempts')
    .values({ ...attempt, outcome: 'retry', maybeSent: 1 })
    .execute();
  await step
    .updateTable('messages')
    .set({ attempts: attempts + 1, maybeSent: maybeSent + 1 })
    .where('id', '=', id)
    .execute();
}

/**
 * Locks the rows to take. State and times are asked again out here, beside the lock: PostgreSQL looks at those once more
 * when a row changed after the statement began, which it does not do for the list made inside.
 */
function pick(db: Database, { nowMs, limit }: Claim) {
  return db
    .selectFrom('messages as m')
    .select('m.id')
    .where((m) => isDue(m, nowMs))
    .where('m.id', 'in', () => firstOfEachRecipient(db, nowMs))
    .orderBy((m) => priorityRank(m.ref('m.priority')))
    .orderBy('m.sequence')
    .limit(limit)
    .forUpdate()
    .skipLocked();
}

function firstOfEachRecipient(db: Database, nowMs: number) {
  const ranked = db
    .selectFrom('messages as m')
    .where((m) => isDue(m, nowMs))
    .where((m) => m.not(recipientBusy(m)))
    .where((m) => m.not(heldByEarlier(m, nowMs)))
    .select((m) => [
      'm.id',
      m.fn
        .agg<number>('row_number')
        .over((over) =>
          over
            .partitionBy(['m.channel', 'm.address'])
            .orderBy(priorityRank(m.ref('m.priority')))
            .orderBy('m.sequence'),
        )
        .as('place'),
    ]);
  return db.selectFrom(ranked.as('ranked')).select('ranked.id').where('ranked.place', '=', 1);
}

const isDue = (m: OneMessage, nowMs: number): Expression<SqlBool> =>
  m.and([m('m.state', '=', 'waiting'), m('m.nextAttemptMs', '<=', nowMs), m('m.expiresMs', '>', nowMs)]);

const recipientBusy = (m: OneMessage): Expression<SqlBool> =>
  m.exists(
    m
      .selectFrom('messages as o')
      .select('o.id')
      .where('o.state', '=', 'sending')
      .whereRef('o.channel', '=', 'm.channel')
      .whereRef('o.address', '=', 'm.address'),
  );

/** An earlier text of the same alarm is due as well, or waits for its next attempt: "too hot" must not follow "normal". */
const heldByEarlier = (m: OneMessage, nowMs: number): Expression<SqlBool> =>
  m.exists(
    m
      .selectFrom('messages as o')
      .select('o.id')
      .where('o.state', '=', 'waiting')
      .where('o.expiresMs', '>', nowMs)
      .where((o) => o.or([o('o.nextAttemptMs', '<=', nowMs), o('o.attempts', '>', 0)]))
      .whereRef('o.alarmId', '=', 'm.alarmId')
      .whereRef('o.channel', '=', 'm.channel')
      .whereRef('o.address', '=', 'm.address')
      .whereRef('o.sequence', '<', 'm.sequence'),
  );

/**
 * Earliest time at which a claim may find something: the next attempt of a message that nothing goes before, or the end
 * of a lease. A message held back is left out, or its notifier would look again and again for nothing.
 */
export async function nextDueMs(db: Database): Promise<number | null> {
  const waiting = db
    .selectFrom('messages as m')
    .select((m) => m.fn.min('m.nextAttemptMs').as('dueMs'))
    .where('m.state', '=', 'waiting')
    .where((m) => m.not(recipientBusy(m)))
    .where((m) => m.not(hasEarlierUnsent(m)));
  const leases = db
    .selectFrom('messages')
    .select((message) => message.fn.min('leaseUntilMs').as('dueMs'))
    .where('state', '=', 'sending');
  const times = [await waiting.executeTakeFirst(), await leases.executeTakeFirst()]
    .map((row) => row?.dueMs ?? null)
    .filter((dueMs) => dueMs !== null);
  return times.length === 0 ? null : Math.min(...times);
}

/** As `heldByEarlier`, told without knowing the time: then the earlier one's next attempt is the one that counts. */
const hasEarlierUnsent = (m: OneMessage): Expression<SqlBool> =>
  m.exists(
    m
      .selectFrom('messages as o')
      .select('o.id')
      .where('o.state', '=', 'waiting')
      .where((o) => o.or([o('o.nextAttemptMs', '<=', o.ref('m.nextAttemptMs')), o('o.attempts', '>', 0)]))
      .whereRef('o.alarmId', '=', 'm.alarmId')
      .whereRef('o.channel', '=', 'm.channel')
      .whereRef('o.address', '=', 'm.address')
      .whereRef('o.sequence', '<', 'm.sequence'),
  );
