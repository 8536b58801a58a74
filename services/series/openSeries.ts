import { join } from 'node:path';
import type { BaseLogger } from 'pino';
import type { Clock } from '../clock.ts';
import type { Archive } from './archive.ts';
import { type ForwardState, openForwardState } from './forward/forwardState.ts';
import { type JournalGauge, openJournalGauge } from './forward/journalGauge.ts';
import { type Forwarder, startForwarder } from './forward/startForwarder.ts';
import type { Waits } from './forward/waits.ts';
import { createInfluxSeries } from './influx/createInfluxSeries.ts';
import { keepLocalSpace } from './influx/localSpace.ts';
import { openInfluxArchive } from './influx/openArchive.ts';
import type { InfluxSettings } from './influx/settings.ts';
import { openSqliteSeries } from './openSqliteSeries.ts';
import type { SeriesStore } from './port.ts';

const spaceEveryMs = 10 * 60_000;

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
}: Pick<SeriesOptions, 'folder' | 'influx'>): Promise<
  Pick<SeriesStore, 'channels' | 'range' | 'rollups' | 'close'>
> {
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
  { clock, logger, waits = {} }: SeriesOptions,
  influx: InfluxSettings,
  journal: SeriesStore,
  gauge: JournalGauge,
  state: ForwardState,
): OpenedSeries {
  const archive = openInfluxArchive(influx);
  const limitBytes = influx.localGigabytes === null ? null : influx.localGigabytes * 1e9;
  noteBirth(state, gauge, clock.nowMs());
  const beforeFirstWrite = () => findPast(state, archive);
  const forwarder = startForwarder({
    journal,
    gauge,
    state,
    archive,
    clock,
    logger,
    limitBytes,
    waits,
    beforeFirstWrite,
  });
  const { forwardedSequence } = forwarder;
  const local = { ...journal, append: forwardingAppend(journal, forwarder) };
  const space = {
    journal,
    state,
    forwardedSequence,
    localDays: influx.localDays,
    disk: () => forwarder.status().disk,
  };
  const keepSpace = () => keepLocalSpace(space, clock.nowMs());
  const timer = setInterval(() => {
    keepSpace().catch((error: unknown) =>
      logger.error({ error }, 'the local store could not be made smaller'),
    );
  }, spaceEveryMs);
  const series = createInfluxSeries({ journal: local, archive, state, forwardedSequence });
  const close = async () => {
    clearInterval(timer);
    await forwarder.stop();
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

/** Remembers whether the yard began with this file or may have a past that only InfluxDB knows. */
function noteBirth(state: ForwardState, gauge: JournalGauge, nowMs: number): void {
  if (state.mark('born-at-ms') !== null) return;
  state.setMark('born-at-ms', gauge.lastSequence() === 0 ? nowMs : Number.MIN_SAFE_INTEGER);
}

/** An empty local store beside an InfluxDB that holds readings: the disk was replaced, and the past is asked of InfluxDB. */
async function findPast(state: ForwardState, archive: Archive): Promise<void> {
  if (state.mark('rollups-from-ms') !== null) return;
  const bornMs = state.mark('born-at-ms') ?? Number.MIN_SAFE_INTEGER;
  const hasPast = bornMs !== Number.MIN_SAFE_INTEGER && (await archive.holdsReadings());
  const fromMs = hasPast ? bornMs : Number.MIN_SAFE_INTEGER;
  state.setMark('local-from-ms', Math.max(state.mark('local-from-ms') ?? fromMs, fromMs));
  state.setMark('rollups-from-ms', fromMs);
}
