import { describe, expect, it } from 'vitest';
import { thin } from './thinning.ts';

const points = (values: readonly number[]) => values.map((value, index) => ({ timeMs: index * 10, value }));
const thinned = (values: readonly number[], maxPoints: number) =>
  thin(points(values), { firstMs: 0, lastMs: (values.length - 1) * 10 }, maxPoints).map(({ value }) => value);

describe('thin', () => {
  it('keeps first, last, lowest and highest when four points are asked', () => {
    expect(thinned([5, 9, 4, 1, 6, 7, 5], 4)).toEqual([5, 9, 1, 5]);
  });

  it('keeps extremes in time order, whichever comes first', () => {
    expect(thinned([5, 1, 4, 9, 6], 4)).toEqual([5, 1, 9, 6]);
  });

  it('keeps a single spike among a hundred thousand quiet values', () => {
    const values = Array.from({ length: 100_000 }, () => 60);
    values[77_777] = 60.0625;
    expect(thinned(values, 50)).toContain(60.0625);
  });

  it('does not invent points where an edge is itself an extreme', () => {
    expect(thinned([1, 5, 5, 5, 9], 4)).toEqual([1, 9]);
  });

  it('gives the last point when only one is asked, and both ends when two are', () => {
    expect(thinned([3, 8, 2, 5], 1)).toEqual([5]);
    expect(thinned([3, 8, 2, 5], 2)).toEqual([3, 5]);
  });
});
