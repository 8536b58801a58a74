import { rm } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { influxdProgram } from '../helpers/influxd.ts';
import type { InfluxProxy } from '../helpers/influxProxy.ts';
import { caughtUp } from '../helpers/influxSeries.ts';
import {
  readingsPerSecond,
  sameTotals,
  second,
  startMs,
  totalsHere,
  useInfluxInTrouble,
} from '../helpers/influxTrouble.ts';
import { startJudgedPile } from '../helpers/judgedPile.ts';
import { describeIf } from '../helpers/requirement.ts';
import { temporaryFolder } from '../helpers/writePath.ts';

const hourSeconds = 3_600;

const late = { kind: 'slow', milliseconds: 2_000 } as const;
type Bad = readonly [name: string, state: string, begin: (proxy: InfluxProxy) => unknown];

/** An hour of a pile that runs hot, judged as it is measured; what happens in between is `meanwhile`. */
async function textsOfHotHour(
  folder: string,
  series: SeriesStore,
  meanwhile: (fromSecond: number, toSecond: number) => Promise<void>,
) {
  const pile = await startJudgedPile(folder, series, startMs);
  for (let minutes = 0; minutes < 60; minutes += 5) {
    await pile.measure(minutes, 72.5);
    await meanwhile(minutes * 60, (minutes + 5) * 60);
  }
  const texts = await pile.texts();
  await pile.stop();
  return texts;
}

/** The same hour where there is no InfluxDB at all: what texts should be. */
async function textsAsUsual() {
  const folder = await temporaryFolder();
  const series = await openSqliteSeries({ file: `${folder.path}/series.sqlite` });
  const texts = await textsOfHotHour(folder.path, series, async () => {});
  await series.close();
  await folder.remove();
  return texts;
}

