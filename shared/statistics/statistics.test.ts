import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { levelChange, rateChange } from './changePoint.ts';
import { hampelOutliers } from './hampel.ts';
import { mannKendall } from './mannKendall.ts';
import { median, robustSpread } from './median.ts';
import { modifiedZ } from './modifiedZ.ts';
import { normalZForTwoSidedP, twoSidedNormalP } from './normal.ts';
import { pairDisagreement } from './pairDisagreement.ts';
import { quantile } from './quantile.ts';
import { segmentFit } from './segmentFit.ts';
import { selectRank } from './selectRank.ts';

const number = fc.integer({ min: -5000, max: 5000 }).map((tenths) => tenths / 10);
const numbers = fc.array(number, { minLength: 1, maxLength: 80 });

/** Repeatable wobble between -1 and 1 that looks like noise. */
const wobble = (index: number) => Math.sin(index * 12.9898) * Math.cos(index * 78.233);

describe('median, quantile and selection', () => {
  test('the median is the middle quantile and lies within the values', () => {
    fc.assert(
      fc.property(numbers, (values) => {
        expect(median(values)).toBeCloseTo(quantile(values, 0.5), 9);
        expect(quantile(values, 0)).toBe(Math.min(...values));
        expect(quantile(values, 1)).toBe(Math.max(...values));
      }),
    );
  });

  test('interpolates like R type 7', () => {
    expect(quantile([1, 2, 3, 4], 0.25)).toBe(1.75);
    expect(quantile([15, 20, 35, 40, 50], 0.4)).toBeCloseTo(29, 12);
  });

  test('selection finds what a sort finds', () => {
    fc.assert(
      fc.property(numbers, fc.nat(), (values, any) => {
        const rank = any % values.length;
        const sorted = values.toSorted((a, b) => a - b);
        expect(selectRank(Float64Array.from(values), rank)).toBe(sorted[rank]);
      }),
    );
  });

  test('one wild value hardly moves the spread', () => {
    expect(robustSpread([55, 55.1, 54.9, 55.2, 54.8, 85])).toBeLessThan(0.35);
  });

  test('refuses nothing and NaN by name', () => {
    expect(() => median([])).toThrow('values has 0 values; allowed is 1 or more');
    expect(() => median([1, Number.NaN])).toThrow('values[1] is NaN');
    expect(() => quantile([1], 1.5)).toThrow('share is 1.5; allowed is 0 to 1');
  });
});

describe('outliers', () => {
  test('a floor at the resolution stops one step of a quantised probe from being flagged', () => {
    const steps = [20, 20, 20, 20.0625, 20, 20, 20];
    expect(hampelOutliers(steps, { resolutionFloor: 0 })).toEqual([3]);
    expect(hampelOutliers(steps)).toEqual([]);
    expect(hampelOutliers([20, 20, 20, 85, 20, 20, 20])).toEqual([3]);
  });

  test('no value of a steady ramp is flagged, up or down', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 50 }), (slope) => {
        const ramp = Array.from({ length: 30 }, (_, index) => (index * slope) / 10);
        expect(hampelOutliers(ramp.slice(3, -3), { threshold: 3 })).toEqual([]);
      }),
    );
  });

  test('modified z of a repeated value is 0, and of the odd one infinite unless a floor is given', () => {
    expect(modifiedZ([20, 20, 20, 25])).toEqual([0, 0, 0, Number.POSITIVE_INFINITY]);
    expect(modifiedZ([20, 20, 20, 25], 0.5)[3]).toBeCloseTo(6.745, 9);
  });
});

describe('normal distribution', () => {
  test('matches published two-sided values', () => {
    expect(twoSidedNormalP(1.959963984540054)).toBeCloseTo(0.05, 12);
    expect(twoSidedNormalP(2.5758293035489004)).toBeCloseTo(0.01, 12);
    expect(twoSidedNormalP(3.290526731491926)).toBeCloseTo(0.001, 12);
    expect(twoSidedNormalP(0)).toBe(1);
    expect(twoSidedNormalP(8) / 1.2441921148543574e-15).toBeCloseTo(1, 9);
    expect(normalZForTwoSidedP(0.05)).toBeCloseTo(1.959963984540054, 9);
  });

  test('series and continued fraction meet', () => {
    expect(twoSidedNormalP(3 - 1e-12)).toBeCloseTo(twoSidedNormalP(3), 12);
  });
});

describe('Mann-Kendall', () => {
  test('turning the series round turns the sign; any rising re-scaling changes nothing', () => {
    fc.assert(
      fc.property(fc.array(number, { minLength: 2, maxLength: 40 }), (values) => {
        const trend = mannKendall(values);
        expect(mannKendall(values.toReversed()).s + trend.s).toBe(0);
        expect(mannKendall(values.map((value) => value ** 3)).z).toBe(trend.z);
        expect(trend.p).toBeGreaterThan(0);
        expect(trend.p).toBeLessThanOrEqual(1);
      }),
    );
  });

  test('says nothing of a constant series', () => {
    expect(mannKendall([5, 5, 5, 5])).toMatchObject({ s: 0, z: 0, p: 1 });
  });
});

