import type { BaseLogger } from 'pino';
import type { MappingRule } from '../../shared/readings/mapping.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import type { YardId } from '../../shared/yard/yard.ts';
import type { Clock } from '../clock.ts';
import type { QuarantineStore } from '../records/port.ts';
import type { SeriesStore } from '../series/port.ts';
import { createArrivals } from './arrivals.ts';
import { createContacts } from './contacts.ts';
import { createGroupStore } from './groupStore.ts';
import { createHistories } from './histories.ts';
import { judgeCandidates } from './judge.ts';
import type { IncomingMessage, IngestPort, IngestStatistics, ProbeContact } from './port.ts';
import { createQuarantineKeeper } from './quarantineKeeper.ts';
import { readMessage } from './readMessage.ts';
import { startCounting } from './statistics.ts';
import { createKnowledgeCache, type KnowledgeSource } from './yardKnowledge.ts';

export interface IngestOptions {
  readonly series: SeriesStore;
  readonly records: KnowledgeSource & { readonly quarantine: Pick<QuarantineStore, 'add'> };
  readonly clock: Clock;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
  readonly settings: {
    /** How messages of senders that do not speak SenML become readings. */
    readonly mappings: readonly MappingRule[];
    /** How long messages are gathered before one commit; 0 commits as soon as the disk is free. */
    readonly groupMilliseconds: number;
    readonly futureToleranceSeconds: number;
    /** How long what was read from the records counts; `knowledgeChanged` shortens it. Default 5000. */
    readonly refreshMilliseconds?: number;
  };
  /** Other processes take readings into the same series. */
  readonly storedByOthers?: boolean;
  /** Told after each commit which readings are new; must not throw. */
  readonly onStored?: (readings: readonly Reading[]) => void;
  /** Told when a yard has one more message in quarantine; must not throw. */
  readonly onQuarantined?: (yardId: YardId) => void;
}

export interface Ingest extends IngestPort {
  statistics(): IngestStatistics;
  /** Longest wait until its next message that a probe itself promised (SenML `ut`), seconds; null when it never did. */
  promisedIntervalSeconds(probeId: string): number | null;
  /** How a probe last spoke; null when it has not since the start. */
  contactOf(probeId: string): ProbeContact | null;
  /** Probes, placements or calibrations were changed: read them again before the next message. */
  knowledgeChanged(): void;
  /** Resolves when everything taken in so far is durable or refused. */
  settled(): Promise<void>;
}

/**
 * The way of a message from the broker into the store: read, checked, judged, committed in groups, then answered in
 * order of arrival. While one group is being committed the next one is read and judged.
 */
export function createIngest(options: IngestOptions): Ingest {
  const { records, clock, settings } = options;
  const counting = startCounting();
  const promises = new Map<string, number>();
  const contacts = createContacts();
  const quarantine = createQuarantineKeeper(records.quarantine, options.logger, options.onQuarantined);
  const knowledge = createKnowledgeCache(records, {
    futureToleranceMs: settings.futureToleranceSeconds * 1000,
    refreshMilliseconds: settings.refreshMilliseconds ?? 5_000,
    nowMs: () => clock.nowMs(),
  });
  const store = createGroupStore({ ...options, quarantine, counting, onFault: () => histories.clear() });
  const histories = createHistories({ ...options, settled: store.settled });

  async function prepare(message: IncomingMessage) {
    const read = await readMessage(message, knowledge, settings.mappings);
    if (read.probeId !== null && read.promisedSeconds !== null) {
      promises.set(read.probeId, read.promisedSeconds);
    }
    contacts.note(read);
    return { read, readings: await judgeCandidates(read, histories) };
  }
  const arrivals = createArrivals({
    beforeGroup: () => histories.catchUp(),
    prepare,
    store: store.commit,
    settled: store.settled,
    groupMilliseconds: settings.groupMilliseconds,
    onFault: (error) => {
      counting.counts.storageFaults++;
      options.logger.error({ err: error }, 'readings could not be stored; their senders keep them');
    },
  });

  return {
    accept(message) {
      counting.counts.messages++;
      return arrivals.add(message);
    },
    async turnAway(item) {
      counting.counts.quarantined++;
      try {
        await quarantine.keep(item, clock.nowMs());
      } catch (error) {
        options.logger.error({ err: error, probe: item.probe }, 'quarantine could not be written');
      }
    },
    statistics: () => ({ ...counting.counts, waiting: arrivals.waiting() }),
    contactOf: contacts.of,
    promisedIntervalSeconds: (probeId) => promises.get(probeId) ?? null,
    knowledgeChanged: () => knowledge.forget(),
    settled: arrivals.settled,
  };
}
