import { execFile } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { chmod, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { RecordsError } from './port.ts';

/** Readings may live in the same database. No step of the records touches them, and they may be a thousand times as large. */
const readingTables = 'series_*';
const hint = 'pg_dump --format=custom --file=records.dump "$TILTH_RECORDS__POSTGRESURL"';

/**
 * Dumps the records in a PostgreSQL database into `folder` as `records.before-<step>.dump` with the server's own pg_dump,
 * complete before it gets that name; `pg_restore` reads it.
 * @returns the path of the dump
 * @throws RecordsError on `postgresBackup` when it cannot be made: without one the schema is not touched
 */
export async function backUpPostgres(
  connectionString: string,
  folder: string,
  step: string,
): Promise<string> {
  // In containers that share the folder every program has the same process id.
  const partial = join(folder, `records.${randomUUID()}.dump.partial`);
  const backup = join(folder, `records.before-${step}.dump`);
  try {
    await dump(connectionString, partial);
  } catch (error) {
    await rm(partial, { force: true });
    throw refusal(error, step);
  }
  await rename(partial, backup);
  return backup;
}

/** The password goes by the environment: arguments of a program are for everybody on the machine to see. */
async function dump(connectionString: string, file: string): Promise<void> {
  const address = new URL(connectionString);
  const password = decodeURIComponent(address.password);
  address.password = '';
  const words = [
    '--format=custom',
    '--no-password',
    `--exclude-table=${readingTables}`,
    `--file=${file}`,
    `--dbname=${address.href}`,
  ];
  const environment = password === '' ? process.env : { ...process.env, PGPASSWORD: password };
  await promisify(execFile)('pg_dump', words, { env: environment });
  await chmod(file, 0o600);
}

function refusal(error: unknown, step: string): RecordsError {
  const { code, stderr } = error as { code?: unknown; stderr?: string };
  const said = (stderr ?? String(error)).trim().slice(0, 500);
  const isOlder = said.includes('server version mismatch');
  const why =
    code === 'ENOENT'
      ? 'there is no pg_dump here (Debian: postgresql-client)'
      : `pg_dump failed${isOlder ? ': it must be as new as the server (Debian: postgresql-client-NUMBER)' : ''}: ${said}`;
  return new RecordsError(
    'postgresBackup',
    `the records need a new schema (step ${step}) and are to be copied first, but ${why}. Make a copy yourself ` +
      `(${hint}), then start once with records.postgresBackup set to "own"`,
  );
}
