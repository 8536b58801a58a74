import { createOperations, type Operations } from './operate/createOperations.ts';
import { programVersion } from './programVersion.ts';
import type { Records } from './records/port.ts';
import { forwardStatistics } from './series/forward/status.ts';
import type { SeriesStore } from './series/port.ts';
import { type Ground, type YardOptions as GroundOptions, openGround, runsHere } from './start/ground.ts';
import { type IngestRoom, startIngestRoom } from './start/ingestRoom.ts';
import { type NotifyRoom, type NotifyRoomOptions, startNotifyRoom } from './start/notifyRoom.ts';
import { type RulesRoom, type RulesRoomOptions, startRulesRoom } from './start/rulesRoom.ts';
import { type SeriesRoom, startSeriesRoom } from './start/seriesRoom.ts';
import { probeDesk } from './start/webDesk.ts';
import { startWebRoom } from './start/webRoom.ts';
import { type Health, startHealth } from './web/startHealth.ts';
import type { Web } from './web/startWeb.ts';

export interface YardOptions extends GroundOptions, NotifyRoomOptions, RulesRoomOptions {}

/** A process of a yard; what does not run in it is null. */
export interface RunningYard {
  readonly records: Records;
  readonly series: SeriesStore;
  readonly forwarder: ReturnType<SeriesRoom['forwarder']>;
  readonly ingest: IngestRoom['ingest'] | null;
  /** Null where readings come from a broker of the yard's own. */
  readonly broker: IngestRoom['broker'];
  readonly web: Web | null;
  /** Where a process without screens answers for itself. */
  readonly health: Health | null;
  /** Stops in the order readings travel, so that everything acknowledged is stored and judged or waits for the next start. */
  stop(): Promise<void>;
}

/** Everything that runs in this process. */
interface Rooms {
  readonly arrival: IngestRoom | null;
  readonly series: SeriesRoom | null;
  readonly judgement: RulesRoom;
  readonly telling: NotifyRoom;
}

/** The services this process was asked for, in the order a reading travels: broker, ingest, series, rules, notify, web. */
export async function startYard(options: YardOptions): Promise<RunningYard> {
  const ground = await openGround(options);
  const rooms = await startRooms(ground, options);
  const operations = operationsOf(ground, rooms);
  const web = runsHere(ground, 'web') ? await startScreens(ground, rooms, operations) : null;
  const health = web === null ? await startHealthOf(ground, operations) : null;
  // Messages of a broker of the yard's own are taken when everything they lead to stands.
  rooms.arrival?.connect();
  rooms.telling.startDuty(rooms.judgement.port);
  return {
    records: ground.records,
    series: ground.store.series,
    forwarder: rooms.series?.forwarder() ?? null,
    ingest: rooms.arrival?.ingest ?? null,
    broker: rooms.arrival?.broker ?? null,
    web,
    health,
    async stop() {
      await rooms.arrival?.stop();
      operations.stop();
      await rooms.telling.stopDuty();
      await web?.stop();
      await health?.stop();
      await rooms.judgement.stop();
      await rooms.telling.stop();
      await rooms.series?.stop();
      await ground.close();
    },
  };
}

async function startRooms(ground: Ground, options: YardOptions): Promise<Rooms> {
  let judgement: RulesRoom | null = null;
  const series = runsHere(ground, 'series') ? startSeriesRoom(ground) : null;
  const telling = await startNotifyRoom(ground, () => judgement?.port ?? null, options);
  judgement = await startRulesRoom(ground, options);
  const arrival = runsHere(ground, 'ingest') ? await startIngestRoom(ground) : null;
  return { arrival, series, judgement, telling };
}

function operationsOf(ground: Ground, { arrival, series, judgement }: Rooms): Operations {
  return createOperations({
    ...{ records: ground.records, series: ground.store.local, seriesGauge: ground.store.gauge },
    ...{ ingest: arrival?.ingest ?? null, broker: arrival?.broker ?? null },
    source: () => arrival?.source() ?? null,
    forwarder: () => series?.forwarder() ?? null,
    ...{ rules: judgement.rules, clock: ground.clock, changes: ground.changes, services: ground.services },
    processId: ground.sharing.processId,
    dataFolder: ground.configuration.dataFolder,
    version: programVersion,
  });
}

function startScreens(
  ground: Ground,
  { arrival, series, judgement, telling }: Rooms,
  operations: Operations,
): Promise<Web> {
  return startWebRoom(ground, {
    ...{ rules: judgement.port, notify: telling.port, channels: telling.channels, operations },
    probeDesk: arrival === null ? null : probeDesk(arrival),
    lastHeartbeatMs: telling.lastHeartbeatMs,
    brokerPort: arrival?.broker?.port ?? null,
    statistics: () => ({
      ...(arrival?.ingest.statistics() ?? {}),
      ...forwardStatistics(series?.forwarder()?.status() ?? null),
    }),
  });
}

function startHealthOf({ configuration, logger }: Ground, operations: Operations): Promise<Health> {
  const { health, http } = configuration;
  return startHealth({ ...health, metricsToken: http.metricsToken, operations, logger });
}
