import type { ExpressionBuilder } from 'kysely';
import type { MessageStore } from '../port.ts';
import type { Database, Schema } from '../schema.ts';
import { writeMessages } from './messageWrite.ts';

type HeldSide = Pick<MessageStore, 'beginAttempt' | 'hold' | 'dismiss' | 'tellTogether' | 'add'>;

/** Still to be decided upon by this claimant: nobody else is sending it. */
const isOurs = (claimant: string) => (message: ExpressionBuilder<Schema, 'messages'>) =>
  message.or([
    message('state', '=', 'waiting'),
    message.and([message('state', '=', 'sending'), message('claimedBy', '=', claimant)]),
  ]);

const free = { claimedBy: null, leaseUntilMs: null, attemptBeganMs: null } as const;

/** What happens to a message between its claim and its attempt. */
export function heldSide(db: Database): HeldSide {
  return {
    async beginAttempt(messageId, claimant, atMs) {
      const begun = await db
        .updateTable('messages')
        .set({ attemptBeganMs: atMs })
        .where('id', '=', messageId)
        .where('state', '=', 'sending')
        .where('claimedBy', '=', claimant)
        .returning('id')
        .executeTakeFirst();
      return begun !== undefined;
    },
    async hold(messageId, { claimant, untilMs, expiresMs, heldFor }) {
      await db
        .updateTable('messages')
        .set({ state: 'waiting', nextAttemptMs: untilMs, notBeforeMs: untilMs, expiresMs, heldFor, ...free })
        .where('id', '=', messageId)
        .where('state', '=', 'sending')
        .where('claimedBy', '=', claimant)
        .execute();
    },
    async dismiss(messageIds, { claimant, atMs, heldFor }) {
      if (messageIds.length === 0) return;
      await db
        .updateTable('messages')
        .set({ state: 'not-needed', heldFor, finishedMs: atMs, ...free })
        .where('id', 'in', messageIds)
        .where(isOurs(claimant))
        .execute();
    },
    async tellTogether(messageIds, message, claimant, atMs) {
      await db.transaction().execute(async (step) => {
        await writeMessages(step, [message]);
        const { id: toldIn } = await step
          .selectFrom('messages')
          .select('id')
          .where('idempotencyKey', '=', message.idempotencyKey)
          .executeTakeFirstOrThrow();
        await step
          .updateTable('messages')
          .set({ state: 'told-together', toldIn, finishedMs: atMs, ...free })
          .where('id', 'in', messageIds)
          .where(isOurs(claimant))
          .execute();
      });
    },
    add: (messages) => db.transaction().execute((step) => writeMessages(step, messages)),
  };
}
