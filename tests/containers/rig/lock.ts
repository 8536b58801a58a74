import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { setTimeout as sleep } from 'node:timers/promises';

/**
 * Does the work while no other process does any under the same file: test files run side by side, and engine and images
 * are made once for all of them. SQLite holds the lock because the system lets go of it when its holder is killed.
 */
export async function withLock<T>(file: string, work: () => Promise<T>): Promise<T> {
  mkdirSync(dirname(file), { recursive: true });
  const database = new DatabaseSync(file);
  try {
    while (!taken(database)) await sleep(100);
    return await work();
  } finally {
    database.close();
  }
}

function taken(database: DatabaseSync): boolean {
  try {
    database.exec('BEGIN EXCLUSIVE');
    return true;
  } catch (error) {
    if (/locked/.test((error as Error).message)) return false;
    throw error;
  }
}
