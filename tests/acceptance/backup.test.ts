import { appendFile, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type BackupOptions, backUp } from '../../services/operate/backup/backUp.ts';
import { type RestoreOptions, restore } from '../../services/operate/backup/restore.ts';
import { allMigrations } from '../../services/records/migrations/all.ts';
import { openRecords } from '../../services/records/openRecords.ts';
import type { Records } from '../../services/records/port.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import { seriesFileVersion } from '../../services/series/sqlite/database.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import { pileValues, yardValues } from '../contract/records/samples.ts';
import { temporaryFolder } from '../helpers/writePath.ts';

const channel = 'urn:dev:ow:28139bbb0b00001f_core';
const nowMs = Date.UTC(2026, 10, 25);
const all = { channel, fromMs: 0, toMs: 2 * nowMs, quality: 'all' } as const;
const cleanUp: (() => unknown)[] = [];
let folder: string;
const at = (name: string) => join(folder, name);

beforeEach(async () => {
  const made = await temporaryFolder();
  folder = made.path;
  cleanUp.push(made.remove);
});
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

async function openYard(dataFolder: string) {
  const records = await openRecords({ kind: 'sqlite', file: join(dataFolder, 'records.sqlite') });
  const series = await openSqliteSeries({ file: join(dataFolder, 'series.sqlite') });
  const close = async () => {
    await series.close();
    await records.close();
  };
  return { records, series, close };
}
const readingsFrom = (first: number, count: number): Reading[] =>
  Array.from({ length: count }, (_, index) => {
    const value = 60 + ((first + index) % 10) / 16;
    return { channel, timeMs: nowMs + first + index, value, rawValue: value, quality: 'good', reason: null };
  });

const make = (change: Partial<BackupOptions> = {}) =>
  backUp({
    ...{ dataFolder: at('data'), recordsElsewhere: false, to: at('backup'), madeBy: '0.1.0', nowMs },
    ...{ onProgress: () => {}, ...change },
  });
const bringBack = (change: Partial<RestoreOptions> = {}) =>
  restore({
    ...{ from: at('backup'), dataFolder: at('restored'), replace: false, nowMs, onProgress: () => {} },
    ...{ knownSteps: Object.keys(allMigrations), knownSeriesVersion: seriesFileVersion, ...change },
  });

/** A yard that is closed, with a pile, some readings and a key file. */
async function closedYard(dataFolder = at('data')): Promise<void> {
  await mkdir(dataFolder);
  const yard = await openYard(dataFolder);
  const { id } = await yard.records.yards.create(yardValues);
  await yard.records.piles.create(pileValues(id));
  await yard.series.append(readingsFrom(0, 500));
  await yard.close();
  await writeFile(join(dataFolder, 'web-push-keys.json'), '{"key":1}');
}

/** Stores readings and, for each group, its count in the records afterwards, until told to stop. */
function keepWriting(records: Records, series: SeriesStore) {
  let isGoing = true;
  let written = 0;
  const done = (async () => {
    while (isGoing) {
      await series.append(readingsFrom(written, 100));
      written += 100;
      await records.marks.set('rules:cursor', String(written));
    }
  })();
  const stop = async () => {
    isGoing = false;
    await done;
  };
  return { written: () => written, stop };
}

