import type { Logger } from 'pino';
import type { Message, MessageState, Records } from '../records/port.ts';
import { backoffMs } from './backoff.ts';
import type { ChannelDesk } from './channelDesk.ts';
import type { SendOutcome } from './messageChannel.ts';

/** Places between a claim and its record at which a test may stop the program. */
export const deliveryPoints = ['claimed', 'begun', 'answered', 'recorded'] as const;
export type DeliveryPoint = (typeof deliveryPoints)[number];

export interface DeliverOptions {
  readonly records: Records;
  readonly desk: ChannelDesk;
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  readonly claimant: string;
  readonly random: () => number;
  /** Whether the message is to go now; what becomes of it otherwise is settled when this says no. */
  readonly mayGo: (message: Message) => Promise<boolean>;
  readonly onAttempt: (message: Message) => void;
  readonly atPoint: (point: DeliveryPoint, message: Message) => Promise<void>;
}

/**
 * Brings one claimed message to its channel and writes down what came of it. The begin of the attempt is stored before
 * anything leaves: whatever stops the program after that, the next one knows that the message may have gone out.
 */
export async function deliver(options: DeliverOptions, message: Message): Promise<void> {
  const { records, desk, clock, claimant, atPoint } = options;
  await atPoint('claimed', message);
  if (!(await options.mayGo(message))) return;
  const startedMs = clock.nowMs();
  if (!(await records.messages.beginAttempt(message.id, claimant, startedMs))) return;
  await atPoint('begun', message);
  const outcome = await desk.send(message);
  await atPoint('answered', message);
  await record(options, message, outcome, startedMs);
  await atPoint('recorded', message);
  options.onAttempt(message);
}

async function record(
  { records, clock, logger, claimant, random }: DeliverOptions,
  message: Message,
  outcome: SendOutcome,
  startedMs: number,
): Promise<void> {
  const finishedMs = clock.nowMs();
  const number = message.attempts + 1;
  const next = standingAfter(outcome, message, finishedMs, number, random());
  const maybeSent = outcome.kind === 'retry' && outcome.maybeSent === true;
  const attempt = { messageId: message.id, attempt: number, startedMs, finishedMs, maybeSent };
  await records.messages.finishAttempt(
    { ...attempt, outcome: outcome.kind, detail: outcome.detail },
    { ...next, claimant },
  );
  logger.info({ message: message.id, outcome: outcome.kind, detail: outcome.detail }, 'message attempt');
  if (outcome.kind !== 'gave-up' || outcome.addressGone !== true) return;
  const gone = await records.ways.markGone(message.channel, message.address, finishedMs, outcome.detail);
  if (gone > 0) logger.warn({ person: message.personId, channel: message.channel }, 'an address is no more');
}

interface Standing {
  readonly state: MessageState;
  readonly nextAttemptMs: number;
  readonly gatewayReference: string | null;
}

function standingAfter(
  outcome: SendOutcome,
  message: Message,
  nowMs: number,
  attempts: number,
  random: number,
): Standing {
  const gatewayReference = outcome.kind === 'sent' ? outcome.reference : message.gatewayReference;
  if (outcome.kind === 'sent') return { state: 'sent', nextAttemptMs: nowMs, gatewayReference };
  if (outcome.kind === 'gave-up') return { state: 'failed', nextAttemptMs: nowMs, gatewayReference };
  const nextAttemptMs = Math.max(outcome.notBeforeMs ?? 0, nowMs + backoffMs(attempts, random));
  return {
    state: nextAttemptMs > message.expiresMs ? 'expired' : 'waiting',
    nextAttemptMs,
    gatewayReference,
  };
}
