import { existsSync, mkdtempSync, readdirSync, statSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import type { Kysely } from 'kysely';
import { afterAll, expect, test } from 'vitest';
import { allMigrations } from './migrations/all.ts';
import { openRecords } from './openRecords.ts';

const folder = mkdtempSync(join(tmpdir(), 'records-open-'));
afterAll(() => rm(folder, { recursive: true, force: true }));

const withNextStep = {
  ...allMigrations,
  '9000-add-colour': {
    up: (db: Kysely<unknown>) => db.schema.alterTable('yards').addColumn('colour', 'text').execute(),
  },
};

const withBrokenStep = {
  ...allMigrations,
  '9000-add-colour': { up: () => Promise.reject(new Error('no colour today')) },
};

const yard = { name: 'Gannet Row', timeZone: 'UTC', temperatureUnit: 'C', altitudeMetres: 3 } as const;

/** A records file of today's schema with one yard in it. */
async function filledFile(name: string): Promise<string> {
  const file = join(folder, name, 'records.sqlite');
  const records = await openRecords({ kind: 'sqlite', file });
  await records.yards.create(yard);
  await records.close();
  return file;
}

const backupsBeside = (file: string): string[] =>
  readdirSync(join(file, '..')).filter((name) => /backup|partial/.test(name));

function yardsIn(file: string): Record<string, unknown>[] {
  const database = new DatabaseSync(file, { readOnly: true });
  const rows = database.prepare('select * from yards').all();
  database.close();
  return rows;
}

test('a new file, and one already up to date, are not copied', async () => {
  const file = await filledFile('same');
  await (await openRecords({ kind: 'sqlite', file })).close();
  expect(backupsBeside(file)).toEqual([]);
});

test('a file is copied, complete, before its schema changes', async () => {
  const file = await filledFile('step');
  await (await openRecords({ kind: 'sqlite', file, migrations: withNextStep })).close();
  expect(backupsBeside(file)).toEqual(['records.sqlite.before-9000-add-colour.backup']);
  const [copied] = yardsIn(`${file}.before-9000-add-colour.backup`);
  expect(copied).toMatchObject({ name: 'Gannet Row' });
  expect(copied).not.toHaveProperty('colour');
  expect(yardsIn(file)[0]).toHaveProperty('colour');
});

test('starts that fail at the same step leave one copy, of the latest state', async () => {
  const file = await filledFile('failing');
  const failing = () => openRecords({ kind: 'sqlite', file, migrations: withBrokenStep });
  await expect(failing()).rejects.toThrow('no colour today');
  const records = await openRecords({ kind: 'sqlite', file });
  await records.yards.create({ ...yard, name: 'Second' });
  await records.close();
  await expect(failing()).rejects.toThrow('no colour today');
  expect(backupsBeside(file)).toEqual(['records.sqlite.before-9000-add-colour.backup']);
  expect(yardsIn(`${file}.before-9000-add-colour.backup`)).toHaveLength(2);
});

test('the copy opens as records again', async () => {
  const file = await filledFile('restore');
  await (await openRecords({ kind: 'sqlite', file, migrations: withNextStep })).close();
  const restored = await openRecords({ kind: 'sqlite', file: `${file}.before-9000-add-colour.backup` });
  expect(await restored.yards.list()).toMatchObject([yard]);
  await restored.close();
});

test('nobody else on the machine may read the records or their copy', async () => {
  const file = await filledFile('private');
  await (await openRecords({ kind: 'sqlite', file, migrations: withNextStep })).close();
  for (const path of [file, `${file}.before-9000-add-colour.backup`]) {
    expect(existsSync(path)).toBe(true);
    expect(statSync(path).mode & 0o077).toBe(0);
  }
});

test('a file that is no database is refused and left as it is', async () => {
  const file = join(folder, 'no-database');
  await (await import('node:fs/promises')).writeFile(file, 'not a database, but somebody’s notes');
  await expect(openRecords({ kind: 'sqlite', file })).rejects.toThrow(/not a database/);
});
