import type { Pool, PoolClient } from 'pg';
import type { Reading } from '../../../shared/readings/reading.ts';
import type { AppendResult } from '../port.ts';
import { qualityCode, reasonCode } from '../sqlite/codes.ts';
import { makeRollupDeltas, type RollupDeltas } from '../sqlite/rollups.ts';
import { inTransaction } from './tables.ts';

/**
 * Rows that are not there yet, of each channel and time the first one, numbered on from the last sequence. Nothing can
 * come in between the look and the insert, because whoever stores holds the lock on the counter.
 */
const insertFresh = `
  WITH given AS (
    SELECT * FROM unnest($1::int[], $2::bigint[], $3::float8[], $4::float8[], $5::smallint[], $6::smallint[])
      WITH ORDINALITY AS row (channel, time_ms, raw_value, value, quality, reason, place)
  ), firsts AS (
    SELECT DISTINCT ON (channel, time_ms) * FROM given ORDER BY channel, time_ms, place
  ), fresh AS (
    SELECT firsts.*, $7::bigint + row_number() OVER (ORDER BY place) AS sequence FROM firsts
    WHERE time_ms >= $8 AND NOT EXISTS (
      SELECT FROM series_reading AS stored
      WHERE stored.channel = firsts.channel AND stored.time_ms = firsts.time_ms)
  ), inserted AS (
    INSERT INTO series_reading (channel, time_ms, sequence, raw_value, value, quality, reason)
    SELECT channel, time_ms, sequence, raw_value, value, quality, reason FROM fresh
  )
  SELECT place::int - 1 AS row FROM fresh ORDER BY place`;

const addRollups = `
  INSERT INTO series_rollup AS held (step, channel, start_ms, count, minimum, maximum, sum, count_all)
  SELECT * FROM unnest($1::text[], $2::int[], $3::bigint[], $4::bigint[], $5::float8[], $6::float8[], $7::float8[], $8::bigint[])
  ON CONFLICT (step, channel, start_ms) DO UPDATE SET
    count = held.count + excluded.count,
    minimum = least(held.minimum, excluded.minimum),
    maximum = greatest(held.maximum, excluded.maximum),
    sum = held.sum + excluded.sum,
    count_all = held.count_all + excluded.count_all`;

/** Stores groups of readings, each group in one transaction, flushed before it resolves. */
export function prepareAppend(
  pool: Pool,
): (groups: readonly (readonly Reading[])[]) => Promise<AppendResult[]> {
  const known = new Map<string, number>();
  return (groups) =>
    inTransaction(pool, async (client) => {
      const readings = groups.flat();
      const counters = await lockCounters(client);
      const fresh = await insertReadings(
        client,
        readings,
        await channelIds(client, known, readings),
        counters,
      );
      const lastSequence = counters.lastSequence + fresh.size;
      if (fresh.size > 0)
        await client.query(`UPDATE series_counter SET value = $1 WHERE name = 'last-sequence'`, [
          lastSequence,
        ]);
      return resultsOf(groups, fresh, lastSequence);
    });
}

interface Counters {
  readonly lastSequence: number;
  readonly trimmedBeforeMs: number;
}

/** From here to the commit nobody else stores or removes. */
export async function lockCounters(client: PoolClient): Promise<Counters> {
  const { rows } = await client.query<{ name: string; value: string }>(
    'SELECT name, value FROM series_counter ORDER BY name FOR UPDATE',
  );
  const value = (name: string) => Number(rows.find((row) => row.name === name)!.value);
  return { lastSequence: value('last-sequence'), trimmedBeforeMs: value('trimmed-before-ms') };
}

/** Returns the places of the readings that were new. */
async function insertReadings(
  client: PoolClient,
  readings: readonly Reading[],
  ids: ReadonlyMap<string, number>,
  { lastSequence, trimmedBeforeMs }: Counters,
): Promise<Set<number>> {
  if (readings.length === 0) return new Set();
  const { rows } = await client.query<{ row: number }>(insertFresh, [
    readings.map(({ channel }) => ids.get(channel)),
    readings.map(({ timeMs }) => timeMs),
    readings.map(({ rawValue }) => rawValue),
    readings.map(({ value }) => value),
    readings.map(({ quality }) => qualityCode(quality)),
    readings.map(({ reason }) => reasonCode(reason)),
    lastSequence,
    trimmedBeforeMs,
  ]);
  const deltas = makeRollupDeltas();
  for (const { row } of rows) {
    const { channel, timeMs, value, quality } = readings[row]!;
    deltas.add(ids.get(channel)!, timeMs, value, quality === 'good');
  }
  await saveRollups(client, deltas);
  return new Set(rows.map(({ row }) => row));
}

async function saveRollups(client: PoolClient, deltas: RollupDeltas): Promise<void> {
  const all = [...deltas.all()];
  if (all.length === 0) return;
  await client.query(addRollups, [
    all.map(({ step }) => step),
    all.map(({ channel }) => channel),
    all.map(({ startMs }) => startMs),
    all.map(({ count }) => count),
    all.map(({ count, minimum }) => (count === 0 ? null : minimum)),
    all.map(({ count, maximum }) => (count === 0 ? null : maximum)),
    all.map(({ sum }) => sum),
    all.map(({ countAll }) => countAll),
  ]);
}

/** Ids of channel names. One is remembered only once it was found: a row just inserted may still roll back. */
async function channelIds(
  client: PoolClient,
  known: Map<string, number>,
  readings: readonly Reading[],
): Promise<ReadonlyMap<string, number>> {
  const names = [...new Set(readings.map(({ channel }) => channel))];
  const unknown = names.filter((name) => !known.has(name));
  if (unknown.length === 0) return known;
  for (const [name, id] of await findIds(client, unknown)) known.set(name, id);
  const missing = unknown.filter((name) => !known.has(name));
  if (missing.length === 0) return known;
  await client.query('INSERT INTO series_channel (name) SELECT unnest($1::text[])', [missing]);
  return new Map([...known, ...(await findIds(client, missing))]);
}

async function findIds(client: PoolClient, names: readonly string[]): Promise<[string, number][]> {
  const { rows } = await client.query<{ id: number; name: string }>(
    'SELECT id, name FROM series_channel WHERE name = ANY($1)',
    [names],
  );
  return rows.map(({ id, name }) => [name, id]);
}

function resultsOf(
  groups: readonly (readonly Reading[])[],
  fresh: ReadonlySet<number>,
  lastSequence: number,
): AppendResult[] {
  let row = 0;
  return groups.map(({ length }) => {
    let stored = 0;
    for (const end = row + length; row < end; row++) if (fresh.has(row)) stored++;
    return { stored, duplicates: length - stored, lastSequence };
  });
}
