import type { DatabaseSync } from 'node:sqlite';
import type { ChannelName } from '../../../shared/yard/yard.ts';
import type { RangeQuery, Rollup, RollupStep } from '../port.ts';
import { makeColumns, type ReadingColumns } from './columns.ts';
import { thin } from './thinning.ts';

/** One stored row, in the order `rowColumns` names. */
type Row = readonly [
  channel: number,
  timeMs: number,
  sequence: number,
  rawValue: number,
  value: number,
  quality: number,
  reason: number,
];
const rowColumns = 'channel, time_ms, sequence, raw_value, value, quality, reason';

/** The questions a series file answers; every one reads only what is committed. */
export interface Queries {
  range(query: RangeQuery): ReadingColumns;
  rollups(channel: ChannelName, step: RollupStep, fromMs: number, toMs: number): Rollup[];
  /** For each known channel two rows: its latest reading and its latest good one (when there is one). */
  latest(channels: readonly ChannelName[]): ReadingColumns;
  since(sequence: number, limit: number): ReadingColumns;
  channels(): ChannelName[];
}

/** Prepares the questions over an open database. */
export function prepareQueries(database: DatabaseSync): Queries {
  const names = prepareNames(database);
  return {
    range: prepareRange(database, names),
    rollups: prepareRollups(database, names),
    latest: prepareLatest(database, names),
    since: prepareSince(database, names),
    channels: () => names.all(),
  };
}

function prepareRange(database: DatabaseSync, names: Names): Queries['range'] {
  const where = 'FROM reading WHERE channel = ? AND time_ms >= ? AND time_ms < ? AND quality <= ?';
  const span = database.prepare(
    `SELECT count(*) AS rows, min(time_ms) AS first, max(time_ms) AS last ${where}`,
  );
  const rows = rowStatement(database, `SELECT ${rowColumns} ${where} ORDER BY time_ms`);
  return (query) => {
    const id = names.id(query.channel);
    if (id === null) return makeColumns(0);
    const worstQuality = query.quality === 'all' ? 2 : 0;
    const bounds = [id, query.fromMs, query.toMs, worstQuality] as const;
    const found = span.get(...bounds)!;
    const { maxPoints } = query;
    if (maxPoints === undefined || Number(found.rows) <= maxPoints) return pack([...rows(...bounds)], names);
    const limits = { firstMs: Number(found.first), lastMs: Number(found.last) };
    const points = namedPoints(rows(...bounds));
    return pack(
      thin(points, limits, maxPoints).map((point) => point.row),
      names,
    );
  };
}

/** Rows with the two fields thinning looks at by name. */
function* namedPoints(rows: Iterable<Row>): Iterable<{ timeMs: number; value: number; row: Row }> {
  for (const row of rows) yield { timeMs: row[1], value: row[4], row };
}

function prepareRollups(database: DatabaseSync, names: Names): Queries['rollups'] {
  const select = database.prepare(
    'SELECT * FROM rollup WHERE step = ? AND channel = ? AND start_ms >= ? AND start_ms < ? ORDER BY start_ms',
  );
  return (channel, step, fromMs, toMs) => {
    const id = names.id(channel);
    if (id === null) return [];
    return select.all(step, id, fromMs, toMs).map((row) => {
      const count = Number(row.count);
      // An hour with bad readings only has no minimum: NaN says so plainly and cannot be compared by accident.
      const orNaN = (value: unknown) => (count === 0 ? NaN : Number(value));
      return {
        startMs: Number(row.start_ms),
        count,
        minimum: orNaN(row.minimum),
        maximum: orNaN(row.maximum),
        mean: orNaN(Number(row.sum) / count),
        countAll: Number(row.count_all),
      };
    });
  };
}

function prepareLatest(database: DatabaseSync, names: Names): Queries['latest'] {
  const newest = rowStatement(
    database,
    `SELECT ${rowColumns} FROM reading WHERE channel = ? AND quality <= ? ORDER BY time_ms DESC LIMIT 1`,
  );
  return (channels) => {
    const rows: Row[] = [];
    for (const channel of channels) {
      const id = names.id(channel);
      if (id !== null) rows.push(...newest(id, 2), ...newest(id, 0));
    }
    return pack(rows, names);
  };
}

function prepareSince(database: DatabaseSync, names: Names): Queries['since'] {
  const after = rowStatement(
    database,
    `SELECT ${rowColumns} FROM reading WHERE sequence > ? ORDER BY sequence LIMIT ?`,
  );
  return (sequence, limit) => pack([...after(sequence, limit)], names);
}

function rowStatement(database: DatabaseSync, sql: string): (...values: number[]) => Iterable<Row> {
  const statement = database.prepare(sql);
  // Arrays, not objects: half the time on a million rows.
  statement.setReturnArrays(true);
  return (...values) => statement.iterate(...values) as unknown as Iterable<Row>;
}

function pack(rows: readonly Row[], names: Names): ReadingColumns {
  const columns = makeColumns(rows.length);
  const ids = [...new Set(rows.map((row) => row[0]))];
  const index = new Map(ids.map((id, at) => [id, at]));
  columns.names.push(...ids.map((id) => names.name(id)));
  rows.forEach((row, at) => {
    columns.channel[at] = index.get(row[0])!;
    columns.timeMs[at] = row[1];
    columns.sequence[at] = row[2];
    columns.rawValue[at] = row[3];
    columns.value[at] = row[4];
    columns.quality[at] = row[5];
    columns.reason[at] = row[6];
  });
  return columns;
}

interface Names {
  id(name: ChannelName): number | null;
  name(id: number): ChannelName;
  all(): ChannelName[];
}

/** Channel names and their ids. Both are remembered: a committed pair never changes. */
function prepareNames(database: DatabaseSync): Names {
  const byName = database.prepare('SELECT id FROM channel WHERE name = ?');
  const byId = database.prepare('SELECT name FROM channel WHERE id = ?');
  const every = database.prepare('SELECT name FROM channel ORDER BY name');
  const nameOf = new Map<number, ChannelName>();
  return {
    id: (name) => {
      const row = byName.get(name);
      return row === undefined ? null : Number(row.id);
    },
    name: (id) => {
      const known = nameOf.get(id);
      if (known !== undefined) return known;
      const name = String(byId.get(id)!.name);
      nameOf.set(id, name);
      return name;
    },
    all: () => every.all().map((row) => String(row.name)),
  };
}
