import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Clock } from '../clock.ts';
import type { Configuration } from '../configuration/schema.ts';
import { isShared, runs, type ServiceName, serviceNames } from '../configuration/services.ts';
import { openRecords, type RecordsOptions } from '../records/openRecords.ts';
import type { Records } from '../records/port.ts';
import type { Forwarding } from '../series/forward/startForwarding.ts';
import { openSeries } from '../series/openSeries.ts';
import { openSharedSeries } from '../series/openSharedSeries.ts';
import type { SeriesStore } from '../series/port.ts';
import { workAlone } from '../sharing/alone.ts';
import { createInProcessBus } from '../sharing/inProcessBus.ts';
import type { ChangeBus, ProcessStanding, WorkSharing } from '../sharing/port.ts';
import { openPostgresBus } from '../sharing/postgresBus.ts';
import { startSharing } from '../sharing/shareWork.ts';

export interface YardOptions {
  readonly configuration: Configuration;
  /** The yard's time; the demo's runs fast. */
  readonly clock: Clock;
  readonly logger: Logger;
}

/** Readings, wherever they are kept. */
export interface SeriesGround {
  /** What ingest writes to and rules read. */
  readonly local: SeriesStore;
  /** What screens ask. */
  readonly series: SeriesStore;
  readonly gauge: { lastSequence(): number; usedBytes(): number };
  /** Forwarding by the process that opened the store, where no other can: it begins with it. */
  readonly forwarding: Pick<Forwarding, 'forwarder'> | null;
  /** Begins forwarding where several processes could; null without InfluxDB. Left out where it has begun. */
  readonly forward?: () => Promise<Forwarding | null>;
  close(): Promise<void>;
}

/** What every service of a process stands on, whichever of them run here. */
export interface Ground extends YardOptions {
  readonly records: Records;
  readonly store: SeriesGround;
  readonly changes: ChangeBus;
  readonly sharing: WorkSharing;
  /** Services that run in this process. */
  readonly services: readonly ServiceName[];
  /** What the rooms say of themselves, for the other processes; each puts its own in. */
  readonly standing: { -readonly [Field in keyof ProcessStanding]: () => ProcessStanding[Field] };
  /** Address people reach the yard by; null while it is not known. */
  publicUrl: () => string | null;
  close(): Promise<void>;
}

export const runsHere = ({ services }: Pick<Ground, 'services'>, name: ServiceName): boolean =>
  services.includes(name);

/** Opens the stores, and the ways by which this process hears of others. */
export async function openGround(options: YardOptions): Promise<Ground> {
  const { configuration, logger } = options;
  mkdirSync(configuration.dataFolder, { recursive: true });
  const records = await openRecords(recordsOptions(configuration), logger);
  const store = await openStore(options);
  const services = serviceNames.filter((name) => runs(configuration, name));
  const standing: Ground['standing'] = {
    services: () => services,
    isBrokerConnected: () => null,
    isForwarding: () => null,
    localSpaceUsedFraction: () => null,
    channels: () => null,
  };
  const together = await openTogether(options, records, () => ({
    services: standing.services(),
    isBrokerConnected: standing.isBrokerConnected(),
    isForwarding: standing.isForwarding(),
    localSpaceUsedFraction: standing.localSpaceUsedFraction(),
    channels: standing.channels(),
  }));
  const publicUrl = configuration.http.publicUrl?.replace(/\/+$/, '') ?? null;
  return {
    ...{ ...options, ...together, records, store, services, standing },
    publicUrl: () => publicUrl,
    async close() {
      await together.sharing.stop();
      await together.changes.close();
      await store.close();
      await records.close();
    },
  };
}

async function openTogether(
  { configuration, logger }: YardOptions,
  records: Records,
  standing: () => ProcessStanding,
): Promise<Pick<Ground, 'changes' | 'sharing'>> {
  if (!isShared(configuration)) {
    const onFault = (error: unknown) => logger.error({ err: error }, 'whoever was told of a change failed');
    return { changes: createInProcessBus(onFault), sharing: workAlone(standing) };
  }
  const { leases, processes } = records;
  const sharing = startSharing({ leases, processes, standing, logger });
  const { processId } = sharing;
  const connectionString = configuration.records.postgresUrl!;
  return { changes: await openPostgresBus({ connectionString, processId, logger }), sharing };
}

async function openStore({ configuration, clock, logger }: YardOptions): Promise<SeriesGround> {
  const { dataFolder, series } = configuration;
  const { postgresUrl, influx } = series;
  if (postgresUrl !== null) {
    const shared = await openSharedSeries({ postgresUrl, influx, clock, logger });
    return { ...shared, forwarding: null };
  }
  const opened = await openSeries({ folder: dataFolder, influx, clock, logger });
  const { forwarder } = opened;
  return { ...opened, forwarding: forwarder === null ? null : { forwarder } };
}

function recordsOptions({ dataFolder, records, ingest }: Configuration): RecordsOptions {
  const quarantineKeep = ingest.quarantineItems;
  if (records.postgresUrl !== null) {
    const backupFolder = records.postgresBackup === 'dump' ? dataFolder : null;
    return { kind: 'postgres', connectionString: records.postgresUrl, quarantineKeep, backupFolder };
  }
  return { kind: 'sqlite', file: join(dataFolder, 'records.sqlite'), quarantineKeep };
}
