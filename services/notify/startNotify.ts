import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import type { Message, MessageState, Records } from '../records/port.ts';
import { backoffMs } from './backoff.ts';
import type { MessageChannel, SendOutcome } from './messageChannel.ts';
import type { NotifyPort } from './port.ts';

export interface NotifyOptions {
  readonly records: Records;
  readonly channels: readonly MessageChannel[];
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  /** How long a claimed message stays ours; longer than any gateway's time-out. */
  readonly leaseMs?: number;
  readonly random?: () => number;
  /** Told after each attempt, for live screens. */
  readonly onAttempt?: (message: Message) => void;
}

/** Longest and shortest sleep between two looks at the outbox, should a nudge be lost or a retry be due at once. */
const idleWaitMs = 5_000;
const shortestWaitMs = 50;
const claimAtOnce = 20;

/**
 * Sends what the outbox holds. A message is claimed under a lease, handed to its channel, and its attempt recorded
 * together with its new standing. A crash between the gateway's yes and that record sends it again under the same key:
 * never lost, and doubled only where the gateway ignores the key.
 */
export function startNotify(options: NotifyOptions): NotifyPort & { stop(): Promise<void> } {
  const claimant = randomUUID();
  const channels = new Map(options.channels.map((channel) => [channel.kind, channel]));
  let stopping = false;
  let wake = () => {};
  let nudged = false;

  async function pass(): Promise<number> {
    const { records, clock, leaseMs = 120_000 } = options;
    await records.messages.expireDue(clock.nowMs());
    const due = await records.messages.claimDue({
      nowMs: clock.nowMs(),
      limit: claimAtOnce,
      leaseMs,
      claimant,
    });
    // One slow gateway call must not hold back the text to the next person.
    await Promise.all(due.map(attempt));
    return due.length;
  }

  async function attempt(message: Message): Promise<void> {
    const startedMs = options.clock.nowMs();
    const channel = channels.get(message.channel);
    const outcome: SendOutcome = channel
      ? await channel.send(message)
      : { kind: 'gave-up', detail: `no ${message.channel} gateway is set up` };
    const finishedMs = options.clock.nowMs();
    const number = message.attempts + 1;
    const next = standingAfter(outcome, message, finishedMs, number, (options.random ?? Math.random)());
    await options.records.messages.finishAttempt(
      {
        messageId: message.id,
        attempt: number,
        startedMs,
        finishedMs,
        outcome: outcome.kind,
        detail: outcome.detail,
      },
      next,
    );
    options.logger.info(
      { message: message.id, outcome: outcome.kind, detail: outcome.detail },
      'message attempt',
    );
    options.onAttempt?.(message);
  }

  async function waitMs(): Promise<number> {
    const dueMs = await options.records.messages.nextDueMs().catch(() => null);
    return dueMs === null
      ? idleWaitMs
      : Math.min(idleWaitMs, Math.max(shortestWaitMs, dueMs - options.clock.nowMs()));
  }

  async function run(): Promise<void> {
    while (!stopping) {
      nudged = false;
      const found = await pass().catch((error: unknown) => {
        options.logger.error({ error }, 'the outbox could not be read or written; trying again');
        return 0;
      });
      if (found > 0 || nudged || stopping) continue;
      const sleepMs = await waitMs();
      if (nudged || stopping) continue;
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, sleepMs);
        wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
  }

  const running = run();
  const nudge = () => {
    nudged = true;
    wake();
  };
  return {
    nudge,
    async stop() {
      stopping = true;
      nudge();
      await running;
    },
  };
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
