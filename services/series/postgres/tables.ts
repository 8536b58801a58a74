import type { Pool, PoolClient } from 'pg';

/** Version of the tables' layout that this program makes and reads. */
export const seriesTablesVersion = 1;

/**
 * The same layout as the SQLite file, under names of its own, so that readings and records may live in one database.
 * `sequence` is given out under the lock on the counter and committed before the next one can be: a cursor over it
 * never passes a reading that is still on its way, whoever stores it.
 */
const layout = `
  CREATE TABLE series_channel (
    id INTEGER GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    name TEXT NOT NULL UNIQUE
  );
  CREATE TABLE series_reading (
    channel INTEGER NOT NULL,
    time_ms BIGINT NOT NULL,
    sequence BIGINT NOT NULL,
    raw_value DOUBLE PRECISION NOT NULL,
    value DOUBLE PRECISION NOT NULL,
    quality SMALLINT NOT NULL,
    reason SMALLINT NOT NULL,
    PRIMARY KEY (channel, time_ms)
  );
  CREATE UNIQUE INDEX series_reading_by_sequence ON series_reading (sequence);
  CREATE TABLE series_rollup (
    step TEXT NOT NULL,
    channel INTEGER NOT NULL,
    start_ms BIGINT NOT NULL,
    count BIGINT NOT NULL,
    minimum DOUBLE PRECISION,
    maximum DOUBLE PRECISION,
    sum DOUBLE PRECISION NOT NULL,
    count_all BIGINT NOT NULL,
    PRIMARY KEY (step, channel, start_ms)
  );
  CREATE TABLE series_counter (name TEXT PRIMARY KEY, value BIGINT NOT NULL);
  INSERT INTO series_counter VALUES ('last-sequence', 0), ('trimmed-before-ms', -9007199254740991);
  CREATE TABLE series_forward (name TEXT PRIMARY KEY, value BIGINT NOT NULL);
  CREATE TABLE series_refused (
    sequence BIGINT PRIMARY KEY,
    channel TEXT NOT NULL,
    time_ms BIGINT NOT NULL,
    value DOUBLE PRECISION NOT NULL,
    answer TEXT NOT NULL,
    refused_at_ms BIGINT NOT NULL
  );
`;

/** Any number nobody else is likely to lock: held while the tables are made, so that two first starts make them once. */
const makingLock = 7_418_529_631;

/** Makes the tables on first use. Throws when a newer version of the program made them. */
export async function makeTables(pool: Pool): Promise<void> {
  await inTransaction(pool, async (client) => {
    await client.query('SELECT pg_advisory_xact_lock($1)', [makingLock]);
    await client.query('CREATE TABLE IF NOT EXISTS series_version (version INTEGER NOT NULL)');
    const { rows } = await client.query<{ version: number }>('SELECT version FROM series_version');
    const found = rows[0]?.version ?? 0;
    if (found > seriesTablesVersion)
      throw new Error(`tables of version ${found}; this program knows up to ${seriesTablesVersion}`);
    if (found === seriesTablesVersion) return;
    await client.query(layout);
    await client.query('INSERT INTO series_version VALUES ($1)', [seriesTablesVersion]);
  });
}

/** Runs work in one transaction: all of it is stored, or none when it rejects. */
export async function inTransaction<Result>(
  pool: Pool,
  work: (client: PoolClient) => Promise<Result>,
): Promise<Result> {
  const client = await pool.connect();
  let broken: Error | undefined;
  try {
    await client.query('BEGIN');
    const result = await work(client);
    await client.query('COMMIT');
    return result;
  } catch (error) {
    // A connection that cannot even roll back is not handed to the next one.
    await client.query('ROLLBACK').catch((fault: Error) => {
      broken = fault;
    });
    throw error;
  } finally {
    client.release(broken);
  }
}
