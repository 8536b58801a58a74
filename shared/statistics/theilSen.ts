import { median } from './median.ts';
import { normalZForTwoSidedP } from './normal.ts';
import { requireFinite } from './requireFinite.ts';
import { selectRank } from './selectRank.ts';
import { countTerm, tieCorrection } from './ties.ts';

export interface TheilSenLine {
  /** Median of all pair slopes, value unit per time unit. */
  readonly slope: number;
  /** Value at time 0: median(value) - slope x median(time). */
  readonly intercept: number;
  readonly slopeLow: number;
  readonly slopeHigh: number;
  readonly pairCount: number;
  /** The line passes through (median time, median value); use these for times far from 0 such as epoch times. */
  readonly medianTime: number;
  readonly medianValue: number;
}

/**
 * Theil-Sen line through points at any spacing: up to 29 % of them may be wild. Slope interval after Sen 1968 with
 * ties, the way scipy's `theilslopes` counts ranks (reference pack 8.2). The interval assumes independent samples:
 * thin readings first. `confidence` 0..1.
 * Takes n (n - 1) / 2 pair slopes: 500 points are a few milliseconds. Throws unless two times differ.
 */
export function theilSen(
  times: ArrayLike<number>,
  values: ArrayLike<number>,
  confidence = 0.95,
): TheilSenLine {
  requireFinite('times', times);
  requireFinite('values', values);
  if (times.length !== values.length)
    throw new RangeError(
      `values has ${values.length} entries; allowed is one for each of ${times.length} times`,
    );
  const slopes = pairSlopes(times, values);
  if (slopes.length === 0)
    throw new RangeError(
      `times holds ${times.length} points at one time; allowed is at least two different times`,
    );
  const [medianTime, medianValue] = [median(times), median(values)];
  const half = intervalHalfWidth(times, values, confidence);
  const last = slopes.length - 1;
  const slopeLow = selectRank(slopes, Math.max(Math.round((slopes.length - half) / 2) - 1, 0));
  const slopeHigh = selectRank(slopes, Math.min(Math.round((slopes.length + half) / 2), last));
  const slope = (selectRank(slopes, last >> 1) + selectRank(slopes, (last + 1) >> 1)) / 2;
  const intercept = medianValue - slope * medianTime;
  return { slope, intercept, slopeLow, slopeHigh, pairCount: slopes.length, medianTime, medianValue };
}

/** Value of the line at a time, with the values of the steepest and the flattest believable line through its centre. */
export function valueOnLine(line: TheilSenLine, time: number): { value: number; low: number; high: number } {
  const ahead = time - line.medianTime;
  const ends = [line.medianValue + line.slopeLow * ahead, line.medianValue + line.slopeHigh * ahead];
  return { value: line.medianValue + line.slope * ahead, low: Math.min(...ends), high: Math.max(...ends) };
}

/** Slopes of all pairs at different times. */
function pairSlopes(times: ArrayLike<number>, values: ArrayLike<number>): Float64Array {
  const slopes = new Float64Array((times.length * (times.length - 1)) / 2);
  let count = 0;
  for (let later = 1; later < times.length; later += 1) {
    for (let earlier = 0; earlier < later; earlier += 1) {
      const run = times[later]! - times[earlier]!;
      if (run !== 0) slopes[count++] = (values[later]! - values[earlier]!) / run;
    }
  }
  return slopes.subarray(0, count);
}

/** z times the standard deviation of Kendall's count: half the width of the interval, measured in ranks. */
function intervalHalfWidth(times: ArrayLike<number>, values: ArrayLike<number>, confidence: number): number {
  const variance = (countTerm(times.length) - tieCorrection(times) - tieCorrection(values)) / 18;
  return normalZForTwoSidedP(1 - confidence) * Math.sqrt(Math.max(variance, 0));
}
