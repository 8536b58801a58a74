import { DatabaseSync } from 'node:sqlite';

/** Version of the file's layout that this program makes and reads. */
export const seriesFileVersion = 1;

/**
 * Readings are clustered by (channel, time): a range of one channel is one run of pages, and the key itself drops exact
 * duplicates. `sequence` is the order of storing, for cursors. `start_ms` of roll-ups is the start of a UTC hour or day.
 */
const schema = `
  CREATE TABLE channel (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE
  ) STRICT;
  CREATE TABLE reading (
    channel INTEGER NOT NULL,
    time_ms INTEGER NOT NULL,
    sequence INTEGER NOT NULL,
    raw_value REAL NOT NULL,
    value REAL NOT NULL,
    quality INTEGER NOT NULL,
    reason INTEGER NOT NULL,
    PRIMARY KEY (channel, time_ms)
  ) STRICT, WITHOUT ROWID;
  CREATE UNIQUE INDEX reading_by_sequence ON reading (sequence);
  CREATE TABLE rollup (
    step TEXT NOT NULL,
    channel INTEGER NOT NULL,
    start_ms INTEGER NOT NULL,
    count INTEGER NOT NULL,
    minimum REAL,
    maximum REAL,
    sum REAL NOT NULL,
    count_all INTEGER NOT NULL,
    PRIMARY KEY (step, channel, start_ms)
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE counter (
    name TEXT PRIMARY KEY,
    value INTEGER NOT NULL
  ) STRICT, WITHOUT ROWID;
  INSERT INTO counter VALUES ('last-sequence', 0), ('trimmed-before-ms', -9007199254740991);
`;

/**
 * Opens the series file, made on first use.
 *
 * WAL with synchronous=FULL: the log is flushed to the disk at every commit, so what was acknowledged survives not only
 * a killed process (which NORMAL would survive too) but also a power cut, which a shed at the end of a yard will see.
 * One flush per group, not per reading, is what makes that affordable.
 */
export function openDatabase(file: string, role: 'writer' | 'reader'): DatabaseSync {
  const database = new DatabaseSync(file, { timeout: 10_000, readOnly: role === 'reader' });
  if (role === 'reader') return database;
  database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA wal_autocheckpoint = 4000;');
  migrate(database, file);
  return database;
}

function migrate(database: DatabaseSync, file: string): void {
  const found = Number(database.prepare('PRAGMA user_version').get()!.user_version);
  if (found === seriesFileVersion) return;
  if (found > seriesFileVersion) {
    throw new Error(`${file}: series file version ${found}; this program knows up to ${seriesFileVersion}`);
  }
  inTransaction(database, () => database.exec(`${schema} PRAGMA user_version = ${seriesFileVersion};`));
}

/** Runs work in one transaction: all of it is stored, or none when it throws. */
export function inTransaction<Result>(database: DatabaseSync, work: () => Result): Result {
  database.exec('BEGIN IMMEDIATE');
  try {
    const result = work();
    database.exec('COMMIT');
    return result;
  } catch (error) {
    // A full disk or a failed flush may have rolled back already; then ROLLBACK itself would throw and hide the cause.
    if (database.isTransaction) database.exec('ROLLBACK');
    throw error;
  }
}
