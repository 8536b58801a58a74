import type { Selectable } from 'kysely';
import {
  type MessageAttempt,
  type MessageState,
  type MessageStore,
  messageStates,
  type OutboxStanding,
} from '../port.ts';
import { found } from '../refusals.ts';
import type { Database, MessageRow, Step } from '../schema.ts';
import { claimDue, nextDueMs } from './messageClaim.ts';
import { messageFromRow } from './messageWrite.ts';

type NextStanding = Parameters<MessageStore['finishAttempt']>[1];

/** A message in one of these has left the house; a late report of failure does not call it back. */
const goneOut: readonly MessageState[] = ['sent', 'delivered'];
const unsent: readonly MessageState[] = ['waiting', 'sending'];

export function messageStore(db: Database): MessageStore {
  return {
    claimDue: (claim) => claimDue(db, claim),
    nextDueMs: () => nextDueMs(db),
    finishAttempt: (attempt, next) => db.transaction().execute((step) => finish(step, attempt, next)),
    async expireDue(nowMs) {
      const { numUpdatedRows } = await db
        .updateTable('messages')
        .set({ state: 'expired', finishedMs: nowMs, claimedBy: null, leaseUntilMs: null })
        .where('expiresMs', '<=', nowMs)
        .where((message) =>
          message.or([
            message('state', '=', 'waiting'),
            message.and([message('state', '=', 'sending'), message('leaseUntilMs', '<=', nowMs)]),
          ]),
        )
        .executeTakeFirstOrThrow();
      return Number(numUpdatedRows);
    },
    markDelivered: (gatewayReference, atMs) =>
      db.transaction().execute((step) => markDelivered(step, gatewayReference, atMs)),
    ...readSide(db),
  };
}

function readSide(
  db: Database,
): Pick<MessageStore, 'get' | 'list' | 'forPile' | 'between' | 'attempts' | 'standing'> {
  const messages = db.selectFrom('messages').selectAll();
  const newestFirst = messages.orderBy('sequence', 'desc');
  return {
    async get(id) {
      const row = await messages.where('id', '=', id).executeTakeFirst();
      return row ? messageFromRow(row) : null;
    },
    list: async (yardId, limit) =>
      (await newestFirst.where('yardId', '=', yardId).limit(limit).execute()).map(messageFromRow),
    forPile: async (pileId, limit) =>
      (await newestFirst.where('pileId', '=', pileId).limit(limit).execute()).map(messageFromRow),
    between: async (yardId, fromMs, toMs) =>
      (
        await messages
          .where('yardId', '=', yardId)
          .where('createdMs', '>=', fromMs)
          .where('createdMs', '<', toMs)
          .orderBy('sequence')
          .execute()
      ).map(messageFromRow),
    attempts: (messageId) =>
      db
        .selectFrom('messageAttempts')
        .select(['messageId', 'attempt', 'startedMs', 'finishedMs', 'outcome', 'detail'])
        .where('messageId', '=', messageId)
        .orderBy('sequence')
        .execute(),
    standing: () => outboxStanding(db),
  };
}

async function outboxStanding(db: Database): Promise<OutboxStanding> {
  const rows = await db
    .selectFrom('messages')
    .select((message) => [
      'state',
      message.fn.countAll<number>().as('count'),
      message.fn.min('notBeforeMs').as('oldestMs'),
    ])
    .groupBy('state')
    .execute();
  const counts = Object.fromEntries(messageStates.map((state) => [state, 0])) as Record<MessageState, number>;
  for (const { state, count } of rows) counts[state] = Number(count);
  const waiting = rows.flatMap((row) => (unsent.includes(row.state) ? [Number(row.oldestMs)] : []));
  return { counts, oldestWaitingMs: waiting.length === 0 ? null : Math.min(...waiting) };
}

async function finish(step: Step, attempt: MessageAttempt, next: NextStanding): Promise<void> {
  const select = step.selectFrom('messages').selectAll().where('id', '=', attempt.messageId).forUpdate();
  const stored = found(await select.executeTakeFirst(), 'messageId', attempt.messageId);
  const { messageId, attempt: number, startedMs, finishedMs, outcome, detail } = attempt;
  await step
    .insertInto('messageAttempts')
    .values({ messageId, attempt: number, startedMs, finishedMs, outcome, detail })
    .execute();
  await step
    .updateTable('messages')
    .set({ attempts: stored.attempts + 1, ...newStanding(stored, finishedMs, next) })
    .where('id', '=', messageId)
    .execute();
}

/** What the attempt changes; nothing when its lease ran out and somebody else has the message, unless it went out. */
function newStanding(stored: Selectable<MessageRow>, atMs: number, next: NextStanding) {
  const wentOut = goneOut.includes(next.state);
  const othersNow = next.claimant !== undefined && stored.claimedBy !== next.claimant;
  if (!wentOut && (othersNow || goneOut.includes(stored.state))) return {};
  // A delivery report may overtake the attempt's own record.
  if (stored.state === 'delivered') return {};
  const final = next.state !== 'waiting' && next.state !== 'sending';
  return {
    state: next.state,
    nextAttemptMs: next.nextAttemptMs,
    gatewayReference: next.gatewayReference,
    finishedMs: final ? atMs : null,
    claimedBy: null,
    leaseUntilMs: null,
  };
}

async function markDelivered(step: Step, gatewayReference: string, atMs: number): Promise<boolean> {
  // Gateways may use a reference again, a modem does so after 255: the latest one is meant.
  const latest = await step
    .selectFrom('messages')
    .select(['id', 'state'])
    .where('gatewayReference', '=', gatewayReference)
    .orderBy('finishedMs', 'desc')
    .orderBy('sequence', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (!latest || !goneOut.includes(latest.state)) return false;
  await step
    .updateTable('messages')
    .set({ state: 'delivered', finishedMs: atMs })
    .where('id', '=', latest.id)
    .where('state', '=', 'sent')
    .execute();
  return true;
}
