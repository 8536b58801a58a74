import { execFile } from 'node:child_process';
import { mkdir, readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Kysely } from 'kysely';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { allMigrations } from '../../services/records/migrations/all.ts';
import { openRecords } from '../../services/records/openRecords.ts';
import { openPostgresSeries, openSeriesPool } from '../../services/series/openPostgresSeries.ts';
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

  test('is dumped by one of several processes that start at once, without the readings beside it', async () => {
    const series = await openPostgresSeries(openSeriesPool({ connectionString }));
    await series.close();
    // Counts its calls, takes its time, and is pg_dump otherwise.
    const calls = join(folder.path, 'calls');
    const script = `#!/bin/sh\necho one >>${calls}\nsleep 0.5\nPATH='${path}' exec pg_dump "$@"\n`;
    await mkdir(join(folder.path, 'bin'));
    await writeFile(join(folder.path, 'bin/pg_dump'), script, { mode: 0o755 });
    process.env.PATH = `${join(folder.path, 'bin')}:${path}`;
    const dumps = join(folder.path, 'data');
    await mkdir(dumps);
    await Promise.all(Array.from({ length: 5 }, () => bringForward(dumps)));
    expect(await readFile(calls, 'utf8')).toBe('one\n');
    expect(await readdir(dumps)).toEqual(['records.before-9000-add-colour.dump']);
    const { stdout } = await promisify(execFile)('pg_restore', [
      '--list',
      join(dumps, (await readdir(dumps))[0]!),
    ]);
    expect(stdout).toMatch(/TABLE DATA public yards/);
    expect(stdout).not.toMatch(/series_/);
  });

  test('is left as it is where pg_dump is older than the server, and says which is needed', async () => {
    const older = `#!/bin/sh\necho 'pg_dump: error: aborting because of server version mismatch' >&2\nexit 1\n`;
    await writeFile(join(folder.path, 'pg_dump'), older, { mode: 0o755 });
    process.env.PATH = `${folder.path}:${path}`;
    await expect(bringForward(folder.path)).rejects.toMatchObject({
      field: 'postgresBackup',
      message: expect.stringMatching(/as new as the server[\s\S]*version mismatch[\s\S]*"own"/),
    });
    expect(await readdir(folder.path)).toEqual(['pg_dump']);
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
