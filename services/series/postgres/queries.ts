import type { Pool, QueryResultRow } from 'pg';
import type { ChannelName } from '../../../shared/yard/yard.ts';
import type { RangeQuery, Rollup, SeriesStore, StoredReading } from '../port.ts';
import { qualityOf, reasonOf } from '../sqlite/codes.ts';
import { sliceLengthMs, thin } from '../sqlite/thinning.ts';

const columns = 'reading.time_ms, sequence, raw_value, value, quality, reason';
const stretch = `
  FROM series_reading AS reading
  WHERE channel = (SELECT id FROM series_channel WHERE name = $1) AND time_ms >= $2 AND time_ms < $3 AND quality <= $4`;

/** The rows that thinning can keep: both ends, and of each slice of time the first lowest and the first highest. */
const candidates = `
  WITH points AS (
    SELECT ${columns}, least($5::int - 1, floor((time_ms - $6::float8) / $7::float8)) AS slice ${stretch}
  ), chosen AS (
    (SELECT DISTINCT ON (slice) * FROM points ORDER BY slice, value, time_ms)
    UNION (SELECT DISTINCT ON (slice) * FROM points ORDER BY slice, value DESC, time_ms)
    UNION (SELECT * FROM points WHERE time_ms IN ($6, $8))
  )
  SELECT * FROM chosen ORDER BY time_ms`;

/** The questions a store answers; every one reads only what is committed. */
export function prepareQueries(
  pool: Pool,
): Pick<SeriesStore, 'range' | 'rollups' | 'latest' | 'since' | 'channels'> {
  const rows = async (text: string, values: unknown[]) =>
    (await pool.query<QueryResultRow>({ text, values })).rows;
  return {
    range: (query) => range(rows, query),
    rollups: async (channel, step, fromMs, toMs) =>
      (await rows(selectRollups, [step, channel, least(fromMs), most(toMs)])).map(rollupOf),
    latest: (channels) => latest(rows, channels),
    async since(sequence, limit) {
      const found = await rows(
        `SELECT name, ${columns} FROM series_reading AS reading JOIN series_channel ON id = channel
         WHERE sequence > $1 ORDER BY sequence LIMIT $2`,
        [sequence, limit],
      );
      return found.map((row) => readingOf(row.name, row));
    },
    async channels() {
      const found = await rows('SELECT name FROM series_channel ORDER BY name COLLATE "C"', []);
      return found.map(({ name }) => String(name));
    },
  };
}

type Rows = (text: string, values: unknown[]) => Promise<QueryResultRow[]>;

/** Callers ask "for ever" with infinities or numbers beyond 64 bits, which the database has no whole number for. */
const least = (ms: number): number => Math.max(Math.ceil(ms), Number.MIN_SAFE_INTEGER);
const most = (ms: number): number => Math.min(Math.ceil(ms), Number.MAX_SAFE_INTEGER);

async function range(rows: Rows, query: RangeQuery): Promise<StoredReading[]> {
  const { channel, maxPoints } = query;
  const bounds = [channel, least(query.fromMs), most(query.toMs), query.quality === 'all' ? 2 : 0];
  const all = async () =>
    (await rows(`SELECT ${columns} ${stretch} ORDER BY time_ms`, bounds)).map((row) =>
      readingOf(channel, row),
    );
  if (maxPoints === undefined) return all();
  const [found] = await rows(
    `SELECT count(*) AS rows, min(time_ms) AS first, max(time_ms) AS last ${stretch}`,
    bounds,
  );
  if (Number(found!.rows) <= maxPoints) return all();
  const span = { firstMs: Number(found!.first), lastMs: Number(found!.last) };
  const slices = Math.max(1, Math.floor((maxPoints - 2) / 2));
  const sliceMs = sliceLengthMs(span, slices);
  const few = await rows(candidates, [...bounds, slices, span.firstMs, sliceMs, span.lastMs]);
  const readings = few.map((row) => readingOf(channel, row));
  return thin(readings, span, maxPoints);
}

const selectRollups = `
  SELECT start_ms, count, minimum, maximum, sum, count_all FROM series_rollup
  WHERE step = $1 AND channel = (SELECT id FROM series_channel WHERE name = $2) AND start_ms >= $3 AND start_ms < $4
  ORDER BY start_ms`;

function rollupOf(row: QueryResultRow): Rollup {
  const count = Number(row.count);
  // An hour with bad readings only has no minimum: NaN says so plainly and cannot be compared by accident.
  const orNaN = (value: unknown) => (count === 0 ? Number.NaN : Number(value));
  return {
    startMs: Number(row.start_ms),
    count,
    minimum: orNaN(row.minimum),
    maximum: orNaN(row.maximum),
    mean: orNaN(Number(row.sum) / count),
    countAll: Number(row.count_all),
  };
}

const selectLatest = `
  SELECT asked.name, worst.quality AS asked_quality, reading.*
  FROM unnest($1::text[]) WITH ORDINALITY AS asked (name, place)
  JOIN series_channel ON series_channel.name = asked.name
  CROSS JOIN (VALUES (2), (0)) AS worst (quality)
  CROSS JOIN LATERAL (
    SELECT ${columns} FROM series_reading AS reading
    WHERE reading.channel = series_channel.id AND reading.quality <= worst.quality
    ORDER BY reading.time_ms DESC LIMIT 1
  ) AS reading
  ORDER BY asked.place, worst.quality DESC`;

async function latest(
  rows: Rows,
  channels: readonly ChannelName[],
): Promise<Awaited<ReturnType<SeriesStore['latest']>>> {
  const pairs = new Map<ChannelName, { last: StoredReading; lastGood: StoredReading | null }>();
  if (channels.length === 0) {
    // Asked of nothing, it still says whether the store answers.
    await rows('SELECT 1', []);
    return pairs;
  }
  for (const row of await rows(selectLatest, [[...new Set(channels)]])) {
    const reading = readingOf(row.name, row);
    const pair = pairs.get(reading.channel);
    pairs.set(
      reading.channel,
      pair === undefined ? { last: reading, lastGood: null } : { ...pair, lastGood: reading },
    );
  }
  return pairs;
}

function readingOf(channel: ChannelName, row: QueryResultRow): StoredReading {
  return {
    channel,
    timeMs: Number(row.time_ms),
    rawValue: row.raw_value,
    value: row.value,
    quality: qualityOf(row.quality),
    reason: reasonOf(row.reason),
    sequence: Number(row.sequence),
  };
}
