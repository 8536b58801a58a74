import { english } from '../../shared/messages/words/english.ts';
import type { ChannelKind, Message } from '../records/port.ts';

/** How long a test is worth sending. */
const goodForMs = 10 * 60_000;

/** A message that belongs to nobody's pile, for the test button: it goes out at once and is not kept in the outbox. */
export function testMessage(channel: ChannelKind, address: string, id: string, nowMs: number): Message {
  return {
    id,
    yardId: '',
    pileId: null,
    alarmId: null,
    occurrence: null,
    idempotencyKey: `test ${id}`,
    personId: '',
    channel,
    address,
    text: english.tests.channel,
    priority: 'low',
    createdMs: nowMs,
    notBeforeMs: nowMs,
    expiresMs: nowMs + goodForMs,
    state: 'sending',
    attempts: 0,
    nextAttemptMs: nowMs,
    gatewayReference: null,
    finishedMs: null,
    kind: 'test',
    maybeSent: 0,
    heldFor: null,
    toldIn: null,
    firstAction: null,
  };
}
