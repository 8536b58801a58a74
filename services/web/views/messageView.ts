import type { MessageView } from '../../../shared/api/types.ts';
import type { Message } from '../../records/port.ts';
import type { House } from '../house.ts';

/** A message with its delivery history. */
export async function messageView(
  house: House,
  message: Message,
  nameOfPerson: (by: string | null) => string | null,
): Promise<MessageView> {
  const attempts = await house.records.messages.attempts(message.id);
  return {
    id: message.id,
    pileId: message.pileId,
    alarmId: message.alarmId,
    person: nameOfPerson(message.personId) ?? message.personId,
    channel: message.channel,
    address: withMiddleHidden(message.address),
    text: withoutAnswerSecret(message.text),
    priority: message.priority,
    state: message.state,
    heldFor: message.heldFor,
    maybeTwice: mayHaveArrivedTwice(message),
    createdMs: message.createdMs,
    finishedMs: message.finishedMs,
    nextAttemptMs: message.state === 'waiting' ? message.nextAttemptMs : null,
    attempts: attempts.map(({ messageId: _, ...attempt }) => attempt),
  };
}

/** One attempt of unknown end and one that went out, or two of unknown end. */
function mayHaveArrivedTwice({ maybeSent, state }: Message): boolean {
  return maybeSent > 1 || (maybeSent > 0 && (state === 'sent' || state === 'delivered'));
}

/** Enough to recognise one's own number, too little to hand it to everyone who may look. */
export function withMiddleHidden(address: string): string {
  return address.length < 8 ? '...' : `${address.slice(0, 3)}...${address.slice(-3)}`;
}

/** The secret in an answer link acts for the person it was sent to: nobody else may read it off a screen. */
export function withoutAnswerSecret(text: string): string {
  return text.replace(/\/a\/[A-Za-z0-9_-]{8,}/g, '/a/...');
}
