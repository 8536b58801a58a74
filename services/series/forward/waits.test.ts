import { describe, expect, it, vi } from 'vitest';
import { ArchiveFault } from '../archive.ts';
import { createBell, defaultWaits, waitAfter } from './waits.ts';

const away = new ArchiveFault('away', 'nobody there');
const wait = (failures: number, random: number, fault: unknown = away) =>
  waitAfter(fault, failures, random, defaultWaits);

describe('waitAfter', () => {
  it('doubles with each failure and ends at the longest', () => {
    expect([1, 2, 3, 4].map((failures) => wait(failures, 1))).toEqual([500, 1_000, 2_000, 4_000]);
    expect(wait(1_000, 1)).toBe(defaultWaits.longestMs);
  });

  it('is spread by chance over half of it, so that many yards do not come at once', () => {
    expect([0, 0.5, 1].map((random) => wait(3, random))).toEqual([1_000, 1_500, 2_000]);
  });

  it('waits as long as the server asks, within reason', () => {
    const asks = (seconds: number) => new ArchiveFault('busy', 'later', { retryAfterMs: seconds * 1000 });
    expect(wait(1, 0, asks(30))).toBe(30_000);
    expect(wait(1, 0, asks(86_400))).toBe(600_000);
  });

  it.each(['not-permitted', 'not-found', 'refused'] as const)(
    'tries slowly from the first time on when %s: only a person can help',
    (kind) => {
      expect(wait(1, 1, new ArchiveFault(kind, 'no'))).toBe(defaultWaits.forPersonMs);
    },
  );
});

describe('the bell', () => {
  const hourMs = 3_600_000;

  it('ends a wait that may be ended, also when it rang before', async () => {
    const bell = createBell(new AbortController().signal);
    bell.ring();
    await bell.wait(hourMs, true);
    const second = bell.wait(hourMs, true);
    bell.ring();
    await second;
  });

  it('does not shorten a wait after a failure', async () => {
    vi.useFakeTimers();
    const bell = createBell(new AbortController().signal);
    let isOver = false;
    bell.ring();
    const waiting = bell.wait(1_000, false).then(() => {
      isOver = true;
    });
    bell.ring();
    await vi.advanceTimersByTimeAsync(999);
    expect(isOver).toBe(false);
    await vi.advanceTimersByTimeAsync(1);
    await waiting;
    vi.useRealTimers();
  });

  it('ends everything at the stop', async () => {
    const stop = new AbortController();
    const bell = createBell(stop.signal);
    const waiting = bell.wait(hourMs, false);
    stop.abort();
    await waiting;
    await bell.wait(hourMs, false);
  });
});
