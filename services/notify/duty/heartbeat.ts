import type { Logger } from 'pino';
import type { Records } from '../../records/port.ts';

const timeoutMs = 10_000;
/** A text that could have gone out and has not for this long means that nobody would be told of anything. */
const stuckMs = 15 * 60_000;

export interface HeartbeatOptions {
  readonly url: string | null;
  readonly everyMinutes: number;
  readonly records: Records;
  readonly clock: { nowMs(): number };
  readonly logger: Logger;
}

export interface Heartbeat {
  /** Calls the address if it is time to, and if people would be told of an alarm now. */
  beat(): Promise<void>;
  /** When it was last called and answered; null: never. */
  lastMs(): number | null;
}

/**
 * Tells a service outside that this yard is watched. It stays silent while texts do not leave, so that the service
 * outside raises its alarm by its own way. The address is a secret and shows in no log.
 */
export function createHeartbeat(options: HeartbeatOptions): Heartbeat {
  const { url, records, clock, logger } = options;
  let lastMs: number | null = null;
  let triedMs = Number.NEGATIVE_INFINITY;
  return {
    lastMs: () => lastMs,
    async beat() {
      const nowMs = clock.nowMs();
      if (url === null || nowMs - triedMs < options.everyMinutes * 60_000) return;
      triedMs = nowMs;
      const { oldestWaitingMs } = await records.messages.standing();
      if (oldestWaitingMs !== null && nowMs - oldestWaitingMs > stuckMs) {
        logger.error('no heartbeat: messages do not leave');
        return;
      }
      if (await isAnswered(url)) lastMs = nowMs;
      else logger.warn('the heartbeat address did not answer');
    },
  };
}

async function isAnswered(url: string): Promise<boolean> {
  try {
    const answer = await fetch(url, { signal: AbortSignal.timeout(timeoutMs), redirect: 'manual' });
    await answer.body?.cancel();
    return answer.ok;
  } catch {
    return false;
  }
}
