import { tmpdir } from 'node:os';
import { afterEach, expect, test, vi } from 'vitest';
import { type ServiceSources, type ServiceWatch, startServiceWatch } from './serviceWatch.ts';

let watch: ServiceWatch;

afterEach(() => {
  watch.stop();
  vi.restoreAllMocks();
});

function start(change: Partial<ServiceSources> = {}): ServiceWatch {
  watch = startServiceWatch({
    dataFolder: tmpdir(),
    clock: { nowMs: () => 1_000_000 },
    isBrokerConnected: () => true,
    isDatabaseReachable: async () => true,
    oldestMessageMs: async () => null,
    everyMilliseconds: 5,
    ...change,
  });
  return watch;
}

test('tells how the program stands, disk and all', async () => {
  start({ oldestMessageMs: async () => 900_000 });
  await vi.waitFor(() => expect(watch.facts().brokerConnected).toBe(true));
  expect(watch.facts()).toMatchObject({
    databaseReachable: true,
    clockStep: null,
  });
  await vi.waitFor(() => expect(watch.facts().messageWaitedMs).toBeGreaterThan(0));
  expect(watch.facts().diskFreeFraction).toBeGreaterThan(0);
  expect(watch.facts().diskFreeFraction).toBeLessThanOrEqual(1);
  expect(watch.facts().diskFreeBytes).toBeGreaterThan(1000);
});

test('a database that refuses is away; a disk and a queue that cannot be read are not known', async () => {
  const refuse = async () => {
    throw new Error('refused');
  };
  start({ isDatabaseReachable: refuse, oldestMessageMs: refuse, dataFolder: `${tmpdir()}/no/such/folder` });
  await vi.waitFor(() => expect(watch.facts().databaseReachable).toBe(false));
  expect(watch.facts()).toMatchObject({ diskFreeFraction: null, diskFreeBytes: null, messageWaitedMs: null });
});

test('a clock that is set is noticed, with how far; one that runs on is not', async () => {
  start();
  await watch.look();
  expect(watch.facts().clockStep).toBeNull();
  const wall = Date.now;
  vi.spyOn(Date, 'now').mockImplementation(() => wall() + 3_600_000);
  await vi.waitFor(() => expect(watch.facts().clockStep).not.toBeNull());
  expect(watch.facts().clockStep!.atMs).toBe(1_000_000);
  expect(Math.abs(watch.facts().clockStep!.stepMs - 3_600_000)).toBeLessThan(1000);
});

test('a queue that moves on has not been waiting', async () => {
  let oldestMs: number | null = 1;
  start({ oldestMessageMs: async () => oldestMs, everyMilliseconds: 3_600_000 });
  const steady = performance.now;
  const waitedAfter = async (hours: number) => {
    vi.spyOn(performance, 'now').mockImplementation(() => steady.call(performance) + hours * 3_600_000);
    await watch.look();
    return Math.round(watch.facts().messageWaitedMs! / 3_600_000);
  };
  await watch.look();
  expect(await waitedAfter(1)).toBe(1);
  oldestMs = 2;
  expect(await waitedAfter(2)).toBe(0);
  expect(await waitedAfter(3)).toBe(1);
  oldestMs = null;
  expect(await waitedAfter(4)).toBe(0);
});