describe('two channels that should agree', () => {
  const limits = { bias: 1, spread: 1, leastPairs: 20 };
  const truth = Array.from({ length: 60 }, (_, index) => 50 + index * 0.1);
  const judge = (second: (number | null)[]) => pairDisagreement(truth, second, limits).verdict;

  test('a steady difference is a bias, a scattered one is noise', () => {
    expect(judge(truth.map((value, index) => value + 0.2 * wobble(index)))).toBe('agree');
    expect(judge(truth.map((value) => value - 3))).toBe('bias');
    expect(judge(truth.map((value, index) => value + 6 * wobble(index)))).toBe('noise');
    expect(judge(truth.map((value, index) => value + 20 + 6 * wobble(index)))).toBe('bias-and-noise');
  });

  test('gaps are left out and a few wild readings change nothing', () => {
    const second = truth.map((value, index) =>
      index % 3 === 0 ? null : index % 10 === 1 ? 85 : value + 0.5,
    );
    const result = pairDisagreement(truth, second, limits);
    expect(result).toMatchObject({ pairCount: 40, verdict: 'agree' });
    expect(result.bias).toBeCloseTo(-0.5, 9);
  });

  test('a difference that its own scatter can explain is not called a bias', () => {
    const second = truth.map((value, index) => value + 1.2 + 4 * wobble(index));
    const result = pairDisagreement(truth, second, { ...limits, spread: 10 });
    expect(Math.abs(result.bias!)).toBeGreaterThan(1);
    expect(result.verdict).toBe('agree');
  });

  test('too few pairs are not judged', () => {
    expect(pairDisagreement([50], [90], limits)).toMatchObject({ verdict: 'too-few', bias: -40 });
    expect(pairDisagreement([null], [90], limits)).toMatchObject({ verdict: 'too-few', bias: null });
  });
});

describe('change of level and of rate', () => {
  const settling = Array.from({ length: 40 }, (_, day) => (day < 14 ? 120 - 2 * day : 92 - 0.1 * (day - 14)));
  const noisy = settling.map((value, day) => value + wobble(day));

  test('finds the day settling slows, and both rates', () => {
    const change = rateChange(noisy, { resolution: 0.5 })!;
    expect(Math.abs(change.index - 14)).toBeLessThanOrEqual(1);
    expect(change.before).toBeCloseTo(-2, 0);
    expect(change.after).toBeCloseTo(-0.1, 0);
  });

  test('finds a step in level', () => {
    const step = Array.from({ length: 30 }, (_, day) => (day < 18 ? 60 : 56) + wobble(day));
    const change = levelChange(step)!;
    expect(change.index).toBe(18);
    expect(change.before - change.after).toBeCloseTo(4, 0);
  });

  test('stays silent on a straight line, on wobble, and on too few days', () => {
    const line = Array.from({ length: 40 }, (_, day) => 120 - day + wobble(day));
    expect(rateChange(line)).toBeNull();
    expect(levelChange(Array.from({ length: 40 }, (_, day) => wobble(day)))).toBeNull();
    expect(rateChange([120, 110, 100])).toBeNull();
    expect(rateChange(Array.from({ length: 20 }, () => 80))).toBeNull();
  });

  test('the line through any stretch is the least-squares line, and the evidence is the stated score', () => {
    const { slope, error } = segmentFit(noisy).line(5, 17);
    const days = Array.from({ length: 12 }, (_, index) => index - 5.5);
    const stretch = noisy.slice(5, 17);
    const mean = stretch.reduce((sum, value) => sum + value, 0) / 12;
    const steepness = days.reduce((sum, day, index) => sum + day * stretch[index]!, 0) / 143;
    expect(slope).toBeCloseTo(steepness, 9);
    const left = stretch.map((value, index) => (value - mean - steepness * days[index]!) ** 2);
    expect(error).toBeCloseTo(
      left.reduce((sum, value) => sum + value, 0),
      6,
    );
    const change = levelChange(noisy)!;
    const score = -40 * Math.log(1 - change.explained) - 2 * Math.log(40);
    expect(change.evidence).toBeCloseTo(score, 6);
  });

  test('a shift of all values shifts nothing but the levels', () => {
    fc.assert(
      fc.property(number, (shift) => {
        const moved = levelChange(settling.map((value) => value + shift))!;
        const plain = levelChange(settling)!;
        expect(moved.index).toBe(plain.index);
        expect(moved.before).toBeCloseTo(plain.before + shift, 6);
      }),
    );
  });
});
