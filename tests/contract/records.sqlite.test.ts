import { execFile } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, expect, test } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import { describeRecordsContract } from './recordsContract.ts';

const folder = mkdtempSync(join(tmpdir(), 'records-sqlite-'));
let files = 0;

describeRecordsContract('SQLite', async () => ({ kind: 'sqlite', file: join(folder, `${++files}.sqlite`) }));

afterAll(() => rm(folder, { recursive: true, force: true }));

test('processes of their own write to one file at once, from its first opening on, and nothing is lost', async () => {
  const file = join(folder, 'shared.sqlite');
  const program = join(import.meta.dirname, 'records', 'writeFromProcess.ts');
  const write = () => promisify(execFile)(process.execPath, [program, file, '100']);
  await Promise.all([write(), write(), write()]);
  const records = await openRecords({ kind: 'sqlite', file });
  expect(await records.quarantine.total()).toBe(300);
  expect(await records.quarantine.list(1000)).toHaveLength(300);
  await records.close();
});