describe('a backup', () => {
  it('of a yard at full work is whole, ends, and no cursor in it points beyond its readings', async () => {
    await mkdir(at('data'));
    const yard = await openYard(at('data'));
    cleanUp.push(yard.close);
    await yard.series.append(readingsFrom(10_000_000, 50_000));
    const load = keepWriting(yard.records, yard.series);
    cleanUp.push(load.stop);
    while (load.written() < 1000) await new Promise((resolve) => setTimeout(resolve, 5));
    const before = load.written();
    const shares: number[] = [];
    await make({ onProgress: (_what, share) => shares.push(share) });
    expect(load.written(), 'the yard went on meanwhile').toBeGreaterThan(before);
    await load.stop();
    expect(shares.at(-1)).toBe(1);
    await bringBack();
    const copy = await openYard(at('restored'));
    cleanUp.push(copy.close);
    const cursor = Number(await copy.records.marks.get('rules:cursor'));
    const found = (await copy.series.range(all)).length - 50_000;
    expect(found).toBeGreaterThanOrEqual(before);
    expect(cursor).toBeLessThanOrEqual(found);
    expect(cursor).toBeGreaterThanOrEqual(before - 100);
  }, 60_000);

  it('of a stopped yard brings everything back, small files too, and the yard works on', async () => {
    await closedYard();
    await make();
    const { putAside } = await bringBack();
    expect(putAside).toBeNull();
    expect(await readFile(at('restored/web-push-keys.json'), 'utf8')).toBe('{"key":1}');
    const copy = await openYard(at('restored'));
    cleanUp.push(copy.close);
    const [yard] = await copy.records.yards.list();
    expect((await copy.records.piles.list(yard!.id)).map(({ name }) => name)).toEqual(['Cage 1']);
    expect(await copy.series.range(all)).toHaveLength(500);
    expect(await copy.series.append(readingsFrom(500, 5))).toMatchObject({ stored: 5, lastSequence: 505 });
  });

  it('is not put over anything, and no half of one is left when it fails', async () => {
    await closedYard();
    await make();
    await expect(make()).rejects.toThrow(/not empty/);
    await expect(make({ dataFolder: at('nothing'), to: at('other') })).rejects.toThrow(/no yard/);
    await writeFile(at('data/records.sqlite'), 'not a database at all, but long enough to be looked into');
    await expect(make({ to: at('other') })).rejects.toThrow();
    expect((await readdir(folder)).sort()).toEqual(['backup', 'data']);
  });

  it('holds no records when they are in PostgreSQL', async () => {
    await closedYard();
    const { files, recordsSteps } = await make({ recordsElsewhere: true });
    expect(recordsSteps).toBeNull();
    expect(files.map(({ name }) => name).sort()).toEqual(['series.sqlite', 'web-push-keys.json']);
  });
});

describe('a restore', () => {
  beforeEach(async () => {
    await closedYard();
    await make();
  });

  it('leaves a yard that is there alone, unless told to replace it; then that is put aside', async () => {
    await closedYard(at('restored'));
    await expect(bringBack()).rejects.toThrow(/--replace/);
    const { putAside } = await bringBack({ replace: true });
    expect((await readdir(putAside!)).sort()).toContain('records.sqlite');
    const copy = await openYard(at('restored'));
    cleanUp.push(copy.close);
    expect(await copy.series.range(all)).toHaveLength(500);
  });

  it('refuses while a yard runs there, replace or not', async () => {
    await mkdir(at('restored'));
    const yard = await openYard(at('restored'));
    cleanUp.push(yard.close);
    for (const replace of [false, true]) await expect(bringBack({ replace })).rejects.toThrow(/is running/);
    await yard.series.append(readingsFrom(0, 1));
  });

  it('finds a damaged, a missing and a newer backup out before it touches anything', async () => {
    await expect(bringBack({ knownSteps: [] })).rejects.toThrow(/newer version/);
    await expect(bringBack({ knownSeriesVersion: 0 })).rejects.toThrow(/newer version/);
    await expect(bringBack({ from: at('data') })).rejects.toThrow(/holds no backup/);
    const bytes = await readFile(at('backup/series.sqlite'));
    bytes[5000]! ^= 1;
    await writeFile(at('backup/series.sqlite'), bytes);
    await expect(bringBack()).rejects.toThrow(/series\.sqlite was changed or damaged/);
    await appendFile(at('backup/series.sqlite'), 'x');
    await expect(bringBack()).rejects.toThrow(/bytes/);
    expect(await readdir(folder)).not.toContain('restored');
  });

  it('does not take a backup that lies in the data folder itself', async () => {
    await expect(bringBack({ dataFolder: folder, replace: true })).rejects.toThrow(/move the backup out/);
  });
});
