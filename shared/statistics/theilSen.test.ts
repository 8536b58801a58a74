import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { risingCrossing } from './crossing.ts';
import { theilSen, valueOnLine } from './theilSen.ts';

const sample = fc.integer({ min: -4000, max: 4000 }).map((tenths) => tenths / 10);
const samples = fc.array(sample, { minLength: 2, maxLength: 60 });
/** Coarse readings repeat often; ties narrow the interval. */
const tiedSamples = fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 8, maxLength: 40 });
const indexes = (values: readonly unknown[]) => [...values.keys()];

/** An independent, slow reading of scipy's interval, with full sorting. */
function slowly(times: number[], values: number[], z: number) {
  const slopes = times
    .flatMap((time, later) =>
      times.slice(0, later).map((before, earlier) => (values[later]! - values[earlier]!) / (time - before)),
    )
    .sort((a, b) => a - b);
  const groups = Map.groupBy(values, (value) => value);
  const ties = [...groups.values()].reduce((sum, { length: g }) => sum + g * (g - 1) * (2 * g + 5), 0);
  const n = times.length;
  const sigma = Math.sqrt((n * (n - 1) * (2 * n + 5) - ties) / 18);
  const high = Math.min(Math.round((slopes.length + z * sigma) / 2), slopes.length - 1);
  const low = Math.max(Math.round((slopes.length - z * sigma) / 2) - 1, 0);
  const half = slopes.length >> 1;
  const middle = slopes.length % 2 === 1 ? slopes[half]! : (slopes[half - 1]! + slopes[half]!) / 2;
  return { slope: middle, low: slopes[low]!, high: slopes[high]! };
}

describe('Theil-Sen line', () => {
  test('agrees with a slow full sort, interval included', () => {
    fc.assert(
      fc.property(fc.oneof(samples, tiedSamples), (values) => {
        const line = theilSen(indexes(values), values);
        const expected = slowly(indexes(values), values, 1.959963984540054);
        expect(line.slope).toBeCloseTo(expected.slope, 9);
        expect([line.slopeLow, line.slopeHigh]).toEqual([expected.low, expected.high]);
      }),
    );
  });

  test('adding a line to the values adds its slope; scaling the values scales it', () => {
    fc.assert(
      fc.property(samples, sample, sample, (values, added, factor) => {
        const times = indexes(values);
        const { slope } = theilSen(times, values);
        const tilted = values.map((value, time) => value + added * time + 7);
        expect(theilSen(times, tilted).slope).toBeCloseTo(slope + added, 6);
        const scaled = values.map((value) => value * factor);
        expect(theilSen(times, scaled).slope).toBeCloseTo(slope * factor, 5);
      }),
    );
  });

  test('does not depend on the order of the points', () => {
    fc.assert(
      fc.property(samples, (values) => {
        const times = indexes(values);
        const backward = theilSen(times.toReversed(), values.toReversed());
        expect(backward.slope).toBeCloseTo(theilSen(times, values).slope, 9);
      }),
    );
  });

  test('a quarter of wild values does not move a clean slope far', () => {
    const values = Array.from({ length: 40 }, (_, time) => 50 + 0.5 * time);
    for (const index of [3, 7, 11, 18, 22, 26, 30, 33, 36, 39]) values[index] = 85;
    const line = theilSen(indexes(values), values);
    expect(line.slope).toBeCloseTo(0.5, 1);
    expect(line.slopeLow).toBeLessThanOrEqual(line.slope);
    expect(line.slopeHigh).toBeGreaterThanOrEqual(line.slope);
  });

  test('500 five-minute points at epoch times keep their precision through the centre', () => {
    const times = Array.from({ length: 500 }, (_, index) => 1_780_000_000_000 + index * 300_000);
    const values = times.map((_, index) => 55 + index * 0.01);
    const line = theilSen(times, values);
    expect(line.pairCount).toBe(124_750);
    expect(valueOnLine(line, times[499]!).value).toBeCloseTo(values[499]!, 9);
  });

  test('refuses one time only, NaN, and unequal lengths', () => {
    expect(() => theilSen([5, 5, 5], [1, 2, 3])).toThrow(/at least two different times/);
    expect(() => theilSen([1, 2], [1, Number.NaN])).toThrow('values[1] is NaN');
    expect(() => theilSen([1, 2, 3], [1, 2])).toThrow(/values has 2 entries; allowed is one for each of 3/);
  });
});

describe('time at which a rising line reaches a level', () => {
  test('is told with the bounds of the slope', () => {
    const line = theilSen([0, 1, 2, 3, 4, 5, 6, 7], [50, 52.2, 53.8, 56.1, 58.3, 59.8, 62, 64.1]);
    const crossing = risingCrossing(line, 71)!;
    expect(crossing.at).toBeCloseTo(10.4, 0);
    expect(crossing.earliest).toBeLessThan(crossing.at);
    expect(crossing.latest).toBeGreaterThan(crossing.at);
  });

  test('is unknown for a fall, and open-ended when the slope may be flat', () => {
    expect(risingCrossing(theilSen([0, 1, 2], [60, 59, 58]), 71)).toBeNull();
    expect(risingCrossing(theilSen([0, 1, 2], [72, 73, 74]), 71)).toBeNull();
    const unsure = theilSen([0, 1, 2, 3], [60, 59.5, 61, 60.6]);
    expect(risingCrossing(unsure, 71)!.latest).toBe(Number.POSITIVE_INFINITY);
  });
});
