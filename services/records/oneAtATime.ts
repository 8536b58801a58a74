import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import type { Logger } from 'pino';

/** Any number nobody else is likely to lock: held while records are copied and brought to a new schema. */
const bringingForwardLock = 7_418_529_632;
const lookAgainMs = 300;

/**
 * Does the work while no other process on this PostgreSQL database does it. The lock is held by a connection of its own
 * and goes when that ends, however it ends. It is asked for again and again: a copy takes longer than a statement may.
 */
export async function oneAtATime(
  connectionString: string,
  logger: Logger,
  work: () => Promise<void>,
): Promise<void> {
  const client = new pg.Client({ connectionString, connectionTimeoutMillis: 10_000, keepAlive: true });
  // Losing the lock in the midst does no harm: the steps are one transaction under the migrator's own lock.
  client.on('error', ({ message }) =>
    logger.warn({ message }, 'the lock on bringing records forward is lost'),
  );
  try {
    await client.connect();
    for (let tries = 0; !(await take(client)); tries++) {
      if (tries === 0) logger.info('another process brings the records to a new schema; waiting for it');
      await sleep(lookAgainMs);
    }
    await work();
  } finally {
    await client.end();
  }
}

async function take(client: pg.Client): Promise<boolean> {
  const asked = 'select pg_try_advisory_lock($1) as taken';
  const { rows } = await client.query<{ taken: boolean }>(asked, [bringingForwardLock]);
  return rows[0]!.taken;
}
