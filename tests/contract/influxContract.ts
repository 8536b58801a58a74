import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openInfluxArchive } from '../../services/series/influx/openArchive.ts';
import type { InfluxSettings } from '../../services/series/influx/settings.ts';
import type { OpenedSeries } from '../../services/series/openSeries.ts';
import type { Rollup } from '../../services/series/port.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import { eventually } from '../helpers/eventually.ts';
import { afterForwarding, askEverythingOfInflux, caughtUp, openForwarding } from '../helpers/influxSeries.ts';
import { temporaryFolder } from '../helpers/writePath.ts';
import { describeSeriesContract } from './seriesContract.ts';

const channel = 'urn:dev:ow:28139bbb0b00001f_core';
const dayMs = 86_400_000;
const startMs = 1_780_272_000_000;

/**
 * The series contract over a real InfluxDB, wherever it runs: `newDatabase` makes an empty database or bucket there and
 * says how to reach it. Every range and every roll-up the contract asks for is answered by InfluxDB.
 */
export function describeInfluxContract(name: string, newDatabase: () => Promise<InfluxSettings>): void {
  describeSeriesContract(`InfluxDB ${name}`, async () => {
    const folder = await temporaryFolder();
    const settings = await newDatabase();
    askEverythingOfInflux(folder.path);
    let opened = await openForwarding(folder.path, settings);
    return {
      store: afterForwarding(opened),
      async reopen() {
        await opened.close();
        opened = await openForwarding(folder.path, settings);
        return afterForwarding(opened);
      },
      async remove() {
        await opened.close();
        await folder.remove();
      },
    };
  });

  describe(`InfluxDB ${name} behind a local store`, () => {
    let folder: Awaited<ReturnType<typeof temporaryFolder>>;
    let settings: InfluxSettings;
    let opened: OpenedSeries;
    beforeEach(async () => {
      folder = await temporaryFolder();
      settings = await newDatabase();
      opened = await openForwarding(folder.path, settings);
    });
    afterEach(async () => {
      await opened.close();
      await folder.remove();
    });

    it('holds the readings the local store holds, field by field, and makes the same roll-ups of them', async () => {
      await opened.local.append(mixedReadings(5_000));
      await opened.local.append(
        mixedReadings(200).map((reading) => ({ ...reading, timeMs: reading.timeMs - 7 })),
      );
      await caughtUp(opened);
      const archive = openInfluxArchive(settings);
      const query = { channel, fromMs: startMs - dayMs, toMs: startMs + 90 * dayMs, quality: 'all' } as const;
      expect(await archive.range(query)).toEqual(await opened.local.range(query));
      for (const quality of ['good', 'all'] as const)
        for (const maxPoints of [1, 2, 3, 4, 5, 50, 333, 1_000, 4_999])
          expect(await archive.range({ ...query, quality, maxPoints }), `${maxPoints} of ${quality}`).toEqual(
            await opened.local.range({ ...query, quality, maxPoints }),
          );
      for (const step of ['hour', 'day'] as const) {
        const there = await archive.rollups(channel, step, query.fromMs, query.toMs);
        const here = await opened.local.rollups(channel, step, query.fromMs, query.toMs);
        expect(here.length).toBeGreaterThan(3);
        expect(there.map(withoutMean)).toEqual(here.map(withoutMean));
        // Summed in another order the last bits of a mean may differ.
        expectSameMeans(there, here);
      }
    });

    it('answers a range that begins before the local store with both parts, each reading once', async () => {
      await opened.close();
      const readings = mixedReadings(3_000);
      const nowMs = readings.at(-1)!.timeMs;
      const clock = { nowMs: () => nowMs };
      opened = await openForwarding(folder.path, { ...settings, localDays: 30 }, { clock });
      await opened.local.append(readings);
      await caughtUp(opened);
      const query = { channel, fromMs: startMs, toMs: nowMs + 1, quality: 'all' } as const;
      const before = await opened.series.range(query);
      expect(await opened.keepSpace()).toBe(3_000 - 1_441);
      expect((await opened.local.range(query)).length).toBe(1_441);
      expect(await opened.series.range(query)).toEqual(before);
      const few = await opened.series.range({ ...query, maxPoints: 50 });
      expect(few.length).toBeLessThanOrEqual(50);
      const values = before.map(({ value }) => value);
      expect(Math.max(...few.map(({ value }) => value))).toBe(Math.max(...values));
      expect(Math.min(...few.map(({ value }) => value))).toBe(Math.min(...values));
    });

    it('asks InfluxDB for the past when the disk was replaced', async () => {
      await opened.local.append(mixedReadings(500));
      await caughtUp(opened);
      const query = { channel, fromMs: startMs, toMs: startMs + 90 * dayMs, quality: 'all' } as const;
      const before = await opened.local.range(query);
      const days = await opened.local.rollups(channel, 'day', startMs, startMs + 90 * dayMs);
      await opened.close();
      await folder.remove();
      folder = await temporaryFolder();
      const clock = { nowMs: () => startMs + 60 * dayMs };
      opened = await openForwarding(folder.path, settings, { clock });
      await eventually('the past was found', () => opened.forwarder!.status().state === 'caught-up');
      expect(await opened.local.range(query)).toEqual([]);
      expect(await opened.series.range(query)).toEqual(before);
      const found = await opened.series.rollups(channel, 'day', startMs, startMs + 90 * dayMs);
      expect(found.map(withoutMean)).toEqual(days.map(withoutMean));
    });
  });
}

/** One reading every half hour, some of them suspect or bad, with values whose sums are not exact. */
function mixedReadings(count: number): Reading[] {
  return Array.from({ length: count }, (_, index): Reading => {
    const value = 55 + 10 * Math.sin(index / 40) + 1 / (index + 3);
    const quality = index % 17 === 0 ? 'bad' : index % 11 === 0 ? 'suspect' : 'good';
    const reason = quality === 'bad' ? 'crc-failed' : quality === 'suspect' ? 'outlier' : null;
    return { channel, timeMs: startMs + index * 1_800_000, rawValue: value - 0.3, value, quality, reason };
  });
}

function withoutMean({ mean: _, ...rest }: Rollup): Omit<Rollup, 'mean'> {
  return rest;
}

function expectSameMeans(there: readonly Rollup[], here: readonly Rollup[]): void {
  for (const [index, { mean }] of there.entries()) {
    if (Number.isNaN(mean)) expect(here[index]!.mean).toBeNaN();
    else expect(mean).toBeCloseTo(here[index]!.mean, 9);
  }
}
