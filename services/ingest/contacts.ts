import type { ChannelName, Quantity } from '../../shared/yard/yard.ts';
import type { ProbeContact } from './port.ts';
import type { ReadMessage } from './readMessage.ts';

/** Remembers of each known probe when it last spoke and what by; since the start only, to be asked while setting up. */
export interface Contacts {
  note(read: ReadMessage): void;
  of(probeId: string): ProbeContact | null;
}

interface Kept {
  receivedMs: number;
  newestMs: number;
  readonly quantities: Map<ChannelName, Quantity>;
}

export function createContacts(): Contacts {
  const kept = new Map<string, Kept>();
  return {
    note({ probeId, candidates, message }) {
      // Only a probe of ours has candidates: a stranger's invented names take no memory.
      const newest = candidates.at(-1);
      if (probeId === null || newest === undefined) return;
      const contact = kept.get(probeId) ?? { receivedMs: 0, newestMs: 0, quantities: new Map() };
      kept.set(probeId, contact);
      contact.receivedMs = message.receivedMs;
      contact.newestMs = newest.timeMs;
      for (const { channel, quantity } of candidates) contact.quantities.set(channel, quantity);
    },
    of(probeId) {
      const contact = kept.get(probeId);
      if (contact === undefined) return null;
      const { receivedMs, newestMs, quantities } = contact;
      return { receivedMs, clockAheadMs: newestMs - receivedMs, quantities };
    },
  };
}
