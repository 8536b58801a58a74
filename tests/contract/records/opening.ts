import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';
import { openRecords } from '../../../services/records/openRecords.ts';
import { yardValues } from './samples.ts';
import type { FreshDatabase } from './useRecords.ts';

export function describeOpening(fresh: FreshDatabase): void {
  test('an empty database gets today’s schema, and opening it again changes nothing', async () => {
    const options = await fresh();
    const first = await openRecords(options);
    const yard = await first.yards.create(yardValues);
    await first.close();
    const second = await openRecords(options);
    expect(await second.yards.list()).toEqual([yard]);
    await second.close();
  });

  test('two processes may open an empty database at the same moment', async () => {
    const options = await fresh();
    const both = await Promise.all([openRecords(options), openRecords(options)]);
    const yard = await both[0].yards.create(yardValues);
    expect(await both[1].yards.get(yard.id)).toEqual(yard);
    await Promise.all(both.map((records) => records.close()));
  });

  test('processes of their own write at once, from the first opening on, and nothing is lost', async () => {
    const options = await fresh();
    const program = join(import.meta.dirname, 'writeFromProcess.ts');
    const write = () => promisify(execFile)(process.execPath, [program, JSON.stringify(options), '100']);
    await Promise.all([write(), write(), write()]);
    const records = await openRecords(options);
    expect(await records.quarantine.total()).toBe(300);
    await records.close();
  }, 60_000);

  test('a database written by a newer version is refused and left alone', async () => {
    const options = await fresh();
    const newer = { ...(await migrationsNow()), '9999-from-the-future': { up: async () => {} } };
    await (await openRecords({ ...options, migrations: newer })).close();
    await expect(openRecords(options)).rejects.toMatchObject({
      field: 'schema',
      message: expect.stringContaining('9999-from-the-future'),
    });
    await (await openRecords({ ...options, migrations: newer })).close();
  });

  test('a step that fails leaves the records as they were', async () => {
    const options = await fresh();
    const before = await openRecords(options);
    await before.marks.set('cursor', '1');
    await before.close();
    const failing = { ...(await migrationsNow()), '9998-fails': { up: breakHalfWay } };
    await expect(openRecords({ ...options, migrations: failing })).rejects.toThrow('half way');
    const after = await openRecords(options);
    expect(await after.marks.get('cursor')).toBe('1');
    await after.close();
  });
}

const migrationsNow = async () => (await import('../../../services/records/migrations/all.ts')).allMigrations;

async function breakHalfWay(db: import('kysely').Kysely<unknown>): Promise<void> {
  await db.schema.dropTable('marks').execute();
  throw new Error('half way');
}
