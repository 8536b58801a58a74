import { requireCount, requireFinite } from './requireFinite.ts';

/**
 * Value below which a share (0..1) of the values lies, interpolated between neighbours the way R (type 7) and numpy
 * do by default. Throws on no values, non-finite values or a share outside 0..1.
 */
export function quantile(values: ArrayLike<number>, share: number): number {
  requireCount('values', values, 1);
  requireFinite('values', values);
  return quantileOfSorted(Float64Array.from(values).sort(), share);
}

/** `quantile` of numbers already in rising order. */
export function quantileOfSorted(sorted: ArrayLike<number>, share: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`share is ${share}; allowed is 0 to 1`);
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}
