import { expect, test } from 'vitest';
import { hottestHours } from './hottestHours.ts';

const hourMs = 3_600_000;
const hours = (from: number, ...values: number[]) =>
  values.map((value, index) => ({ timeMs: (from + index) * hourMs, value }));
const shown = (...channels: Parameters<typeof hottestHours>[0]) =>
  hottestHours(channels).map(({ timeMs, value }) => [timeMs / hourMs, value]);

test('the hottest channel of each hour counts', () => {
  expect(shown(hours(0, 50, 51, 60), hours(0, 48, 53, 59))).toEqual([
    [0, 50],
    [1, 53],
    [2, 60],
  ]);
  expect(shown()).toEqual([]);
});

test('hours without the channel that led are left empty rather than filled by a cooler one', () => {
  expect(shown(hours(0, 66, 66), hours(0, 50, 50, 50, 50))).toEqual([
    [0, 66],
    [1, 66],
  ]);
});

test('a channel as hot as the lost one goes on for it, and after a day any does', () => {
  expect(shown(hours(0, 66), hours(0, 65.5, 65.5))).toHaveLength(2);
  const after = shown(hours(0, 66), hours(0, ...Array(30).fill(50)));
  expect(after.map(([hour]) => hour)).toEqual([0, 25, 26, 27, 28, 29]);
});

test('the lost channel leads again when it is back', () => {
  const first = [...hours(0, 66), ...hours(3, 64)];
  expect(shown(first, hours(0, 50, 50, 50, 50))).toEqual([
    [0, 66],
    [3, 64],
  ]);
});
