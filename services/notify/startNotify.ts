import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import type { Message, MessageState, Records } from '../records/port.ts';
import { backoffMs } from './backoff.ts';
import { openChannelDesk } from './channelDesk.ts';
import type { MessageChannel, SendOutcome } from './messageChannel.ts';
import type { ChannelDeskPort, ChannelTrouble, NotifyPort } from './port.ts';

export interface NotifyOptions {
  readonly records: Records;
  readonly channels: readonly MessageChannel[];
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  /** How long a claimed message stays ours; by default longer than any channel may take. */
  readonly leaseMs?: number;
  readonly random?: () => number;
  /** Told after each attempt, for live screens. */
  readonly onAttempt?: (message: Message) => void;
  /** A channel needs somebody to put it right; told once for as long as it says the same. */
  readonly onTrouble?: (trouble: ChannelTrouble) => void;
}

/** Longest and shortest sleep between two looks at the outbox, should a nudge be lost or a retry be due at once. */
const idleWaitMs = 5_000;
const shortestWaitMs = 50;
const claimAtOnce = 20;
const shortestLeaseMs = 120_000;
/** Beyond the slowest channel, for the record to be written. */
const leaseMarginMs = 30_000;

/**
 * Sends what the outbox holds. A message is claimed under a lease, handed to its channel, and its attempt recorded
 * together with its new standing. A crash between the gateway's yes and that record sends it again under the same key:
 * never lost, and doubled only where the gateway ignores the key.
 */
export function startNotify(
  options: NotifyOptions,
): NotifyPort & ChannelDeskPort & { stop(): Promise<void> } {
  const claimant = randomUUID();
  const desk = openChannelDesk(options);
  const leaseMs = options.leaseMs ?? Math.max(shortestLeaseMs, desk.longestSendMs + leaseMarginMs);
  let stopping = false;
  let wake = () => {};
  let nudged = false;

  async function pass(): Promise<number> {
    const { records, clock } = options;
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
    const outcome = await desk.send(message);
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
      { ...next, claimant },
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

  // Nobody waits for these: a channel that is not ready says so in its standing, and each message finds out for itself.
  for (const { kind } of options.channels) void desk.check(kind);
  const running = run();
  const nudge = () => {
    nudged = true;
    wake();
  };
  return {
    nudge,
    standings: desk.standings,
    check: desk.check,
    test: desk.test,
    async stop() {
      stopping = true;
      nudge();
      await running;
      await desk.stop();
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
