import type { Pool, PoolClient } from 'pg';
import type { ForwardState, MarkName, RefusedReading } from '../forward/forwardState.ts';
import type { StoredReading } from '../port.ts';
import { inTransaction } from './tables.ts';

/** Refused readings kept for a look; the number of all is counted beside them. */
const refusedKept = 1000;
/** Whoever read the place where the local store begins a moment before it moved gets its answer first. */
const graceMs = 2_000;

const setMark =
  'INSERT INTO series_forward (name, value) VALUES ($1, $2) ON CONFLICT (name) DO UPDATE SET value = excluded.value';

/**
 * What the forwarder must not forget, beside the readings themselves: whichever process forwards next goes on from it.
 * Marks are read from memory, which `refresh` brings up to what other processes wrote; only the one that forwards writes.
 */
export async function openPostgresForwardState(pool: Pool): Promise<ForwardState> {
  let marks = new Map<string, number>();
  async function refresh(): Promise<void> {
    const { rows } = await pool.query<{ name: string; value: string }>(
      'SELECT name, value FROM series_forward',
    );
    marks = new Map(rows.map(({ name, value }) => [name, Number(value)]));
  }
  await refresh();
  const mark = (name: MarkName) => marks.get(name) ?? null;

  async function write(
    changes: readonly (readonly [MarkName, number])[],
    more?: (client: PoolClient) => Promise<void>,
  ) {
    await inTransaction(pool, async (client) => {
      await more?.(client);
      for (const change of changes) await client.query(setMark, [...change]);
    });
    for (const [name, value] of changes) marks.set(name, value);
  }

  return {
    mark,
    refresh,
    async setMark(name, value) {
      const isMoved = mark(name) !== value;
      await write([[name, value]]);
      if (isMoved && name === 'local-from-ms') await new Promise((resolve) => setTimeout(resolve, graceMs));
    },
    advance: (last: StoredReading, atMs, refused) =>
      write(
        [
          ['forwarded', last.sequence],
          ['forwarded-at-ms', atMs],
          ['refused', (mark('refused') ?? 0) + refused.length],
        ],
        (client) => saveRefused(client, refused),
      ),
    // Readings and marks are in one database: neither is replaced without the other.
    isForeign: () => false,
    reset: (nowMs) =>
      write([
        ['forwarded', 0],
        ['local-from-ms', nowMs],
        ['rollups-from-ms', nowMs],
      ]),
    refused: () => [],
    close: () => {},
  };
}

async function saveRefused(client: PoolClient, refused: readonly RefusedReading[]): Promise<void> {
  for (const { sequence, channel, timeMs, value, answer, refusedAtMs } of refused)
    await client.query('INSERT INTO series_refused VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT DO NOTHING', [
      ...[sequence, channel, timeMs, value, answer, refusedAtMs],
    ]);
  if (refused.length === 0) return;
  await client.query(
    'DELETE FROM series_refused WHERE sequence NOT IN (SELECT sequence FROM series_refused ORDER BY sequence DESC LIMIT $1)',
    [refusedKept],
  );
}
