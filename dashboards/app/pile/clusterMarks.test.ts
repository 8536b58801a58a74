import { expect, it } from 'vitest';
import { clusterMarks } from './clusterMarks.ts';

const at = (...times: number[]) => times.map((timeMs) => ({ timeMs }));
const shown = { fromMs: 0, toMs: 1000 };
const marks = (...times: number[]) =>
  clusterMarks(at(...times), shown, 500, 44).map(({ pixels, entries }) => [pixels, entries.length]);

it('marks each entry where it happened, and those too near to tap apart as one', () => {
  expect(marks(100, 500)).toEqual([
    [50, 1],
    [250, 1],
  ]);
  expect(marks(500, 120, 100)).toEqual([
    [50, 2],
    [250, 1],
  ]);
});

it('leaves out what is not shown', () => {
  expect(marks(-1, 1001)).toEqual([]);
});

it('never lets two marks overlap, however many entries there are', () => {
  const many = clusterMarks(at(...Array.from({ length: 200 }, (_, index) => index * 5)), shown, 500, 44);
  many.slice(1).forEach(({ pixels }, index) => {
    expect(pixels - many[index]!.pixels).toBeGreaterThanOrEqual(44);
  });
  expect(many.reduce((sum, { entries }) => sum + entries.length, 0)).toBe(200);
});
