import { type Dialect, PostgresDialect } from 'kysely';
import pg from 'pg';
import type { Logger } from 'pino';

/** PostgreSQL's 64-bit integer type, which `pg` hands over as text unless told otherwise. */
const int8 = pg.types.builtins.INT8;

export interface PostgresOptions {
  readonly connectionString: string;
  /** Most connections held open at once by this process; 5 when left out. */
  readonly maxConnections?: number;
  /** Folder a dump is put into before the schema changes; null or left out: the operator makes one. */
  readonly backupFolder?: string | null;
}

/** Kysely's PostgreSQL dialect over a pool that gives 64-bit integers as numbers: ours are times, counts and ids. */
export function postgresDialect(options: PostgresOptions, logger: Logger): Dialect {
  const pool = new pg.Pool({
    connectionString: options.connectionString,
    max: options.maxConnections ?? 5,
    connectionTimeoutMillis: 10_000,
    // A peer that vanished without a word must not keep locks or a caller waiting for ever.
    statement_timeout: 30_000,
    idle_in_transaction_session_timeout: 30_000,
    keepAlive: true,
    application_name: 'tilthwatch',
    types: { getTypeParser },
  });
  // An idle connection that breaks is replaced by the pool; without a listener it would end the process.
  pool.on('error', (error) => logger.warn({ error: error.message }, 'an idle records connection was lost'));
  // One that breaks between two statements of a transaction too: the next statement then rejects, which is enough.
  pool.on('connect', (client) => client.on('error', () => {}));
  return new PostgresDialect({ pool });
}

const getTypeParser: typeof pg.types.getTypeParser = (type: number, format?: 'text' | 'binary') =>
  type === int8 && format !== 'binary' ? safeInteger : pg.types.getTypeParser(type, format as 'text');

function safeInteger(text: string): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value)) throw new RangeError(`${text} is too large for a whole number here`);
  return value;
}
