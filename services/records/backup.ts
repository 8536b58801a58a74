import { open, rename, rm } from 'node:fs/promises';
import { type Kysely, sql } from 'kysely';

/**
 * Copies an SQLite records file next to itself as `<file>.before-<step>.backup`, complete and synced before it gets that
 * name. A copy left by an earlier failed try at the same step is replaced, so that failing starts do not fill the disk.
 * @returns the path of the copy; null when another process took the step, and so made the copy, in the meantime
 */
export async function backUpSqlite(
  // biome-ignore lint/suspicious/noExplicitAny: the schema of an older version.
  db: Kysely<any>,
  file: string,
  step: string,
  stillPending: () => Promise<boolean>,
): Promise<string | null> {
  const partial = `${file}.${process.pid}.partial`;
  const backup = `${file}.before-${step}.backup`;
  await rm(partial, { force: true });
  await sql`vacuum into ${partial}`.execute(db);
  if (!(await stillPending())) {
    await rm(partial, { force: true });
    return null;
  }
  await syncToDisk(partial);
  await rename(partial, backup);
  return backup;
}

async function syncToDisk(file: string): Promise<void> {
  const handle = await open(file, 'r+');
  try {
    await handle.chmod(0o600);
    await handle.sync();
  } finally {
    await handle.close();
  }
}
