import { backup, DatabaseSync } from 'node:sqlite';
import { syncToDisk } from '../fileSums.ts';

const pagesAtOnce = 500;

/** A database file as it stood at one moment, whoever writes to it meanwhile. */
export interface Snapshot {
  /** One column of a question to it, e.g. its version. */
  ask(sql: string): (string | number)[];
  copyTo(path: string, onShare: (share: number) => void): Promise<void>;
  close(): void;
}

/**
 * Opens a snapshot. It holds a reading transaction of its own: the copy below then reads pages of that moment, never has
 * to begin again because somebody writes, and holds nobody up (write-ahead log).
 */
export function openSnapshot(file: string): Snapshot {
  const database = new DatabaseSync(file, { readOnly: true, timeout: 10_000 });
  try {
    database.exec('BEGIN');
    database.prepare('SELECT count(*) FROM sqlite_schema').get();
  } catch (error) {
    database.close();
    throw new Error(`${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
  return {
    ask: (sql) =>
      database
        .prepare(sql)
        .all()
        .map((row) => Object.values(row)[0] as string | number),
    async copyTo(path, onShare) {
      await backup(database, path, {
        rate: pagesAtOnce,
        progress: ({ totalPages, remainingPages }) => onShare(1 - remainingPages / Math.max(1, totalPages)),
      });
      checkCopy(path);
      await syncToDisk(path);
      onShare(1);
    },
    close: () => database.close(),
  };
}

/** A backup nobody can read back is found out now and not on the day it is needed. */
function checkCopy(path: string): void {
  const copy = new DatabaseSync(path);
  try {
    // One file, without a log beside it, until it is opened for work again.
    copy.exec('PRAGMA journal_mode = DELETE');
    const [answer] = Object.values(copy.prepare('PRAGMA quick_check(1)').get()!);
    if (answer !== 'ok') throw new Error(`${path}: the copy is not sound: ${String(answer)}`);
  } finally {
    copy.close();
  }
}
