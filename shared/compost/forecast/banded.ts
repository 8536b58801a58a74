import { quantileOfSorted } from '../../statistics/quantile.ts';

/** One figure with its 80 % band (10th, 50th, 90th percentile). */
export interface Banded {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** 10th, 50th and 90th percentile. */
export function banded(values: readonly number[]): Banded {
  const sorted = Float64Array.from(values).sort();
  return {
    low: quantileOfSorted(sorted, 0.1),
    middle: quantileOfSorted(sorted, 0.5),
    high: quantileOfSorted(sorted, 0.9),
  };
}
