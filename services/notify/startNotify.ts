import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import type { Message, Records } from '../records/port.ts';
import { openChannelDesk } from './channelDesk.ts';
import { type DeliveryPoint, deliver } from './deliver.ts';
import { openGate } from './gate/openGate.ts';
import type { MessageChannel } from './messageChannel.ts';
import type { ChannelDeskPort, ChannelTrouble, NotifyPort } from './port.ts';

export interface NotifyOptions {
  readonly records: Records;
  readonly channels: readonly MessageChannel[];
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
  /** How long a claimed message stays ours; by default longer than any channel may take. */
  readonly leaseMs?: number;
  readonly random?: () => number;
  /** Address people reach this yard by; left out, summaries say to see the wall. */
  readonly publicUrl?: () => string | null;
  /** For tests of what a stop in the middle of sending does. */
  readonly atPoint?: (point: DeliveryPoint, message: Message) => Promise<void>;
  /** Told after each attempt, for live screens. */
  readonly onAttempt?: (message: Message) => void;
  /** A channel needs somebody to put it right; told once for as long as it says the same. */
  readonly onTrouble?: (trouble: ChannelTrouble) => void;
}

/** Longest and shortest sleep between two looks at the outbox, should a nudge be lost or a retry be due at once. */
const idleWaitMs = 5_000;
const shortestWaitMs = 50;
const mostAtOnce = 20;
const shortestLeaseMs = 120_000;
/** Beyond the slowest channel, for the record to be written. */
const leaseMarginMs = 30_000;

/**
 * Sends what the outbox holds. A message is claimed under a lease, passes the gate, is handed to its channel, and its
 * attempt recorded together with its new standing (`deliver.ts`). A crash between the gateway's yes and that record sends
 * it again under the same key: never lost, doubled only where the gateway ignores the key, and then said so.
 */
export function startNotify(
  options: NotifyOptions,
): NotifyPort & ChannelDeskPort & { stop(): Promise<void> } {
  const claimant = randomUUID();
  const desk = openChannelDesk(options);
  const leaseMs = options.leaseMs ?? Math.max(shortestLeaseMs, desk.longestSendMs + leaseMarginMs);
  const { records, clock, logger, publicUrl = () => null } = options;
  const each = {
    ...{ records, clock, logger, desk, claimant },
    random: options.random ?? Math.random,
    mayGo: openGate({ records, clock, claimant, publicUrl }),
    onAttempt: options.onAttempt ?? (() => {}),
    atPoint: options.atPoint ?? (async () => {}),
  };
  const underWay = new Set<Promise<void>>();
  let stopping = false;
  let wake = () => {};
  let nudged = false;

  /**
   * Claims and lets go what is due; does not wait for it, so that no slow channel holds back the next alarm. True when
   * more may be due: looking again in vain would hold up the ones that just left for their channels.
   */
  async function pass(): Promise<boolean> {
    await records.messages.expireDue(clock.nowMs());
    const limit = mostAtOnce - underWay.size;
    const due = await records.messages.claimDue({ nowMs: clock.nowMs(), limit, leaseMs, claimant });
    for (const message of due) letGo(message);
    return due.length > 0 && due.length === limit;
  }

  function letGo(message: Message): void {
    const done: Promise<void> = deliver(each, message)
      .catch((error: unknown) =>
        // It stays claimed, is free again when its lease ends, and is then known to be in doubt.
        logger.error({ err: error, message: message.id }, 'a message could not be brought on its way'),
      )
      .finally(() => {
        underWay.delete(done);
        nudge();
      });
    underWay.add(done);
  }

  async function waitMs(): Promise<number> {
    const dueMs = await records.messages.nextDueMs().catch(() => null);
    return dueMs === null
      ? idleWaitMs
      : Math.min(idleWaitMs, Math.max(shortestWaitMs, dueMs - clock.nowMs()));
  }

  async function run(): Promise<void> {
    while (!stopping) {
      nudged = false;
      const isMoreDue = await pass().catch((error: unknown) => {
        logger.error({ err: error }, 'the outbox could not be read or written; trying again');
        return false;
      });
      if (isMoreDue || nudged || stopping) continue;
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

  function nudge(): void {
    nudged = true;
    wake();
  }

  // Nobody waits for these: a channel that is not ready says so in its standing, and each message finds out for itself.
  for (const { kind } of options.channels) void desk.check(kind);
  const running = run();
  return {
    nudge,
    isKnown: desk.isKnown,
    kinds: desk.kinds,
    pushKey: desk.pushKey,
    standings: desk.standings,
    check: desk.check,
    test: desk.test,
    async stop() {
      stopping = true;
      nudge();
      await running;
      await Promise.all(underWay);
      await desk.stop();
    },
  };
}
