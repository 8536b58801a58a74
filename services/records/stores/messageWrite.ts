import type { Selectable } from 'kysely';
import { newId } from '../newId.ts';
import type { Message, NewMessage } from '../port.ts';
import type { MessageRow, Step } from '../schema.ts';

/**
 * Puts messages in the outbox within the caller's transaction, each with the link in its text. A message whose key is
 * already there is left out together with its link: the stored one has been, or will be, sent.
 */
export async function writeMessages(step: Step, messages: readonly NewMessage[]): Promise<void> {
  for (const message of messages) {
    const inserted = await step
      .insertInto('messages')
      .values(toRow(message))
      .onConflict((conflict) => conflict.column('idempotencyKey').doNothing())
      .returning('id')
      .executeTakeFirst();
    if (inserted === undefined || message.answerLink === null) continue;
    const { tokenHash, alarmId, occurrence, personId, expiresMs } = message.answerLink;
    const link = { tokenHash, alarmId, occurrence, personId, expiresMs };
    await step.insertInto('answerLinks').values(link).execute();
  }
}

function toRow(message: NewMessage): Omit<MessageRow, 'sequence'> {
  const { answerLink: _, ...own } = message;
  return {
    ...own,
    id: newId(),
    state: 'waiting',
    attempts: 0,
    nextAttemptMs: message.notBeforeMs,
    gatewayReference: null,
    finishedMs: null,
    claimedBy: null,
    leaseUntilMs: null,
  };
}

/** The message without what only the store needs. */
export function messageFromRow(row: Selectable<MessageRow>): Message {
  const { sequence: _sequence, claimedBy: _claimedBy, leaseUntilMs: _leaseUntilMs, ...message } = row;
  return message;
}
