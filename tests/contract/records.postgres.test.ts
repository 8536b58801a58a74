import { execFile } from 'node:child_process';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Kysely } from 'kysely';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { allMigrations } from '../../services/records/migrations/all.ts';
import { openRecords } from '../../services/records/openRecords.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf, firstExisting } from '../helpers/requirement.ts';
import { temporaryFolder } from '../helpers/writePath.ts';
import { yardValues } from './records/samples.ts';
import { describeRecordsContract } from './recordsContract.ts';

const installed = findPostgres() !== null;
let server: PostgresServer | null = null;

beforeAll(async () => {
  if (installed) server = await startPostgres();
});
afterAll(() => server?.stop());

describeRecordsContract(
  'PostgreSQL',
  async () => {
    if (server === null) throw new Error('the server is not running');
    return { kind: 'postgres', connectionString: await server.createDatabase() };
  },
  describeIf(installed, postgresMissing),
);

describeIf(
  installed && firstExisting(['/usr/bin/pg_dump', '/usr/local/bin/pg_dump']) !== null,
  postgresMissing,
)('PostgreSQL before a new schema', () => {
  const nextStep = {
    ...allMigrations,
    '9000-add-colour': {
      up: (db: Kysely<unknown>) => db.schema.alterTable('yards').addColumn('colour', 'text').execute(),
    },
  };
  let folder: Awaited<ReturnType<typeof temporaryFolder>>;
  let connectionString: string;
  const path = process.env.PATH;
  beforeEach(async () => {
    folder = await temporaryFolder();
    connectionString = await server!.createDatabase();
    const records = await openRecords({ kind: 'postgres', connectionString, backupFolder: folder.path });
    await records.yards.create(yardValues);
    await records.close();
  });
  afterEach(async () => {
    process.env.PATH = path;
    await folder.remove();
  });
  const bringForward = async (backupFolder: string | null) =>
    (await openRecords({ kind: 'postgres', connectionString, backupFolder, migrations: nextStep })).close();

  test('is dumped first, and the dump becomes the old records again', async () => {
    expect(await readdir(folder.path)).toEqual([]);
    await bringForward(folder.path);
    expect(await readdir(folder.path)).toEqual(['records.before-9000-add-colour.dump']);
    const file = join(folder.path, 'records.before-9000-add-colour.dump');
    expect((await stat(file)).mode & 0o077).toBe(0);
    const fresh = await server!.createDatabase();
    await promisify(execFile)('pg_restore', ['--no-owner', `--dbname=${fresh}`, file]);
    const restored = await openRecords({ kind: 'postgres', connectionString: fresh });
    expect(await restored.yards.list()).toMatchObject([yardValues]);
    await restored.close();
  });

  test('is left as it is where no dump can be made, with what to do instead', async () => {
    process.env.PATH = folder.path;
    await expect(bringForward(folder.path)).rejects.toMatchObject({
      field: 'postgresBackup',
      message: expect.stringMatching(/no pg_dump here[\s\S]*pg_dump --format=custom[\s\S]*"own"/),
    });
    const unchanged = await openRecords({ kind: 'postgres', connectionString, backupFolder: folder.path });
    expect(await unchanged.yards.list()).toHaveLength(1);
    await unchanged.close();
    await bringForward(null);
    expect(await readdir(folder.path)).toEqual([]);
  });
});
