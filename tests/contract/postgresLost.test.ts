/**
 * PostgreSQL gone between two statements of a transaction: the work is refused, and no error is left that nobody hears and
 * that would end the program (vitest fails on one).
 */
import { setTimeout as sleep } from 'node:timers/promises';
import { Kysely, sql } from 'kysely';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { postgresDialect } from '../../services/records/dialects/postgres.ts';
import { isDatabaseAway } from '../../services/records/port.ts';
import { openSeriesPool } from '../../services/series/openPostgresSeries.ts';
import { inTransaction } from '../../services/series/postgres/tables.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';

describeIf(findPostgres() !== null, postgresMissing)('PostgreSQL gone in the midst of a transaction', () => {
  let server: PostgresServer;
  let connectionString: string;
  beforeAll(async () => {
    server = await startPostgres();
    connectionString = await server.createDatabase();
  });
  afterAll(() => server?.stop());

  /** Long enough for the break to be noticed while nothing is being asked. */
  async function crash(): Promise<void> {
    await server.crash();
    await sleep(300);
    await server.startAgain();
  }

  it('refuses the step of the records, and takes the next one', async () => {
    const db = new Kysely({ dialect: postgresDialect({ connectionString }, pino({ level: 'silent' })) });
    const step = (between: () => Promise<void>) =>
      db.transaction().execute(async (transaction) => {
        await sql`select 1`.execute(transaction);
        await between();
        await sql`select 1`.execute(transaction);
      });
    expect(isDatabaseAway(await step(crash).catch((error: unknown) => error))).toBe(true);
    await step(async () => {});
    await db.destroy();
  });

  it('refuses the group of readings, and takes the next one', async () => {
    const pool = openSeriesPool({ connectionString });
    const group = (between: () => Promise<void>) =>
      inTransaction(pool, async (client) => {
        await client.query('SELECT 1');
        await between();
        await client.query('SELECT 1');
      });
    expect(isDatabaseAway(await group(crash).catch((error: unknown) => error))).toBe(true);
    await group(async () => {});
    await pool.end();
  });
});
