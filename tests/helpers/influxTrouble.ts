import { afterEach, beforeEach } from 'vitest';
import { openInfluxArchive } from '../../services/series/influx/openArchive.ts';
import type { InfluxSettings } from '../../services/series/influx/settings.ts';
import type { OpenedSeries, SeriesOptions } from '../../services/series/openSeries.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import { eventually } from './eventually.ts';
import { type InfluxServer, settingsFor, startInfluxd } from './influxd.ts';
import { type InfluxProxy, startInfluxProxy } from './influxProxy.ts';
import { caughtUp, openForwarding } from './influxSeries.ts';
import { temporaryFolder } from './writePath.ts';

/** A large yard: 1,500 probes of four channels, each read once a minute, come to 100 readings a second. */
const channels = 6_000;
export const readingsPerSecond = 100;
export const startMs = 1_780_272_000_000;

/** Readings of one second, 100 of the channels in turn; of values whose sums a double holds exactly. */
export function second(index: number): Reading[] {
  return Array.from({ length: readingsPerSecond }, (_, place) => {
    const number = index * readingsPerSecond + place;
    const value = 50 + (number % 320) / 16;
    const channel = `urn:dev:example:load-${number % channels}_core`;
    return { channel, timeMs: startMs + index * 1000, rawValue: value, value, quality: 'good', reason: null };
  });
}

/** For each test a fresh local store, forwarding through a troublesome stand-in to a real, empty InfluxDB. */
export function useInfluxInTrouble() {
  let folder: Awaited<ReturnType<typeof temporaryFolder>>;
  const now = {} as { server: InfluxServer; proxy: InfluxProxy; opened: OpenedSeries };
  const open = (influx: Partial<InfluxSettings>, options: Partial<SeriesOptions>) =>
    openForwarding(folder.path, { ...settingsFor(now.proxy.url), ...influx }, options);
  beforeEach(async () => {
    folder = await temporaryFolder();
    now.server = await startInfluxd(folder.path);
    await now.server.execute('CREATE DATABASE yard');
    now.proxy = await startInfluxProxy(now.server.url);
    now.opened = await open({}, {});
  });
  afterEach(async () => {
    await now.opened.close();
    await now.proxy.stop();
    await now.server.stop();
    await folder.remove();
  });
  const start = async (influx: Partial<InfluxSettings> = {}, options: Partial<SeriesOptions> = {}) => {
    now.opened = await open(influx, options);
  };
  return {
    now,
    folder: () => folder.path,
    status: () => now.opened.forwarder!.status(),
    /** Stops the program that stores and forwards and starts it again on the same files. */
    async restart(...change: Parameters<typeof start>) {
      await now.opened.close();
      await start(...change);
    },
    start,
    async restartServer() {
      now.server = await startInfluxd(folder.path, now.server.port);
    },
    stateBecomes: (state: string) =>
      eventually(`forwarding is ${state}`, () => now.opened.forwarder!.status().state === state, 30_000),
    /** Stores seconds of load, each committed before the next one comes. */
    async load(from: number, to: number) {
      for (let index = from; index < to; index++) await now.opened.local.append(second(index));
    },
    /** Count and sum of each channel, here and in InfluxDB itself, once nothing waits any more. */
    async totals() {
      await caughtUp(now.opened, 120_000);
      return { here: await totalsHere(now.opened), there: await totalsThere(now.server.url) };
    },
    archive: () => openInfluxArchive(settingsFor(now.server.url)),
  };
}

/** What a fault table says of totals that were found equal on both sides. */
export function sameTotals(totals: Totals): string {
  const each = Object.values(totals);
  const count = each.reduce((all, one) => all + one.count, 0).toLocaleString('en-GB');
  const sum = each.reduce((all, one) => all + one.sum, 0).toLocaleString('en-GB');
  return `${count} readings there, sum ${sum}, both as here for each channel`;
}

type Totals = Record<string, { count: number; sum: number }>;

/** Count and sum of each channel of the raw readings the local store has. */
export async function totalsHere({ local }: Pick<OpenedSeries, 'local'>): Promise<Totals> {
  const totals: Totals = {};
  for (let cursor = 0; ; ) {
    const readings = await local.since(cursor, 50_000);
    for (const { channel, value } of readings) {
      totals[channel] ??= { count: 0, sum: 0 };
      totals[channel].count++;
      totals[channel].sum += value;
    }
    if (readings.length === 0) return totals;
    cursor = readings.at(-1)!.sequence;
  }
}

/** Asked of the server itself, past all of our own reading code. */
export async function totalsThere(url: string): Promise<Totals> {
  const q = 'SELECT count(value), sum(value) FROM reading GROUP BY channel';
  const answer = await fetch(`${url}/query?${new URLSearchParams({ db: 'yard', q })}`);
  const { results } = (await answer.json()) as {
    results: { series?: { tags: { channel: string }; values: [unknown, number, number][] }[] }[];
  };
  const rows = results[0]?.series ?? [];
  return Object.fromEntries(
    rows.map(({ tags, values: [row] }) => [tags.channel, { count: row![1], sum: row![2] }]),
  );
}
