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
  /** The line to a broker of the yard's own; it starts after the screens. */
  readonly source: () => { isConnected(): boolean } | null;
  readonly forwarder: { status(): ForwardStatus } | null;
  /** `settle` resolves when everything stored so far is judged, and rejects when judging fails. */
  readonly rules: { settle(): Promise<void> } | null;
  readonly dataFolder: string;
  readonly version: string;
  /** The yard's time. */
  readonly clock: Clock;
}
