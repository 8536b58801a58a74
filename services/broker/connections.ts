import type { Client } from 'aedes';
import type { SignedInProbe } from './port.ts';

/** Which connection is whose. */
export interface Connections {
  signedIn(client: Client, probe: SignedInProbe): void;
  /** Null for a connection that has not signed in. */
  probeOf(client: Client | null): SignedInProbe | null;
  gone(client: Client): void;
  probeIds(): string[];
  count(): number;
  disconnect(probeId: string): void;
}

export function createConnections(): Connections {
  const probes = new Map<Client, SignedInProbe>();
  // Kept beyond the connection's end: a last will is published, and checked, after it.
  const everSignedIn = new WeakMap<Client, SignedInProbe>();
  return {
    signedIn(client, probe) {
      probes.set(client, probe);
      everSignedIn.set(client, probe);
    },
    probeOf: (client) => (client === null ? null : (everSignedIn.get(client) ?? null)),
    gone: (client) => {
      probes.delete(client);
    },
    probeIds: () => [...new Set([...probes.values()].map(({ probeId }) => probeId))].sort(),
    count: () => probes.size,
    disconnect(probeId) {
      for (const [client, probe] of probes) if (probe.probeId === probeId) client.close();
    },
  };
}
