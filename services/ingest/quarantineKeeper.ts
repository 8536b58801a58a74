import type { BaseLogger } from 'pino';
import type { YardId } from '../../shared/yard/yard.ts';
import type { QuarantineStore } from '../records/port.ts';
import type { TurnedAway } from './port.ts';

/** Start of a payload worth keeping: enough to see what it is. */
const keptBytes = 4096;
/** Of one sender, this many are kept in this long; a probe gone mad must not push out what others left to look at. */
const keptPerSender = 10;
const perMs = 10 * 60_000;
const mostSenders = 1_000;

/** Puts what cannot be taken in where a person can look at it. */
export interface QuarantineKeeper {
  /** Resolves true when the item is kept, false when its sender has had its share; rejects on a storage fault. */
  keep(item: TurnedAway, receivedMs: number): Promise<boolean>;
}

/** Shares are counted on the machine's own clock, not the yard's, which runs fast in the demo. */
export function createQuarantineKeeper(
  store: Pick<QuarantineStore, 'add'>,
  logger: Pick<BaseLogger, 'warn'>,
  onKept: (yardId: YardId) => void = () => {},
): QuarantineKeeper {
  const senders = new Map<string, { count: number; sinceMs: number }>();
  const mayKeep = (sender: string): boolean => {
    const nowMs = performance.now();
    const known = senders.get(sender);
    const share = known !== undefined && nowMs - known.sinceMs < perMs ? known : { count: 0, sinceMs: nowMs };
    if (senders.size >= mostSenders) senders.clear();
    senders.set(sender, share);
    share.count++;
    return share.count <= keptPerSender;
  };
  return {
    async keep(item, receivedMs) {
      if (!mayKeep(item.probe ?? item.topic)) return false;
      // A copy: the payload may be a piece of a network buffer, which would be held whole.
      const payloadStart = item.payloadStart.slice(0, keptBytes);
      const yardId = await store.add({ ...item, payloadStart, receivedMs });
      if (yardId !== null) onKept(yardId);
      logger.warn(
        { probe: item.probe, topic: item.topic, yard: yardId },
        `put in quarantine: ${item.reason}`,
      );
      return true;
    },
  };
}
