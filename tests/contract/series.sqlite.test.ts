import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, describe, expect, it } from 'vitest';
import { openSqliteSeries, SeriesFault } from '../../services/series/openSqliteSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import { describeSeriesContract } from './seriesContract.ts';

const newFolder = () => mkdtemp(join(tmpdir(), 'tilth-series-'));

describeSeriesContract('SQLite', async () => {
  const folder = await newFolder();
  const file = join(folder, 'series.sqlite');
  let store = await openSqliteSeries({ file });
  return {
    store,
    async reopen() {
      await store.close();
      store = await openSqliteSeries({ file });
      return store;
    },
    async remove() {
      await store.close();
      await rm(folder, { recursive: true });
    },
  };
});

const at = (timeMs: number) =>
  ({ channel: 'new', timeMs, rawValue: 1, value: 1, quality: 'good', reason: null }) as const;

describe('SQLite series store, its own habits', () => {
  let folder = '';
  let store: SeriesStore | null = null;
  afterEach(async () => {
    await store?.close();
    store = null;
    await rm(folder, { recursive: true, force: true });
  });

  it('says which file cannot be opened and why', async () => {
    folder = await newFolder();
    const missing = join(folder, 'no-such-folder', 'series.sqlite');
    await expect(openSqliteSeries({ file: missing })).rejects.toThrow(SeriesFault);
    await expect(openSqliteSeries({ file: missing })).rejects.toThrow(/no-such-folder.*unable to open/);
  });

  it('puts calls made together into few commits', async () => {
    folder = await newFolder();
    const file = join(folder, 'series.sqlite');
    store = await openSqliteSeries({ file });
    const calls = Array.from({ length: 500 }, (_, timeMs) => store!.append([at(timeMs)]));
    const results = await Promise.all(calls);
    // Every call of a group is told the same last sequence, so distinct ones count the groups.
    expect(new Set(results.map(({ lastSequence }) => lastSequence)).size).toBeLessThan(10);
  });

  it('stores a group wholly or not at all when the database refuses', async () => {
    folder = await newFolder();
    const file = join(folder, 'series.sqlite');
    store = await openSqliteSeries({ file });
    const other = new DatabaseSync(file);
    other.exec(`CREATE TRIGGER full AFTER INSERT ON reading WHEN NEW.time_ms = 7
      BEGIN SELECT RAISE(ABORT, 'disk is full'); END`);
    other.close();
    await expect(store.append([at(6), at(7)])).rejects.toThrow(/disk is full/);
    expect(await store.channels()).toEqual([]);
    await expect(store.append([at(8)])).resolves.toMatchObject({ stored: 1, lastSequence: 1 });
  });

  it('lets go only of what was stored up to a sequence, however much before it has to stay', async () => {
    folder = await newFolder();
    store = await openSqliteSeries({ file: join(folder, 'series.sqlite') });
    const { lastSequence } = await store.append(
      Array.from({ length: 6_000 }, (_, index) => at(20_000 + index)),
    );
    await store.append(Array.from({ length: 12_000 }, (_, index) => at(index)));
    expect(await store.trim({ rawDays: 1, upToSequence: lastSequence }, 10 * 86_400_000)).toBe(6_000);
    expect((await store.since(0, 20_000)).length).toBe(12_000);
    expect((await store.since(0, 1))[0]!.sequence).toBe(lastSequence + 1);
  });
});
