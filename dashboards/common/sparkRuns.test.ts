import { expect, it } from 'vitest';
import { hourMs, unbroken } from './sparkRuns.ts';

const hour = (index: number, source = 0) => ({ startMs: index * hourMs, min: 1, max: 3, mean: 2, source });
const shown = (runs: ReturnType<typeof unbroken>) =>
  runs.map((run) => run.map(({ startMs }) => startMs / hourMs));

it('draws one line while hours follow each other', () => {
  expect(shown(unbroken([hour(1), hour(2), hour(3)]))).toEqual([[1, 2, 3]]);
});

it('breaks the line at a missing hour and where another probe is the hottest', () => {
  expect(shown(unbroken([hour(1), hour(3), hour(4, 1), hour(5, 1), hour(6)]))).toEqual([
    [1],
    [3],
    [4, 5],
    [6],
  ]);
});

it('draws nothing of nothing', () => {
  expect(unbroken([])).toEqual([]);
});
