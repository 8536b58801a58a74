import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { encodePast } from '../../../shared/api/past.ts';
import { replayPast } from '../../../shared/rules/replay.ts';
import { pastOf } from '../../../shared/rules/testing/testPast.ts';
import { course, hourMs, startMs, testFacts } from '../../../shared/rules/testing/testPile.ts';
import type { ReplayAsk } from './replayMessages.ts';
import { openReplays, type Replays, type WorkerLike } from './replays.ts';

const past = pastOf(
  testFacts(),
  course('a', 0, 24 * 60, (hours) => 60 + 12 * Math.sin(hours / 40), 2),
  startMs + 1440 * hourMs,
);
const limits = { version: 0, overrides: {} };
const ask: ReplayAsk = {
  ...{ candidate: null, countFromMs: startMs, textsFrom: 'medium', troubles: null, suggest: [] },
};

/** Runs the worker's own file in this thread, its messages carried as a browser would: later, and as copies. */
async function workerHere(): Promise<WorkerLike> {
  const toWorker: ((event: { data: unknown }) => void)[] = [];
  const toPage: ((event: { data: unknown }) => void)[] = [];
  const carry = (to: typeof toPage, data: unknown) =>
    setTimeout(() => to.forEach((listener) => void listener({ data: structuredClone(data) })), 0);
  vi.stubGlobal('addEventListener', (_kind: string, listener: (typeof toWorker)[0]) =>
    toWorker.push(listener),
  );
  vi.stubGlobal('postMessage', (data: unknown) => carry(toPage, data));
  await import('./replayWorker.ts');
  return {
    postMessage: (data: unknown) => carry(toWorker, data),
    addEventListener: ((_kind: string, listener: (typeof toPage)[0]) => toPage.push(listener)) as never,
    terminate: () => {},
  } as WorkerLike;
}

let replays: Replays;
beforeAll(async () => {
  const { buffer } = encodePast({ past, limits, temperatureUnit: 'C' });
  replays = openReplays(buffer, await workerHere());
});
afterAll(() => vi.unstubAllGlobals());

test('gives the alarms of a replay on the page’s side', async () => {
  const outcome = await replays.run(ask);
  const shown = replayPast(past, limits).alarms.filter((alarm) => alarm.shown);
  expect(outcome!.current.alarms).toEqual(shown);
  expect(shown.length).toBeGreaterThan(3);
});

test('a newer question takes the place of one that is still running', async () => {
  const first = replays.run({ ...ask, candidate: { 'too-hot-ceiling': { limitCelsius: 66 } } });
  const second = replays.run({ ...ask, candidate: { 'too-hot-ceiling': { limitCelsius: 69 } } });
  expect(await first).toBeNull();
  expect((await second)!.candidate!.alarms.length).toBeGreaterThan(0);
});

test('tells how far it is, and names a limit that is not allowed', async () => {
  const shares: number[] = [];
  await replays.run({ ...ask, suggest: ['too-hot-ceiling'] }, (share) => shares.push(share));
  expect(shares.length).toBeGreaterThan(1);
  expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  const bad = replays.run({ ...ask, candidate: { 'too-hot-ceiling': { limitCelsius: 99 } } });
  await expect(bad).rejects.toMatchObject({ field: 'too-hot-ceiling.limitCelsius' });
});
