/**
 * Robust statistics for probe readings. Each file of this folder holds one method: median and spread (here), quantile,
 * Hampel identifier, modified z, Theil-Sen line and when it reaches a level, Mann-Kendall trend, disagreement of two
 * channels, breaks in level and in rate. Sources: reference pack section 8 unless the file says otherwise.
 * A mean is never used to judge readings: one power-on value of 85 C would move it.
 */
import { requireCount, requireFinite } from './requireFinite.ts';

/** Turns a median absolute deviation into a standard deviation for normal data: 1 / (sqrt2 erfinv(1/2)). */
export const normalConsistency = 1.482602218505602;

/** Median; the mean of the two middle values for an even count. Input is not changed. Throws on none or non-finite. */
export function median(values: ArrayLike<number>): number {
  requireCount('values', values, 1);
  requireFinite('values', values);
  return medianOfSorted(Float64Array.from(values).sort());
}

/** Median of numbers already in rising order. */
export function medianOfSorted(sorted: ArrayLike<number>): number {
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Median of |value - centre|, in the unit of the values. */
export function medianAbsoluteDeviation(values: ArrayLike<number>, centre: number = median(values)): number {
  return median(Float64Array.from(values, (value) => Math.abs(value - centre)));
}

/** Standard deviation estimated from the median absolute deviation: up to half the values may be wild. */
export function robustSpread(values: ArrayLike<number>, centre: number = median(values)): number {
  return normalConsistency * medianAbsoluteDeviation(values, centre);
}
