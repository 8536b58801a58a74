import type { DatabaseSync } from 'node:sqlite';
import { inTransaction } from './database.ts';

/** Rows removed in one transaction: small, so that readings waiting to be stored wait milliseconds, not seconds. */
const rowsPerStep = 5_000;

/**
 * Removes some raw readings older than a time and stored up to a sequence; call again until it says 0. Roll-ups stay.
 * From the first step on, readings older than that time are no longer accepted (see `insertRow`).
 */
export function prepareTrim(database: DatabaseSync): (beforeMs: number, upToSequence: number) => number {
  const raiseMark = database.prepare(
    `UPDATE counter SET value = max(value, ?) WHERE name = 'trimmed-before-ms'`,
  );
  const channels = database.prepare('SELECT id FROM channel');
  const boundary = database.prepare(
    'SELECT time_ms FROM reading WHERE channel = ? AND time_ms < ? AND sequence <= ? ORDER BY time_ms LIMIT 1 OFFSET ?',
  );
  const remove = database.prepare('DELETE FROM reading WHERE channel = ? AND time_ms < ? AND sequence <= ?');
  return (beforeMs, upToSequence) =>
    inTransaction(database, () => {
      raiseMark.run(beforeMs);
      let removed = 0;
      for (const { id } of channels.all()) {
        const channel = Number(id);
        // The first row that may stay for the next step; none when all that is left fits into this one.
        const next = boundary.get(channel, beforeMs, upToSequence, rowsPerStep - removed);
        const endMs = Number(next?.time_ms ?? beforeMs);
        removed += Number(remove.run(channel, endMs, upToSequence).changes);
        if (removed >= rowsPerStep) break;
      }
      return removed;
    });
}
