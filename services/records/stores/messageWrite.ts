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
    if (inserted === undefined) continue;
    await dismissOvertaken(step, message);
    if (message.answerLink === null) continue;
    const { tokenHash, alarmId, occurrence, personId, expiresMs } = message.answerLink;
    const link = { tokenHash, alarmId, occurrence, personId, expiresMs };
    await step.insertInto('answerLinks').values(link).execute();
  }
}

/** What still waits about an alarm that this message goes beyond is over: "heading there" must not follow "there". */
async function dismissOvertaken(
  step: Step,
  { overtakes = [], personId, createdMs }: NewMessage,
): Promise<void> {
  if (overtakes.length === 0) return;
  await step
    .updateTable('messages')
    .set({ state: 'not-needed', heldFor: 'overtaken', finishedMs: createdMs })
    .where('alarmId', 'in', overtakes)
    .where('personId', '=', personId)
    .where('state', '=', 'waiting')
    .execute();
}

function toRow(message: NewMessage): Omit<MessageRow, 'sequence'> {
  const { answerLink: _link, overtakes: _overtakes, kind = 'alarm', firstAction = null, ...own } = message;
  return {
    ...own,
    kind,
    firstAction,
    attemptBeganMs: null,
    maybeSent: 0,
    heldFor: null,
    toldIn: null,
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
  const { sequence: _s, claimedBy: _c, leaseUntilMs: _l, attemptBeganMs: _a, ...message } = row;
  return message;
}
