import { DatabaseSync } from 'node:sqlite';
import type { StoredReading } from '../port.ts';

/** A reading the archive would not take although it took others of the same batch; it is still in the local store. */
export interface RefusedReading {
  readonly sequence: number;
  readonly channel: string;
  readonly timeMs: number;
  readonly value: number;
  /** What the archive said. */
  readonly answer: string;
  readonly refusedAtMs: number;
}

/** Times and places remembered over a restart. */
export type MarkName =
  /** Sequence up to which everything was written or refused. */
  | 'forwarded'
  /** When that was last moved. */
  | 'forwarded-at-ms'
  /** When this file was made beside an empty local store; the least number there is when it was not empty. */
  | 'born-at-ms'
  /** The local store holds every raw reading from this time on; older ones are asked of the archive. */
  | 'local-from-ms'
  /** The local roll-ups are whole from this time on; older ones are asked of the archive. */
  | 'rollups-from-ms'
  /** Raw readings older than this were removed everywhere, by retention. */
  | 'removed-before-ms'
  /** Refused readings so far, also those no longer listed. */
  | 'refused';

type Maybe<Value> = Value | Promise<Value>;

/** What the forwarder must not forget, beside the local store: a small file of its own, or tables in the same database. */
export interface ForwardState {
  mark(name: MarkName): number | null;
  /** Reads again what another process may have written; left out where there is no other. */
  refresh?(): Promise<void>;
  setMark(name: MarkName, value: number): Maybe<void>;
  /** The cursor and the readings refused on the way to it, together or not at all. */
  advance(last: StoredReading, atMs: number, refused: readonly RefusedReading[]): Maybe<void>;
  /** True when the reading at the cursor is not the one that was forwarded there: the local store was replaced. */
  isForeign(atCursor: StoredReading): boolean;
  /** Starts from the first reading again. What came before now may be in the archive only. */
  reset(nowMs: number): Maybe<void>;
  refused(limit: number): RefusedReading[];
  close(): void;
}

/** Refused readings kept for a look; the number of all is counted beside them. */
const refusedKept = 1000;

const schema = `
  CREATE TABLE IF NOT EXISTS mark (name TEXT PRIMARY KEY, value INTEGER NOT NULL) STRICT, WITHOUT ROWID;
  CREATE TABLE IF NOT EXISTS cursor_reading (id INTEGER PRIMARY KEY CHECK (id = 1), channel TEXT NOT NULL, time_ms INTEGER NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS refused (
    sequence INTEGER PRIMARY KEY, channel TEXT NOT NULL, time_ms INTEGER NOT NULL, value REAL NOT NULL,
    answer TEXT NOT NULL, refused_at_ms INTEGER NOT NULL
  ) STRICT;
`;

/**
 * Opens the file, made on first use. synchronous=NORMAL: a power cut may set the cursor back a little, never forward;
 * what lies between is then written once more, which changes nothing in the archive.
 */
export function openForwardState(file: string): ForwardState {
  const database = new DatabaseSync(file, { timeout: 5_000 });
  database.exec(`PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL; ${schema}`);
  const read = database.prepare('SELECT value FROM mark WHERE name = ?');
  const write = database.prepare(
    'INSERT INTO mark VALUES (?, ?) ON CONFLICT DO UPDATE SET value = excluded.value',
  );
  const saveCursor = database.prepare(
    'INSERT INTO cursor_reading VALUES (1, ?, ?) ON CONFLICT DO UPDATE SET channel = excluded.channel, time_ms = excluded.time_ms',
  );
  const cursorReading = database.prepare('SELECT channel, time_ms FROM cursor_reading');
  const saveRefused = prepareRefused(database);
  const list = database.prepare('SELECT * FROM refused ORDER BY sequence DESC LIMIT ?');
  const mark = (name: MarkName) => {
    const value = read.get(name)?.value;
    return value === undefined ? null : Number(value);
  };
  return {
    mark,
    setMark: (name, value) => void write.run(name, value),
    advance: (last, atMs, refused) =>
      together(database, () => {
        for (const reading of refused) saveRefused(reading);
        if (refused.length > 0) write.run('refused', (mark('refused') ?? 0) + refused.length);
        write.run('forwarded', last.sequence);
        write.run('forwarded-at-ms', atMs);
        saveCursor.run(last.channel, last.timeMs);
      }),
    isForeign(reading) {
      const known = cursorReading.get();
      return known !== undefined && (known.channel !== reading.channel || known.time_ms !== reading.timeMs);
    },
    reset: (nowMs) =>
      together(database, () => {
        write.run('forwarded', 0);
        write.run('local-from-ms', nowMs);
        write.run('rollups-from-ms', nowMs);
      }),
    refused: (limit) => list.all(limit).map(refusedOf),
    close: () => database.close(),
  };
}

function prepareRefused(database: DatabaseSync): (reading: RefusedReading) => void {
  const insert = database.prepare('INSERT OR REPLACE INTO refused VALUES (?, ?, ?, ?, ?, ?)');
  const thin = database.prepare(
    `DELETE FROM refused WHERE sequence NOT IN (SELECT sequence FROM refused ORDER BY sequence DESC LIMIT ${refusedKept})`,
  );
  return ({ sequence, channel, timeMs, value, answer, refusedAtMs }) => {
    insert.run(sequence, channel, timeMs, value, answer, refusedAtMs);
    thin.run();
  };
}

function refusedOf(row: Record<string, unknown>): RefusedReading {
  return {
    sequence: Number(row.sequence),
    channel: String(row.channel),
    timeMs: Number(row.time_ms),
    value: Number(row.value),
    answer: String(row.answer),
    refusedAtMs: Number(row.refused_at_ms),
  };
}

function together(database: DatabaseSync, work: () => void): void {
  database.exec('BEGIN IMMEDIATE');
  try {
    work();
    database.exec('COMMIT');
  } catch (error) {
    if (database.isTransaction) database.exec('ROLLBACK');
    throw error;
  }
}
