import { expect, test } from 'vitest';
import { filledForward, hourlyMedians, hourMs } from './hourlyGrid.ts';

const sample = (minutes: number, value: number) => ({ timeMs: minutes * 60_000, value });

test('each hour is the median of its readings, and an empty hour stays empty', () => {
  const samples = [sample(5, 50), sample(20, 90), sample(40, 51), sample(130, 53)];
  const { startMs, values } = hourlyMedians(samples, 0, 3 * hourMs);
  expect(startMs).toBe(0);
  expect([...values]).toEqual([51, Number.NaN, 53]);
});

test('readings outside the span are left out, an empty span is refused', () => {
  const samples = [sample(-10, 1), sample(30, 2), sample(70, 3)];
  expect([...hourlyMedians(samples, 0, hourMs).values]).toEqual([2]);
  expect(() => hourlyMedians(samples, hourMs, hourMs)).toThrow(/toMs 3600000 must be after fromMs 3600000/);
});

test('air gaps are carried forward, and a start without readings takes the first one', () => {
  const values = Float64Array.from([Number.NaN, 8, Number.NaN, 9]);
  expect([...filledForward(values, 12)]).toEqual([8, 8, 8, 9]);
  expect([...filledForward(Float64Array.from([Number.NaN]), 12)]).toEqual([12]);
});