describeIf(influxdProgram !== null, 'no influxd found; Debian has it in the package influxdb')(
  'InfluxDB away',
  () => {
    const trouble = useInfluxInTrouble();
    const { now, status, restart, stateBecomes, load, totals } = trouble;

    it('stopped for an hour at full load: texts on time, then all of it there once', {
      timeout: 300_000,
    }, async () => {
      const told: string[] = [];
      const info = (_: unknown, text: string) => told.push(text);
      await restart({ url: now.server.url }, { logger: { info, warn: info, error: info } as never });
      await load(0, 10);
      await caughtUp(now.opened);
      await now.server.stop();
      const texts = await textsOfHotHour(trouble.folder(), now.opened.local, load);
      expect(texts).toEqual(await textsAsUsual());
      expect(texts.length).toBeGreaterThan(0);
      const waiting = (hourSeconds - 10) * readingsPerSecond + 12;
      expect(status()).toMatchObject({ state: 'away', waiting });
      await trouble.restartServer();
      const { here, there } = await totals();
      expect(there).toEqual(here);
      expect(told.join('\n')).toMatch(
        /cannot be reached[\s\S]*given the readings that wait[\s\S]*every reading again/,
      );
      expect(status()).toMatchObject({ state: 'caught-up', waitingSinceMs: null, refused: 0 });
      noteFault({
        fault: `InfluxDB stopped for an hour at ${readingsPerSecond} readings a second`,
        expected: 'texts to the minute as without InfluxDB; then nothing lost, nothing twice',
        seen: `texts written: ${texts.length}, the same; ${waiting.toLocaleString('en-GB')} waited; ${sameTotals(there)}`,
      });
    });

    it.each<Bad>([
      ['a wrong token', 'not-permitted', (proxy) => (proxy.token = 'changed')],
      ['answer 503', 'busy', (proxy) => (proxy.trouble = { kind: 'answers', status: 503, body: '' })],
      ['answers that come too late', 'away', (proxy) => (proxy.trouble = late)],
      ['answers that are lost', 'away', (proxy) => (proxy.trouble = { kind: 'loses-answers' })],
    ])(
      'an hour of %s: texts on time, then all of it there once',
      async (name, state, begin) => {
        now.proxy.token = 'right';
        await restart({ token: 'right', timeoutSeconds: 0.5 });
        begin(now.proxy);
        const oneSecondAMinute = async (from: number, to: number) => {
          for (let index = from; index < to; index += 60) await load(index, index + 1);
        };
        const texts = await textsOfHotHour(trouble.folder(), now.opened.local, oneSecondAMinute);
        expect(texts).toEqual(await textsAsUsual());
        expect(texts.length).toBeGreaterThan(0);
        await stateBecomes(state);
        const { waiting } = status();
        expect(waiting).toBe(60 * readingsPerSecond + 12);
        Object.assign(now.proxy, { token: 'right', trouble: { kind: 'none' } });
        const { here, there } = await totals();
        expect(there).toEqual(here);
        noteFault({
          fault: `an hour of ${name} from InfluxDB`,
          expected: 'texts to the minute as without InfluxDB; then nothing lost, nothing twice',
          seen: `texts written: ${texts.length}, the same; ${waiting} waited (${state}); ${sameTotals(there)}`,
        });
      },
      120_000,
    );

    it('not letting us in: says so without the token, and goes on with the right one', async () => {
      now.proxy.token = 'right';
      await restart({ token: 'wrong-and-secret' });
      await load(0, 20);
      await stateBecomes('not-permitted');
      expect(status()).toMatchObject({ waiting: 2_000, text: expect.stringMatching(/token/) });
      expect(JSON.stringify(status())).not.toContain('wrong-and-secret');
      await restart({ token: 'right' });
      const { here, there } = await totals();
      expect(there).toEqual(here);
    });

    it('no longer letting us in: moves on over nothing until it does again', async () => {
      now.proxy.token = 'right';
      await restart({ token: 'right' });
      await load(0, 10);
      await caughtUp(now.opened);
      now.proxy.token = 'changed';
      await load(10, 30);
      await stateBecomes('not-permitted');
      expect(status()).toMatchObject({ forwardedSequence: 1_000, waiting: 2_000 });
      now.proxy.token = 'right';
      const { here, there } = await totals();
      expect(there).toEqual(here);
    });

    it.each([
      { status: 503, body: '{"error":"timeout"}' },
      { status: 500, body: '{"error":"engine: write: no space left on device"}' },
      { status: 429, body: '{"message":"too many requests"}' },
    ])('answering $status: waits and tries again by itself', async (answer) => {
      now.proxy.trouble = { kind: 'answers', ...answer };
      await load(0, 60);
      await stateBecomes('busy');
      await eventually('it was tried again', () => status().failures > 3);
      expect(status()).toMatchObject({ waiting: 6_000, written: 0, forwardedSequence: 0 });
      now.proxy.trouble = { kind: 'none' };
      const { here, there } = await totals();
      expect(there).toEqual(here);
    });

    it('writing but answering too late: takes no batch for written, and sends smaller ones', async () => {
      await restart({ timeoutSeconds: 0.3 });
      now.proxy.trouble = { kind: 'slow', milliseconds: 1_000 };
      await load(0, 200);
      await eventually('batches became small', () => status().failures > 3 && now.proxy.last === 100, 30_000);
      expect(now.proxy.largest).toBeGreaterThan(100);
      expect(status()).toMatchObject({ state: 'away', forwardedSequence: 0, waiting: 20_000 });
      now.proxy.trouble = { kind: 'none' };
      const { here, there } = await totals();
      expect(there).toEqual(here);
    });

    it('writing while its answers are lost: writes again and doubles nothing', async () => {
      now.proxy.trouble = { kind: 'loses-answers' };
      await load(0, 100);
      await eventually('it was tried again', () => status().failures > 2);
      expect(status()).toMatchObject({ forwardedSequence: 0, waiting: 10_000 });
      now.proxy.trouble = { kind: 'none' };
      const { here, there } = await totals();
      expect(there).toEqual(here);
    });

    it('goes on from where it was after our own restart, also in the midst of catching up', async () => {
      now.proxy.trouble = { kind: 'answers', status: 503, body: '' };
      await load(0, 400);
      now.proxy.trouble = { kind: 'none' };
      await eventually('some of it was written', () => status().forwardedSequence > 0);
      const before = status().forwardedSequence;
      await restart();
      expect(status().forwardedSequence).toBeGreaterThanOrEqual(before);
      const { here, there } = await totals();
      expect(there).toEqual(here);
      expect(status().written).toBeLessThanOrEqual(40_000 - before);
      noteFault({
        fault: 'our own restart in the midst of catching up with InfluxDB',
        expected: 'goes on from where it was; nothing lost, nothing twice',
        seen: sameTotals(there),
      });
    });

    it.each([
      ['fewer', 10],
      ['more', 50],
    ])(
      'with a local store put in place of another, with %s readings: sends all of them',
      async (howMany, seconds) => {
        await load(0, 20);
        await caughtUp(now.opened);
        await now.opened.close();
        for (const end of ['', '-wal', '-shm'])
          await rm(`${trouble.folder()}/series.sqlite${end}`, { force: true });
        const other = await openSqliteSeries({ file: `${trouble.folder()}/series.sqlite` });
        for (let index = 100; index < 100 + seconds; index++) await other.append(second(index));
        await other.close();
        await trouble.start();
        await caughtUp(now.opened);
        const { there } = await totals();
        const counted = Object.values(there).reduce((sum, { count }) => sum + count, 0);
        expect(counted).toBe((20 + seconds) * readingsPerSecond);
        noteFault({
          fault: `the local store replaced by another one, with ${howMany} readings`,
          expected: 'noticed; all of it is sent, and what InfluxDB had stays',
          seen: `${counted} readings there, ${20 * readingsPerSecond} of the old store and ${seconds * readingsPerSecond} of the new`,
        });
      },
    );

    it('away until the space for waiting readings is used up: warns early, takes readings all the same', async () => {
      // Now is a year after the readings, so that all of them are old enough to be let go of.
      const clock = { nowMs: () => startMs + 365 * 86_400_000 };
      await restart({ localGigabytes: 0.004 }, { clock });
      now.proxy.trouble = { kind: 'answers', status: 503, body: '' };
      const levels = new Set<string>();
      for (let index = 0; index < 600 && !levels.has('full'); index += 10) {
        await load(index, index + 10);
        levels.add(status().disk.level);
      }
      expect([...levels]).toEqual(['ok', 'low', 'full']);
      expect(await now.opened.keepSpace(), 'nothing InfluxDB has not got is let go of').toBe(0);
      await load(600, 610);
      const { waiting } = status();
      const here = await totalsHere(now.opened);
      now.proxy.trouble = { kind: 'none' };
      await caughtUp(now.opened, 60_000);
      expect(await now.opened.keepSpace()).toBe(waiting);
      expect(status().disk.level).toBe('ok');
      const { there } = await totals();
      expect(there).toEqual(here);
      noteFault({
        fault: 'InfluxDB away until the space given to waiting readings is used up',
        expected: 'warns before it is full; takes readings all the same; lets go only of what InfluxDB has',
        seen: `${[...levels].join(', then ')}; ${waiting.toLocaleString('en-GB')} waited; ${sameTotals(there)}`,
      });
    });
  },
);
