import type { BrokerPort } from '../broker/port.ts';
import type { Clock } from '../clock.ts';
import type { IngestStatistics } from '../ingest/port.ts';
import type { Records } from '../records/port.ts';
import type { ForwardStatus, SeriesStore } from '../series/port.ts';

/** What of a running program is looked at. Null: that part does not run in this process. */
export interface Sources {
  readonly records: Pick<Records, 'alarms' | 'messages' | 'people' | 'quarantine' | 'marks'>;
  readonly series: Pick<SeriesStore, 'latest'>;
  readonly seriesGauge: { lastSequence(): number; usedBytes(): number };
  readonly ingest: { statistics(): IngestStatistics } | null;
  readonly broker: Pick<BrokerPort, 'statistics'> | null;
  /** The lines to a broker of the yard's own; they start after the screens. Null connected: other processes hold them. */
  readonly source: () => { isConnected(): boolean | null } | null;
  /** Null while it is not this process that forwards. */
  readonly forwarder: () => { status(): ForwardStatus } | null;
  /** `settle` resolves when everything stored so far is judged, and rejects when judging fails. */
  readonly rules: { settle(): Promise<void>; yardCount(): number } | null;
  /** Whether other processes can be heard. */
  readonly changes: { isConnected(): boolean };
  /** This process among those of the yard. */
  readonly processId: string;
  /** Services that run in this process. */
  readonly services: readonly string[];
  readonly dataFolder: string;
  readonly version: string;
  /** The yard's time. */
  readonly clock: Clock;
}
