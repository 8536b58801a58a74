import { DatabaseSync } from 'node:sqlite';

/** Reads two numbers of the local store that no question of the port asks for. */
export interface JournalGauge {
  /** Sequence of the last reading stored, also by another process; sequences have no gaps. */
  lastSequence(): number;
  /** Bytes in use in the file; what was removed is free for new readings and does not count. */
  usedBytes(): number;
  close(): void;
}

/** Opens a second, read-only eye on the file of the local store; each look is a few microseconds. */
export function openJournalGauge(file: string): JournalGauge {
  const database = new DatabaseSync(file, { readOnly: true, timeout: 1_000 });
  const last = database.prepare(`SELECT value FROM counter WHERE name = 'last-sequence'`);
  const used = database.prepare(
    'SELECT (page_count - freelist_count) * page_size AS bytes FROM pragma_page_count, pragma_freelist_count, pragma_page_size',
  );
  return {
    lastSequence: () => Number(last.get()!.value),
    usedBytes: () => Number(used.get()!.bytes),
    close: () => database.close(),
  };
}
