import type { Selectable } from 'kysely';
import { type MessageState, type MessageStore, messageStates, type OutboxStanding } from '../port.ts';
import { found } from '../refusals.ts';
import type { Database, MessageRow, Step } from '../schema.ts';
import { claimDue, nextDueMs, releaseLapsed } from './messageClaim.ts';
import { heldSide } from './messageHold.ts';
import { messageFromRow } from './messageWrite.ts';

type Attempt = Parameters<MessageStore['finishAttempt']>[0];
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
      await releaseLapsed(db, nowMs);
      const { numUpdatedRows } = await db
        .updateTable('messages')
        .set({ state: 'expired', finishedMs: nowMs })
        .where('expiresMs', '<=', nowMs)
        .where('state', '=', 'waiting')
        .executeTakeFirstOrThrow();
      return Number(numUpdatedRows);
    },
    markDelivered: (gatewayReference, atMs) =>
      db.transaction().execute((step) => markDelivered(step, gatewayReference, atMs)),
    markFailed: (gatewayReference, atMs, detail) =>
      db.transaction().execute((step) => markFailed(step, gatewayReference, atMs, detail)),
    ...heldSide(db),
    ...readSide(db),
  };
}

function readSide(
  db: Database,
): Pick<
  MessageStore,
  | 'get'
  | 'list'
  | 'forPile'
  | 'between'
  | 'toPerson'
  | 'inTrouble'
  | 'knownKeys'
  | 'aboutAlarms'
  | 'attempts'
  | 'lastAttempts'
  | 'standing'
> {
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
    async toPerson(personId, sinceMs) {
      const rows = messages
        .where('personId', '=', personId)
        .where((message) =>
          message.or([message('state', 'in', unsent), message('finishedMs', '>', sinceMs)]),
        );
      return (await rows.orderBy('sequence').execute()).map(messageFromRow);
    },
    async inTrouble(yardId, sinceMs, attempts) {
      const rows = messages
        .where('yardId', '=', yardId)
        .where((message) =>
          message.or([
            message.and([message('state', '=', 'failed'), message('finishedMs', '>', sinceMs)]),
            message.and([message('state', '=', 'waiting'), message('attempts', '>=', attempts)]),
          ]),
        );
      return (await rows.orderBy('sequence').execute()).map(messageFromRow);
    },
    async knownKeys(keys) {
      if (keys.length === 0) return new Set();
      const rows = db.selectFrom('messages').select('idempotencyKey').where('idempotencyKey', 'in', keys);
      return new Set((await rows.execute()).map(({ idempotencyKey }) => idempotencyKey));
    },
    async aboutAlarms(alarmIds) {
      if (alarmIds.length === 0) return [];
      const rows = messages.where('alarmId', 'in', alarmIds).orderBy('sequence');
      return (await rows.execute()).map(messageFromRow);
    },
    async attempts(messageId) {
      const rows = await db
        .selectFrom('messageAttempts')
        .select(attemptColumns)
        .where('messageId', '=', messageId)
        .orderBy('sequence')
        .execute();
      return rows.map(attemptFromRow);
    },
    async lastAttempts(yardId, channel) {
      const newest = db
        .selectFrom('messageAttempts')
        .innerJoin('messages', 'messages.id', 'messageAttempts.messageId')
        .select(attemptColumns.map((column) => `messageAttempts.${column}` as const))
        .where('messages.yardId', '=', yardId)
        .where('messages.channel', '=', channel)
        .orderBy('messageAttempts.sequence', 'desc')
        .limit(1);
      const [sent, failed] = await Promise.all([
        newest.where('outcome', '=', 'sent').executeTakeFirst(),
        newest.where('outcome', '!=', 'sent').executeTakeFirst(),
      ]);
      return { sent: sent ? attemptFromRow(sent) : null, failed: failed ? attemptFromRow(failed) : null };
    },
    standing: () => outboxStanding(db),
  };
}

const attemptColumns = [
  'messageId',
  'attempt',
  'startedMs',
  'finishedMs',
  'outcome',
  'detail',
  'maybeSent',
] as const;

function attemptFromRow<Row extends { readonly maybeSent: number }>(row: Row) {
  return { ...row, maybeSent: row.maybeSent === 1 };
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
  const { twice } = await db
    .selectFrom('messages')
    .select((message) => message.fn.countAll<number>().as('twice'))
    .where('maybeSent', '>', 0)
    .where((message) => message.or([message('state', 'in', goneOut), message('maybeSent', '>', 1)]))
    .executeTakeFirstOrThrow();
  const oldestWaitingMs = waiting.length === 0 ? null : Math.min(...waiting);
  return { counts, oldestWaitingMs, maybeTwice: Number(twice) };
}

async function finish(step: Step, attempt: Attempt, next: NextStanding): Promise<void> {
  const select = step.selectFrom('messages').selectAll().where('id', '=', attempt.messageId).forUpdate();
  const stored = found(await select.executeTakeFirst(), 'messageId', attempt.messageId);
  const { messageId, attempt: number, startedMs, finishedMs, outcome, detail } = attempt;
  const maybeSent = attempt.maybeSent === true ? 1 : 0;
  await step
    .insertInto('messageAttempts')
    .values({ messageId, attempt: number, startedMs, finishedMs, outcome, detail, maybeSent })
    .execute();
  await step
    .updateTable('messages')
    .set({
      attempts: stored.attempts + 1,
      maybeSent: stored.maybeSent + maybeSent,
      ...newStanding(stored, finishedMs, next),
    })
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
    attemptBeganMs: null,
  };
}

/** Gateways may use a reference again, a modem does so after 255: the latest one is meant. */
async function latestWith(step: Step, gatewayReference: string) {
  const latest = await step
    .selectFrom('messages')
    .select(['id', 'state', 'attempts', 'finishedMs'])
    .where('gatewayReference', '=', gatewayReference)
    .orderBy('finishedMs', 'desc')
    .orderBy('sequence', 'desc')
    .limit(1)
    .executeTakeFirst();
  return latest && goneOut.includes(latest.state) ? latest : null;
}

async function markFailed(
  step: Step,
  gatewayReference: string,
  atMs: number,
  reported: string,
): Promise<boolean> {
  const latest = await latestWith(step, gatewayReference);
  if (latest === null) return false;
  // What arrived has arrived: networks send contradicting reports about long texts.
  if (latest.state === 'delivered') return true;
  await step
    .updateTable('messages')
    .set({ state: 'failed', finishedMs: atMs })
    .where('id', '=', latest.id)
    .execute();
  const detail = `the network reports that it did not arrive: ${reported}`;
  const times = { startedMs: latest.finishedMs ?? atMs, finishedMs: atMs };
  await step
    .insertInto('messageAttempts')
    .values({
      messageId: latest.id,
      attempt: latest.attempts,
      ...times,
      outcome: 'gave-up',
      detail,
      maybeSent: 0,
    })
    .execute();
  return true;
}

async function markDelivered(step: Step, gatewayReference: string, atMs: number): Promise<boolean> {
  const latest = await latestWith(step, gatewayReference);
  if (latest === null) return false;
  await step
    .updateTable('messages')
    .set({ state: 'delivered', finishedMs: atMs })
    .where('id', '=', latest.id)
    .where('state', '=', 'sent')
    .execute();
  return true;
}
