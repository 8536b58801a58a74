import type { Pool } from 'pg';
import type { JournalGauge } from '../forward/journalGauge.ts';

const lookEveryMs = 2_000;

/**
 * Last sequence and bytes in use, as seen a moment ago: both are only shown, or compared with what is far from them.
 * Rejects when the database does not answer at first; later it keeps what it saw last.
 */
export async function openPostgresGauge(pool: Pool): Promise<JournalGauge> {
  let seen = await look(pool);
  let isLooking = false;
  const timer = setInterval(() => {
    if (isLooking) return;
    isLooking = true;
    look(pool)
      .then(
        (now) => {
          seen = now;
        },
        () => {},
      )
      .finally(() => {
        isLooking = false;
      });
  }, lookEveryMs).unref();
  return {
    lastSequence: () => seen.lastSequence,
    usedBytes: () => seen.usedBytes,
    close: () => clearInterval(timer),
  };
}

async function look(pool: Pool): Promise<{ lastSequence: number; usedBytes: number }> {
  const { rows } = await pool.query<{ sequence: string; bytes: string }>(`
    SELECT value AS sequence,
      pg_total_relation_size('series_reading') + pg_total_relation_size('series_rollup') AS bytes
    FROM series_counter WHERE name = 'last-sequence'`);
  return { lastSequence: Number(rows[0]!.sequence), usedBytes: Number(rows[0]!.bytes) };
}
