import type { BaseLogger } from 'pino';
import type { Clock } from '../clock.ts';
import type { JournalGauge } from './forward/journalGauge.ts';
import { type Forwarding, startForwarding } from './forward/startForwarding.ts';
import { createInfluxSeries } from './influx/createInfluxSeries.ts';
import { openInfluxArchive } from './influx/openArchive.ts';
import type { InfluxSettings } from './influx/settings.ts';
import { openPostgresSeries, openSeriesPool } from './openPostgresSeries.ts';
import type { SeriesStore } from './port.ts';
import { openPostgresForwardState } from './postgres/forwardState.ts';
import { openPostgresGauge } from './postgres/gauge.ts';

export interface SharedSeriesOptions {
  readonly postgresUrl: string;
  /** Null: PostgreSQL is all there is. */
  readonly influx: InfluxSettings | null;
  readonly clock: Clock;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
}

export interface SharedSeries {
  /** What ingest writes to and rules read, whatever becomes of InfluxDB. */
  readonly local: SeriesStore;
  /** What screens ask: the same readings, and those only InfluxDB still has. */
  readonly series: SeriesStore;
  readonly gauge: Pick<JournalGauge, 'lastSequence' | 'usedBytes'>;
  /** Begins to give InfluxDB what is stored; null without InfluxDB. One process at a time: whoever holds the lease. */
  forward(): Promise<Forwarding | null>;
  close(): Promise<void>;
}

/** Readings that several processes share, in PostgreSQL. Rejects with SeriesFault when it cannot be used. */
export async function openSharedSeries(options: SharedSeriesOptions): Promise<SharedSeries> {
  const { postgresUrl, influx, logger } = options;
  const onIdleLost = ({ message }: Error) => logger.warn({ message }, 'an idle series connection was lost');
  const pool = openSeriesPool({ connectionString: postgresUrl, onIdleLost });
  const journal = await openPostgresSeries(pool).catch(async (error: unknown) => {
    await pool.end();
    throw error;
  });
  const gauge = await openPostgresGauge(pool);
  const state = await openPostgresForwardState(pool);
  const archive = influx === null ? null : openInfluxArchive(influx);
  const forwardedSequence = () => state.mark('forwarded') ?? 0;
  const series =
    archive === null ? journal : createInfluxSeries({ journal, archive, state, forwardedSequence });
  return {
    ...{ local: journal, series, gauge },
    async forward() {
      if (influx === null || archive === null) return null;
      await state.refresh?.();
      return startForwarding({ ...options, influx, journal, gauge, state, archive });
    },
    async close() {
      gauge.close();
      await journal.close();
    },
  };
}
