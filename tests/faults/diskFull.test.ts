/** Disks that really are full: one that holds the yard, one that holds InfluxDB. Both are small ones of their own. */
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { afterEach, expect, it } from 'vitest';
import { startServiceWatch } from '../../services/rules/serviceWatch.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { influxdProgram, settingsFor, startInfluxd } from '../helpers/influxd.ts';
import { caughtUp, openForwarding } from '../helpers/influxSeries.ts';
import { sameTotals, second, startMs, totalsHere, totalsThere } from '../helpers/influxTrouble.ts';
import { startJudgedPile } from '../helpers/judgedPile.ts';
import { describeIf } from '../helpers/requirement.ts';
import { canMountSmallDisk, mountSmallDisk, smallDiskMissing } from '../helpers/smallDisk.ts';
import {
  firstProbe,
  readingsTopic,
  secretOf,
  startWritePath,
  temporaryFolder,
} from '../helpers/writePath.ts';

const channel = `${firstProbe}_core`;
const sentFromMs = Math.floor(Date.now() / 1000) * 1000 - 8 * 3_600_000;
const timeOf = (number: number) => sentFromMs + number * 100;
const packOf = (number: number) =>
  JSON.stringify([{ n: channel, u: 'Cel', v: 60 + (number % 10) / 16, t: timeOf(number) / 1000 }]);

const cleanUp: (() => unknown)[] = [];
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

function smallDisk(megabytes: number) {
  const disk = mountSmallDisk(megabytes);
  cleanUp.push(disk.remove);
  return disk;
}

describeIf(canMountSmallDisk, smallDiskMissing)('the yard’s own disk', () => {
  it('fills up: an alarm well before, when there is still room for it', async () => {
    const disk = smallDisk(64);
    const series = await openSqliteSeries({ file: join(disk.path, 'series.sqlite') });
    cleanUp.push(series.close);
    let nowMs = startMs;
    const watch = startServiceWatch({
      dataFolder: disk.path,
      clock: { nowMs: () => nowMs },
      isBrokerConnected: () => true,
      isDatabaseReachable: async () => true,
      oldestMessageMs: async () => null,
      everyMilliseconds: 1e9,
    });
    cleanUp.push(watch.stop);
    const pile = await startJudgedPile(disk.path, series, startMs, watch.facts);
    cleanUp.push(pile.stop);
    const minutesOf = async (from: number, to: number) => {
      for (let minutes = from; minutes < to; minutes += 5) {
        nowMs = startMs + minutes * 60_000;
        await watch.look();
        await pile.measure(minutes, 60);
      }
    };
    await minutesOf(0, 30);
    expect(await pile.texts()).toEqual([]);
    disk.fill(5e6);
    const freePercent = Math.round(disk.freeFraction() * 100);
    await minutesOf(30, 60);
    const [text, ...others] = await pile.texts();
    expect(others).toEqual([]);
    expect(text).toMatchObject({ begin: expect.stringContaining('disk nearly full') });
    disk.fill(0);
    const late = { channel, timeMs: startMs, rawValue: 1, value: 1, quality: 'good', reason: null } as const;
    const many = Array.from({ length: 20_000 }, (_, index) => ({ ...late, timeMs: startMs + index }));
    await expect(series.append(many)).rejects.toThrow(/full/);
    disk.free();
    await expect(series.append(many)).resolves.toMatchObject({ stored: 20_000 });
    noteFault({
      fault: 'the disk of the yard fills up',
      expected: 'a text says so while there is room left; nothing half stored when there is none',
      seen: `text at ${freePercent} % free, ${text!.minute - 30} minutes after; a group of 20,000 refused whole, stored whole once there was room`,
    });
  });

  it('is full: nothing is acknowledged that is not stored, and all of it is when there is room again', async () => {
    const disk = smallDisk(32);
    const path = await startWritePath({ folder: disk.path });
    cleanUp.push(path.stop);
    const sign = { username: firstProbe, password: secretOf(firstProbe) };
    const client = await connectAsync(path.url, {
      ...sign,
      clientId: 'probe',
      clean: false,
      reconnectPeriod: 50,
    });
    client.on('error', () => undefined);
    cleanUp.push(() => client.endAsync(true));
    const acknowledged = new Set<number>();
    let sent = 0;
    const publish = (count: number) => {
      for (let index = 0; index < count; index++) {
        const number = sent++;
        client.publish(readingsTopic(firstProbe), packOf(number), { qos: 1 }, (error) => {
          if (!error) acknowledged.add(number);
        });
      }
    };
    publish(2_000);
    await eventually('the first are acknowledged', () => acknowledged.size === sent);
    disk.fill(0);
    const { storageFaults } = path.ingest.statistics();
    for (let round = 0; round < 100 && path.ingest.statistics().storageFaults === storageFaults; round++) {
      publish(500);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    expect(path.ingest.statistics().failedCommitsInRow).toBeGreaterThan(0);
    const before = acknowledged.size;
    publish(1_000);
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(acknowledged.size).toBe(before);
    expect(sent - acknowledged.size).toBeGreaterThan(1_000);
    disk.free();
    await eventually('everything is acknowledged', () => acknowledged.size === sent, 30_000);
    const query = { channel, fromMs: 0, toMs: 2 * sentFromMs, quality: 'all' } as const;
    const times = (await path.series.range(query)).map(({ timeMs }) => timeMs);
    expect(times).toEqual(Array.from({ length: sent }, (_, number) => timeOf(number)));
    noteFault({
      fault: 'the disk of the yard is full while probes send',
      expected: 'nothing acknowledged that is not stored; probes keep it; all there once when there is room',
      seen: `${sent - before} of ${sent} not acknowledged while full; then ${times.length} stored, each once`,
    });
  });
});

const influxMissing = `no influxd found, or ${smallDiskMissing}`;
describeIf(influxdProgram !== null && canMountSmallDisk, influxMissing)('InfluxDB’s disk', () => {
  it('is full: readings wait here, and are there once when it has room again', async () => {
    const disk = smallDisk(96);
    const folder = await temporaryFolder();
    cleanUp.push(folder.remove);
    let server = await startInfluxd(disk.path);
    cleanUp.push(() => server.stop());
    await server.execute('CREATE DATABASE yard');
    const opened = await openForwarding(folder.path, settingsFor(server.url));
    cleanUp.push(opened.close);
    const load = async (from: number, to: number) => {
      for (let index = from; index < to; index++) await opened.local.append(second(index));
    };
    await load(0, 60);
    await caughtUp(opened);
    disk.fill(0);
    await load(60, 240);
    await eventually('InfluxDB says that it cannot', () => opened.forwarder!.status().failures > 2, 30_000);
    const { state, waiting } = opened.forwarder!.status();
    expect(waiting).toBeGreaterThan(10_000);
    expect(opened.forwarder!.status().refused).toBe(0);
    disk.free();
    // Version 1 goes on failing on the log file it could not write to, until it is started again.
    await server.stop();
    server = await startInfluxd(disk.path, server.port);
    await caughtUp(opened, 60_000);
    const there = await totalsThere(server.url);
    expect(there).toEqual(await totalsHere(opened));
    noteFault({
      fault: 'the disk of InfluxDB is full',
      expected:
        'readings wait here, none is put aside as refused; after its restart nothing lost, nothing twice',
      seen: `${waiting.toLocaleString('en-GB')} waited (${state}); ${sameTotals(there)}`,
    });
  }, 120_000);
});
