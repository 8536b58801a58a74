import { expect, it } from 'vitest';
import { driftAt, driftPixels } from './drift.ts';
import { isNight } from './night.ts';

const clock = { night: 'clock', nightFromHour: 21, nightToHour: 6 } as const;

it('is dark from evening to morning over midnight, by the hours that were set', () => {
  expect([20, 21, 23, 0, 5, 6, 12].map((hour) => isNight(clock, hour))).toEqual([
    ...[false, true, true, true, true],
    ...[false, false],
  ]);
  const day = { night: 'clock', nightFromHour: 1, nightToHour: 4 } as const;
  expect([0, 1, 3, 4].map((hour) => isNight(day, hour))).toEqual([false, true, true, false]);
});

it('is always or never dark when told so', () => {
  expect(isNight({ ...clock, night: 'always' }, 12)).toBe(true);
  expect(isNight({ ...clock, night: 'never' }, 0)).toBe(false);
});

it('wanders at most a pixel a minute, stays within its margin, and is nowhere for more than a tenth of a day', () => {
  const places = Array.from({ length: 14 * 1440 }, (_, minute) => driftAt(minute * 60_000));
  const counts = new Map<string, number>();
  for (const [index, { x, y }] of places.entries()) {
    expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual(driftPixels);
    const before = places[index - 1] ?? { x, y };
    expect(Math.max(Math.abs(x - before.x), Math.abs(y - before.y))).toBeLessThanOrEqual(1);
    counts.set(`${x} ${y}`, (counts.get(`${x} ${y}`) ?? 0) + 1);
  }
  expect(counts.size).toBeGreaterThan(100);
  expect(Math.max(...counts.values()) / places.length).toBeLessThan(0.1);
});
