import { requireFinite } from './requireFinite.ts';
import { segmentFit } from './segmentFit.ts';

export interface ChangePoint {
  /** First entry after the change. */
  readonly index: number;
  /** What held before and after: mean level, or slope per entry. */
  readonly before: number;
  readonly after: number;
  /** Squared error that the change explains, 0..1 of what was left without it. */
  readonly explained: number;
  /** How much better (Bayesian information criterion) than no change; above 10 is strong evidence. */
  readonly evidence: number;
}

export interface ChangeOptions {
  /** Fewest entries on each side of a change. */
  readonly leastEntries: number;
  /** Resolution of the values: errors smaller than its rounding noise are not believed. */
  readonly resolution: number;
  /** Evidence needed before a change is reported. */
  readonly leastEvidence: number;
}

const defaults: ChangeOptions = { leastEntries: 4, resolution: 0, leastEvidence: 10 };

/**
 * The one place where the mean of evenly spaced values (daily medians) changes most, by least squares: the same place
 * where the cumulative sum of departures peaks. `null` when there is none worth believing.
 * Assumes independent errors. Method: standard least-squares segmentation scored by BIC; no published source here.
 */
export function levelChange(
  values: ArrayLike<number>,
  options: Partial<ChangeOptions> = {},
): ChangePoint | null {
  const fit = segmentFit(values);
  const mean = (from: number, to: number) => {
    let sum = 0;
    for (let index = from; index < to; index += 1) sum += values[index]!;
    return sum / (to - from);
  };
  return strongestChange(values, options, 2, fit.levelError, mean);
}

/**
 * The one place where the RATE of evenly spaced values changes: two straight lines against one. Settling of a pile
 * level that ends, or a fall that turns into a plateau. `before` and `after` are slopes per entry.
 */
export function rateChange(
  values: ArrayLike<number>,
  options: Partial<ChangeOptions> = {},
): ChangePoint | null {
  const fit = segmentFit(values);
  const error = (from: number, to: number) => fit.line(from, to).error;
  return strongestChange(values, options, 3, error, (from, to) => fit.line(from, to).slope);
}

function strongestChange(
  values: ArrayLike<number>,
  options: Partial<ChangeOptions>,
  extraParameters: number,
  errorOf: (from: number, to: number) => number,
  describe: (from: number, to: number) => number,
): ChangePoint | null {
  const { leastEntries, resolution, leastEvidence } = { ...defaults, ...options };
  requireFinite('values', values);
  const count = values.length;
  const floor = (count * Math.max(resolution, 1e-9) ** 2) / 12;
  const whole = errorOf(0, count) + floor;
  let best = { index: 0, error: Number.POSITIVE_INFINITY };
  for (let index = leastEntries; index <= count - leastEntries; index += 1) {
    const error = errorOf(0, index) + errorOf(index, count) + floor;
    if (error < best.error) best = { index, error };
  }
  const evidence = count * Math.log(whole / best.error) - extraParameters * Math.log(count);
  if (!(best.index > 0 && evidence >= leastEvidence)) return null;
  const { index } = best;
  const [before, after] = [describe(0, index), describe(index, count)];
  return { index, before, after, explained: 1 - best.error / whole, evidence };
}
