import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { SeriesStore } from '../../services/series/port.ts';
import type { Reading } from '../../shared/readings/reading.ts';

/** A fresh, empty store; `reopen` closes it and opens the same data again; `remove` throws it away. */
export interface OpenedSeries {
  readonly store: SeriesStore;
  reopen(): Promise<SeriesStore>;
  remove(): Promise<void>;
}

const core = 'urn:dev:ow:28139bbb0b00001f_core';
const edge = 'urn:dev:ow:28aa3c61551401f0_edge';
const hourMs = 3_600_000;
const dayMs = 86_400_000;
/** A midnight UTC. */
const startMs = 1_780_272_000_000;

function reading(timeMs: number, value: number, change: Partial<Reading> = {}): Reading {
  return { channel: core, timeMs, rawValue: value, value, quality: 'good', reason: null, ...change };
}

/** Values of a long series: a quiet saw-tooth with one deep and one high point in it. */
function millionthValue(index: number): number {
  if (index === 123_456) return -20;
  return index === 765_432 ? 95 : 55 + (index % 64) / 16;
}

/** What every time-series store must do, whatever it keeps its readings in. */
export function describeSeriesContract(name: string, open: () => Promise<OpenedSeries>): void {
  describe(`series store: ${name}`, () => {
    let opened: OpenedSeries;
    let store: SeriesStore;
    beforeEach(async () => {
      opened = await open();
      store = opened.store;
    });
    afterEach(async () => {
      await opened.remove();
    });
    const everything = (channel = core) =>
      store.range({ channel, fromMs: -dayMs, toMs: 4_000_000_000_000, quality: 'all' });

    describe('storing', () => {
      it('gives back every field of what was stored', async () => {
        const stored = reading(startMs, 61.25, { rawValue: 60.8125, quality: 'suspect', reason: 'outlier' });
        expect(await store.append([stored])).toMatchObject({ stored: 1, duplicates: 0 });
        expect(await everything()).toEqual([{ ...stored, sequence: expect.any(Number) }]);
      });

      it('keeps every reason a reading may be bad for', async () => {
        const { qualityReasons } = await import('../../shared/readings/reading.ts');
        const bad = qualityReasons.map((reason, index) =>
          reading(startMs + index, 0, { quality: 'bad', reason }),
        );
        await store.append(bad);
        expect((await everything()).map(({ reason }) => reason)).toEqual([...qualityReasons]);
      });

      it('drops a second reading of the same channel and time and keeps the first', async () => {
        await store.append([reading(startMs, 50)]);
        const again = await store.append([reading(startMs, 99), reading(startMs + 1, 51)]);
        expect(again).toMatchObject({ stored: 1, duplicates: 1 });
        expect((await everything()).map(({ value }) => value)).toEqual([50, 51]);
      });

      it('tells each of many concurrent calls what became of its own readings', async () => {
        const calls = [[reading(1, 1)], [reading(1, 2), reading(2, 2)], [], [reading(2, 3)]];
        const results = await Promise.all(calls.map((call) => store.append(call)));
        expect(results.map(({ stored, duplicates }) => [stored, duplicates])).toEqual([
          [1, 0],
          [1, 1],
          [0, 0],
          [0, 1],
        ]);
      });

      it('refuses a reading that is no number without harming calls made at the same time', async () => {
        const wrong = store.append([reading(startMs, 1), reading(startMs + 1, Number.NaN)]);
        const right = store.append([reading(startMs + 2, 3)]);
        await expect(wrong).rejects.toThrow(/value is NaN/);
        await expect(right).resolves.toMatchObject({ stored: 1 });
        expect((await everything()).map(({ value }) => value)).toEqual([3]);
      });

      it('still has everything after it was closed and opened again', async () => {
        const { lastSequence } = await store.append([reading(startMs, 50), reading(startMs + 1, 51)]);
        store = await opened.reopen();
        expect((await everything()).length).toBe(2);
        expect(await store.append([reading(startMs, 50)])).toMatchObject({ duplicates: 1, lastSequence });
      });
    });

    describe('ranges', () => {
      it('answers from included to excluded, in time order, of that channel only', async () => {
        await store.append([3, 1, 2, 4].map((minute) => reading(startMs + minute, minute)));
        await store.append([reading(startMs + 2, 99, { channel: edge })]);
        const found = await store.range({ channel: core, fromMs: startMs + 1, toMs: startMs + 4 });
        expect(found.map(({ value }) => value)).toEqual([1, 2, 3]);
      });

      it('leaves out suspect and bad readings unless all are asked for', async () => {
        await store.append([
          reading(1, 50),
          reading(2, -127, { quality: 'bad', reason: 'did-not-answer' }),
          reading(3, 80, { quality: 'suspect', reason: 'outlier' }),
        ]);
        const query = { channel: core, fromMs: 0, toMs: 10 };
        expect((await store.range(query)).length).toBe(1);
        expect((await store.range({ ...query, quality: 'all' })).length).toBe(3);
      });

      it('answers nothing for a channel it does not know', async () => {
        expect(await store.range({ channel: 'unheard-of', fromMs: 0, toMs: dayMs })).toEqual([]);
      });

      it('answers nothing where there is nothing, thinned or not', async () => {
        await store.append([reading(startMs, 50), reading(startMs + dayMs, 51)]);
        const empty = [
          { fromMs: startMs + 1, toMs: startMs + dayMs },
          { fromMs: startMs, toMs: startMs },
          { fromMs: startMs + 2 * dayMs, toMs: startMs },
        ];
        for (const span of empty) {
          expect(await store.range({ channel: core, ...span })).toEqual([]);
          expect(await store.range({ channel: core, ...span, maxPoints: 10 })).toEqual([]);
        }
        expect(await store.rollups(core, 'hour', startMs + hourMs, startMs + dayMs)).toEqual([]);
        expect(await store.rollups('unheard-of', 'day', startMs, startMs + dayMs)).toEqual([]);
      });

      it('thins to the asked number but keeps first, last, lowest and highest', async () => {
        const values = Array.from({ length: 10_000 }, (_, index) => 55 + 5 * Math.sin(index / 300));
        values[4_321] = 12;
        values[7_654] = 91;
        await store.append(values.map((value, index) => reading(startMs + index * 60_000, value)));
        const query = { channel: core, fromMs: startMs, toMs: startMs + 30 * dayMs, maxPoints: 200 };
        const found = await store.range(query);
        expect(found.length).toBeLessThanOrEqual(200);
        expect(found.length).toBeGreaterThan(100);
        expect(found.at(0)).toMatchObject({ timeMs: startMs, value: 55 });
        expect(found.at(-1)).toMatchObject({ timeMs: startMs + 9_999 * 60_000 });
        expect(found.map(({ value }) => value)).toEqual(expect.arrayContaining([12, 91]));
        expect(found.every(({ timeMs }, index) => index === 0 || timeMs > found[index - 1]!.timeMs)).toBe(
          true,
        );
      });

      it('does not thin what already fits', async () => {
        await store.append([reading(1, 5), reading(2, 5), reading(3, 5)]);
        expect((await store.range({ channel: core, fromMs: 0, toMs: 9, maxPoints: 3 })).length).toBe(3);
      });

      it.each([1, 2, 3, 4, 5])(
        'never gives more than %i when that is all that is asked',
        async (maxPoints) => {
          await store.append(Array.from({ length: 50 }, (_, index) => reading(index, (index * 7) % 50)));
          const found = await store.range({ channel: core, fromMs: 0, toMs: 50, maxPoints });
          expect(found.length).toBeLessThanOrEqual(maxPoints);
          expect(found.at(-1)?.timeMs).toBe(49);
        },
      );
    });

    describe('roll-ups', () => {
      const day = (step: 'hour' | 'day') => store.rollups(core, step, startMs, startMs + 2 * dayMs);

      it('sums up good readings of each clock hour and each UTC day', async () => {
        await store.append([
          reading(startMs, 50),
          reading(startMs + 1, 60),
          reading(startMs + hourMs, 70),
          reading(startMs + 2, -127, { quality: 'bad', reason: 'did-not-answer' }),
        ]);
        expect(await day('hour')).toEqual([
          { startMs, count: 2, minimum: 50, maximum: 60, mean: 55, countAll: 3 },
          { startMs: startMs + hourMs, count: 1, minimum: 70, maximum: 70, mean: 70, countAll: 1 },
        ]);
        expect(await day('day')).toEqual([
          { startMs, count: 3, minimum: 50, maximum: 70, mean: 60, countAll: 4 },
        ]);
      });

      it('stays right when readings come late, twice and in pieces', async () => {
        await store.append([reading(startMs + hourMs, 40)]);
        await store.append([reading(startMs + 5, 30), reading(startMs + 4, 90)]);
        await store.append([reading(startMs + 5, 30), reading(startMs + 6, 60)]);
        expect((await day('hour'))[0]).toMatchObject({ count: 3, minimum: 30, maximum: 90, mean: 60 });
        expect(await day('day')).toMatchObject([{ count: 4, minimum: 30, maximum: 90, mean: 55 }]);
      });

      it('knows an hour of bad readings from an hour of silence', async () => {
        await store.append([reading(startMs, 85, { quality: 'bad', reason: 'power-on-value' })]);
        expect(await day('hour')).toEqual([
          { startMs, count: 0, minimum: Number.NaN, maximum: Number.NaN, mean: Number.NaN, countAll: 1 },
        ]);
        await store.append([reading(startMs + 1, 44)]);
        expect(await day('hour')).toMatchObject([{ count: 1, minimum: 44, maximum: 44, countAll: 2 }]);
      });

      it('puts times before 1970 into the hour they belong to', async () => {
        await store.append([reading(-1, 20)]);
        expect(await store.rollups(core, 'hour', -hourMs, 0)).toMatchObject([{ startMs: -hourMs, count: 1 }]);
      });
    });

    describe('latest', () => {
      it('gives the newest by time and the newest good one of each known channel', async () => {
        await store.append([
          reading(5, 50),
          reading(9, 85, { quality: 'bad', reason: 'power-on-value' }),
          reading(7, 1, { channel: edge, quality: 'bad', reason: 'crc-failed' }),
        ]);
        await store.append([reading(2, 40)]);
        const latest = await store.latest([core, edge, 'unheard-of']);
        expect([...latest.keys()]).toEqual([core, edge]);
        expect(latest.get(core)).toMatchObject({ last: { timeMs: 9 }, lastGood: { timeMs: 5 } });
        expect(latest.get(edge)).toMatchObject({ last: { timeMs: 7 }, lastGood: null });
      });
    });

    describe('cursor', () => {
      it('walks everything in order of storing, late readings included, each once', async () => {
        await store.append([reading(100, 1), reading(200, 2)]);
        await store.append([reading(50, 3), reading(100, 9), reading(60, 4, { channel: edge })]);
        const first = await store.since(0, 2);
        const rest = await store.since(first.at(-1)!.sequence, 10);
        expect([...first, ...rest].map(({ value }) => value)).toEqual([1, 2, 3, 4]);
        expect(await store.since(rest.at(-1)!.sequence, 10)).toEqual([]);
      });

      it('stands where the last append said', async () => {
        const { lastSequence } = await store.append([reading(1, 1)]);
        expect(await store.since(lastSequence, 10)).toEqual([]);
        await store.append([reading(2, 2)]);
        expect((await store.since(lastSequence, 10)).map(({ value }) => value)).toEqual([2]);
      });

      it('lists its channels by name', async () => {
        await store.append([reading(1, 1, { channel: edge }), reading(1, 1)]);
        expect(await store.channels()).toEqual([core, edge]);
      });
    });

    describe('a million readings', () => {
      it('are all there, thin to a screen with their extremes, and sum up', {
        timeout: 300_000,
      }, async () => {
        const count = 1_000_000;
        for (let first = 0; first < count; first += 20_000) {
          const times = Array.from({ length: 20_000 }, (_, index) => first + index);
          await store.append(times.map((index) => reading(startMs + index * 1000, millionthValue(index))));
        }
        const all = { channel: core, fromMs: startMs, toMs: startMs + count * 1000 };
        const thinned = await store.range({ ...all, maxPoints: 1_000 });
        expect(thinned.length).toBeLessThanOrEqual(1_000);
        expect(thinned.map(({ value }) => value)).toEqual(expect.arrayContaining([-20, 95]));
        expect(thinned.at(-1)?.timeMs).toBe(startMs + 999_999_000);
        const whole = await store.range(all);
        expect(whole.length).toBe(count);
        expect(whole.findIndex(({ value }, index) => value !== millionthValue(index))).toBe(-1);
        const days = await store.rollups(core, 'day', startMs, startMs + 30 * dayMs);
        expect(days.reduce((sum, day) => sum + day.count, 0)).toBe(count);
        const total = days.reduce((sum, day) => sum + day.mean * day.count, 0);
        const expected = whole.reduce((sum, { value }) => sum + value, 0);
        expect(total).toBeCloseTo(expected, 3);
      });
    });

    describe('retention', () => {
      const nowMs = startMs + 10 * dayMs;

      it('removes old raw readings and never roll-ups', async () => {
        await store.append([reading(startMs, 50), reading(startMs + 9 * dayMs, 60)]);
        expect(await store.trim({ rawDays: 5 }, nowMs)).toBe(1);
        expect((await everything()).map(({ value }) => value)).toEqual([60]);
        expect(await store.rollups(core, 'day', startMs, nowMs)).toMatchObject([{ mean: 50 }, { mean: 60 }]);
      });

      it('removes nothing when raw readings are kept for ever', async () => {
        await store.append([reading(0, 50)]);
        expect(await store.trim({ rawDays: null }, nowMs)).toBe(0);
        expect((await everything()).length).toBe(1);
      });

      it('does not count a repeat of a removed reading into its roll-up again', async () => {
        await store.append([reading(startMs, 50)]);
        await store.trim({ rawDays: 5 }, nowMs);
        expect(await store.append([reading(startMs, 50)])).toMatchObject({ stored: 0, duplicates: 1 });
        expect(await store.rollups(core, 'day', startMs, nowMs)).toMatchObject([{ count: 1 }]);
      });

      it('never gives a sequence out twice, though the newest readings are gone', async () => {
        const { lastSequence } = await store.append([reading(startMs, 50)]);
        await store.trim({ rawDays: 5 }, nowMs);
        store = await opened.reopen();
        await store.append([reading(nowMs, 61)]);
        expect((await store.since(lastSequence, 10)).map(({ value }) => value)).toEqual([61]);
      });

      it('removes any number, a piece at a time', async () => {
        const old = Array.from({ length: 12_000 }, (_, index) =>
          reading(startMs + index * 1000, 50, { channel: index % 3 === 0 ? core : edge }),
        );
        await store.append([...old, reading(nowMs, 1)]);
        expect(await store.trim({ rawDays: 1 }, nowMs)).toBe(12_000);
        expect((await everything()).length).toBe(1);
      });
    });
  });
}
