import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { describeRecordsContract } from './recordsContract.ts';

const folder = mkdtempSync(join(tmpdir(), 'records-sqlite-'));
let files = 0;

describeRecordsContract('SQLite', async () => ({ kind: 'sqlite', file: join(folder, `${++files}.sqlite`) }));

afterAll(() => rm(folder, { recursive: true, force: true }));
