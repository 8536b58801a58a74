import { expect, test } from 'vitest';
import { activationsInWindow, noFlood, stepFlood } from './flood.ts';

test('a flood starts above ten and goes on until fewer than five', () => {
  const quiet = stepFlood(noFlood, 10, 1);
  expect(quiet.flooding).toBe(false);
  const flood = stepFlood(quiet, 11, 2);
  expect(flood).toEqual({ flooding: true, sinceMs: 2 });
  expect(stepFlood(flood, 5, 3)).toEqual(flood);
  expect(stepFlood(flood, 4, 4)).toEqual(noFlood);
});

test('counts the last ten minutes, start excluded, end included', () => {
  expect(activationsInWindow([0, 1, 600_000, 600_001], 600_000)).toBe(2);
});
