import pg from 'pg';
import type { Reading } from '../../shared/readings/reading.ts';
import { checkMaxPoints, checkReading } from './checkReading.ts';
import { groupCommits } from './groupCommit.ts';
import type { AppendResult, SeriesStore } from './port.ts';
import { prepareAppend } from './postgres/appendRows.ts';
import { prepareQueries } from './postgres/queries.ts';
import { makeTables } from './postgres/tables.ts';
import { trimPostgres } from './postgres/trim.ts';
import { SeriesFault } from './sqlite/workerLink.ts';

const readingsPerGroup = 20_000;
const dayMs = 86_400_000;

export interface PostgresSeriesOptions {
  readonly connectionString: string;
  /** Told when an idle connection is lost; the pool makes a new one by itself. */
  readonly onIdleLost?: (error: Error) => void;
}

/** The pool behind a store, shared with what stands beside the readings (gauge, forwarding). */
export function openSeriesPool({ connectionString, onIdleLost }: PostgresSeriesOptions): pg.Pool {
  const pool = new pg.Pool({
    connectionString,
    max: 4,
    connectionTimeoutMillis: 10_000,
    // A long range is long; a store that hangs for ever is worse.
    statement_timeout: 60_000,
    idle_in_transaction_session_timeout: 30_000,
    keepAlive: true,
    application_name: 'tilthwatch series',
  });
  // Without a listener a broken idle connection would end the process.
  pool.on('error', (error) => onIdleLost?.(error));
  // So would one that breaks between two statements of a transaction; the next statement rejects, which is enough.
  pool.on('connect', (client) => client.on('error', () => {}));
  return pool;
}

/**
 * Readings in PostgreSQL, for yards whose services run in several processes: whoever stores and whoever judges meet in
 * it. Rejects with SeriesFault when the database cannot be used.
 */
export async function openPostgresSeries(pool: pg.Pool): Promise<SeriesStore> {
  await faulted(makeTables(pool));
  const commit = prepareAppend(pool);
  const appends = groupCommits<readonly Reading[], AppendResult>({
    commit: (groups) => faulted(commit(groups)),
    size: (readings) => readings.length,
    largestGroup: readingsPerGroup,
  });
  const queries = prepareQueries(pool);
  return {
    async append(readings) {
      readings.forEach(checkReading);
      return appends.add(readings);
    },
    async range(query) {
      checkMaxPoints(query.maxPoints);
      return faulted(queries.range(query));
    },
    rollups: (...asked) => faulted(queries.rollups(...asked)),
    latest: (channels) => faulted(queries.latest(channels)),
    since: (sequence, limit) => faulted(queries.since(sequence, limit)),
    channels: () => faulted(queries.channels()),
    async trim({ rawDays, upToSequence = Number.MAX_SAFE_INTEGER }, nowMs) {
      if (rawDays === null) return 0;
      return faulted(trimPostgres(pool, nowMs - rawDays * dayMs, upToSequence));
    },
    async close() {
      await appends.settled();
      await pool.end();
    },
  };
}

async function faulted<Answer>(work: Promise<Answer>): Promise<Answer> {
  try {
    return await work;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new SeriesFault(`series store in PostgreSQL: ${why}`, { cause: error });
  }
}
