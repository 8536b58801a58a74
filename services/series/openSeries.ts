import { join } from 'node:path';
import type { BaseLogger } from 'pino';
import type { Clock } from '../clock.ts';
import { type ForwardState, openForwardState } from './forward/forwardState.ts';
import { type JournalGauge, openJournalGauge } from './forward/journalGauge.ts';
import type { Forwarder } from './forward/startForwarder.ts';
import { startForwarding } from './forward/startForwarding.ts';
import type { Waits } from './forward/waits.ts';
import { createInfluxSeries } from './influx/createInfluxSeries.ts';
import { openInfluxArchive } from './influx/openArchive.ts';
import type { InfluxSettings } from './influx/settings.ts';
import { openSharedSeries } from './openSharedSeries.ts';
import { openSqliteSeries } from './openSqliteSeries.ts';
import type { SeriesStore } from './port.ts';

export interface SeriesOptions {
  /** Folder for `series.sqlite` and, with InfluxDB, `forward.sqlite`. A backup must hold both or only the first. */
  readonly folder: string;
  /** Null: the local store is all there is. */
  readonly influx: InfluxSettings | null;
  readonly clock: Clock;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
  readonly waits?: Partial<Waits>;
}

export interface OpenedSeries {
  /** What ingest writes to and rules read: on this machine's disk, whatever becomes of InfluxDB. */
  readonly local: SeriesStore;
  /** What screens ask: the same readings, and those only InfluxDB still has. */
  readonly series: SeriesStore;
  /** Numbers of the local store: last sequence, bytes in use. */
  readonly gauge: Pick<JournalGauge, 'lastSequence' | 'usedBytes'>;
  /** Null without InfluxDB. */
  readonly forwarder: Forwarder | null;
  /** Lets go locally of what InfluxDB has, as the settings say; runs by itself every ten minutes. */
  keepSpace(): Promise<number>;
  close(): Promise<void>;
}

/** Opens the series store the configuration asks for. Rejects with SeriesFault when the local file cannot be opened. */
export async function openSeries(options: SeriesOptions): Promise<OpenedSeries> {
  const file = join(options.folder, 'series.sqlite');
  const journal = await openSqliteSeries({ file });
  const gauge = openJournalGauge(file);
  if (options.influx === null) {
    const close = async () => {
      gauge.close();
      await journal.close();
    };
    return { local: journal, series: journal, gauge, forwarder: null, keepSpace: async () => 0, close };
  }
  const state = openForwardState(join(options.folder, 'forward.sqlite'));
  return withInflux(options, options.influx, journal, gauge, state);
}

/** The same for a program that runs beside the yard and only reads: two must never forward from one local store. */
export async function openSeriesToRead({
  folder,
  influx,
  postgresUrl,
  clock,
  logger,
}: Omit<SeriesOptions, 'waits'> & { readonly postgresUrl: string | null }): Promise<
  Pick<SeriesStore, 'channels' | 'range' | 'rollups' | 'close'>
> {
  if (postgresUrl !== null) {
    const shared = await openSharedSeries({ postgresUrl, influx, clock, logger });
    return { ...shared.series, close: shared.close };
  }
  const journal = await openSqliteSeries({ file: join(folder, 'series.sqlite') });
  if (influx === null) return journal;
  const state = openForwardState(join(folder, 'forward.sqlite'));
  const forwardedSequence = () => state.mark('forwarded') ?? 0;
  const series = createInfluxSeries({
    journal,
    archive: openInfluxArchive(influx),
    state,
    forwardedSequence,
  });
  const close = async () => {
    state.close();
    await journal.close();
  };
  return { ...series, close };
}

function withInflux(
  options: SeriesOptions,
  influx: InfluxSettings,
  journal: SeriesStore,
  gauge: JournalGauge,
  state: ForwardState,
): OpenedSeries {
  const archive = openInfluxArchive(influx);
  const forwarding = startForwarding({ ...options, influx, journal, gauge, state, archive });
  const { forwarder, keepSpace } = forwarding;
  const local = { ...journal, append: forwardingAppend(journal, forwarder) };
  const { forwardedSequence } = forwarder;
  const series = createInfluxSeries({ journal: local, archive, state, forwardedSequence });
  const close = async () => {
    await forwarding.stop();
    gauge.close();
    state.close();
    await journal.close();
  };
  return { local: { ...local, close }, series: { ...series, close }, gauge, forwarder, keepSpace, close };
}

/** Commits here and nowhere else; the forwarder is only told that there is something to do. */
function forwardingAppend(journal: SeriesStore, forwarder: Forwarder): SeriesStore['append'] {
  return async (readings) => {
    const result = await journal.append(readings);
    if (result.stored > 0) forwarder.nudge();
    return result;
  };
}
