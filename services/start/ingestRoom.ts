import { probeCredentials } from '../broker/probeCredentials.ts';
import { type RunningBroker, startBroker } from '../broker/startBroker.ts';
import type { Configuration } from '../configuration/schema.ts';
import { createIngest, type Ingest } from '../ingest/createIngest.ts';
import { type MqttSources, startMqttSources } from '../ingest/startMqttSources.ts';
import { type Ground, runsHere } from './ground.ts';

/** The way readings come in: broker or the line to one, and ingest behind it. */
export interface IngestRoom {
  readonly ingest: Ingest;
  /** Null where readings come from a broker of the yard's own. */
  readonly broker: RunningBroker | null;
  /** Null with the built-in broker, and until it is started. */
  source(): MqttSources | null;
  /** Begins to take readings from a broker of the yard's own; the built-in one listens from the start. */
  connect(): void;
  isBrokerConnected(): boolean | null;
  stop(): Promise<void>;
}

export async function startIngestRoom(ground: Ground): Promise<IngestRoom> {
  const { configuration, records, store, clock, logger, changes } = ground;
  const ingest = createIngest({
    ...{ series: store.local, records, clock, logger, settings: configuration.ingest },
    storedByOthers: store.forward !== undefined,
    onQuarantined: (yardId) => changes.tell({ kind: 'screens', changes: [{ kind: 'quarantine', yardId }] }),
    onStored: () => changes.tell({ kind: 'readings-stored' }),
  });
  const broker = runsHere(ground, 'broker') ? await openBroker(ground, ingest) : null;
  changes.listen('facts', ({ probeId }) => {
    ingest.knowledgeChanged();
    if (probeId !== undefined) broker?.disconnectProbe(probeId);
  });
  changes.listen('missed', () => ingest.knowledgeChanged());
  let source: MqttSources | null = null;
  const isBrokerConnected = () => (broker === null ? (source?.isConnected() ?? null) : true);
  ground.standing.isBrokerConnected = isBrokerConnected;
  return {
    ...{ ingest, broker, isBrokerConnected },
    source: () => source,
    connect() {
      if (broker === null) source = startMqttSources({ ...sourceOptions(ground, ingest) });
    },
    async stop() {
      await source?.stop();
      await broker?.stop();
      await ingest.settled();
    },
  };
}

function openBroker(
  { configuration, records, clock, logger }: Ground,
  ingest: Ingest,
): Promise<RunningBroker> {
  return startBroker({
    config: configuration.broker,
    ingest,
    credentials: probeCredentials(records.probes),
    mappedFilters: filtersOf(configuration),
    clock,
    logger,
  });
}

function sourceOptions({ configuration, clock, logger, sharing }: Ground, ingest: Ingest) {
  const { broker } = configuration;
  const config = {
    url: broker.externalUrl!,
    user: broker.externalUser,
    password: broker.externalPassword,
    protocol: broker.externalProtocol,
    clientId: broker.externalClientId,
    caFile: broker.externalCaFile,
    certificateFile: broker.externalCertificateFile,
    keyFile: broker.externalKeyFile,
  };
  const { sharedSessions } = broker;
  return { config, sharedSessions, sharing, mappedFilters: filtersOf(configuration), ingest, clock, logger };
}

const filtersOf = ({ ingest }: Configuration): string[] =>
  ingest.mappings.map(({ topicFilter }) => topicFilter);
