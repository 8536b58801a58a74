import type { Pool } from 'pg';
import { lockCounters } from './appendRows.ts';
import { inTransaction } from './tables.ts';

/** Rows removed in one transaction: small, so that readings waiting to be stored wait milliseconds, not seconds. */
const rowsPerStep = 5_000;

const removeSome = `
  DELETE FROM series_reading WHERE ctid IN (
    SELECT ctid FROM series_reading WHERE channel = $1 AND time_ms < $2 AND sequence <= $3 LIMIT ${rowsPerStep})`;

/**
 * Removes raw readings older than a time and stored up to a sequence, a piece at a time; roll-ups stay. From the first
 * step on, readings older than that time are no longer accepted. Returns how many were removed.
 */
export async function trimPostgres(pool: Pool, beforeMs: number, upToSequence: number): Promise<number> {
  await inTransaction(pool, async (client) => {
    await lockCounters(client);
    const raise = `UPDATE series_counter SET value = greatest(value, $1) WHERE name = 'trimmed-before-ms'`;
    await client.query(raise, [Math.ceil(beforeMs)]);
  });
  const { rows } = await pool.query<{ id: number }>('SELECT id FROM series_channel ORDER BY id');
  let removed = 0;
  for (const { id } of rows) {
    for (;;) {
      const { rowCount } = await pool.query(removeSome, [id, Math.ceil(beforeMs), upToSequence]);
      removed += rowCount ?? 0;
      if ((rowCount ?? 0) < rowsPerStep) break;
    }
  }
  return removed;
}
