import { hashProbeSecret } from '../../services/broker/probeCredentials.ts';
import type { Calibration, Probe, QuarantineItem } from '../../services/records/port.ts';
import type { JournalEntry } from '../../shared/yard/journal.ts';
import type { Placement } from '../../shared/yard/yard.ts';

/** Just the records the write path reads and writes, in memory. */
export function createFakeRecords() {
  const probes = new Map<string, Probe>();
  const secretHashes = new Map<string, string>();
  const calibrations: Calibration[] = [];
  const placements: Placement[] = [];
  const journal: JournalEntry[] = [];
  const items: QuarantineItem[] = [];
  return {
    items,
    journalRows: journal,
    calibrationRows: calibrations,
    placementRows: placements,
    addProbe(id: string, secret: string, yardId = 'gannet-row'): Probe {
      const probe = { id, yardId, label: id, createdMs: 0, revokedMs: null, expectedIntervalSeconds: null };
      probes.set(id, probe);
      secretHashes.set(id, hashProbeSecret(secret));
      return probe;
    },
    revoke(id: string): void {
      probes.set(id, { ...probes.get(id)!, revokedMs: 1 });
    },
    probes: {
      get: async (id: string) => probes.get(id) ?? null,
      secretHash: async (id: string) => secretHashes.get(id) ?? null,
      calibrations: async () => calibrations,
    },
    placements: { list: async () => placements },
    journal: { forYard: async () => journal },
    quarantine: {
      add: async (item: Omit<QuarantineItem, 'id'>) => {
        items.push({ ...item, id: items.length + 1 });
        return probes.get(item.probe ?? '')?.yardId ?? null;
      },
    },
  };
}

export type FakeRecords = ReturnType<typeof createFakeRecords>;
