import { median, robustSpread } from './median.ts';

/** What counts as too much, in the unit of the values. */
export interface PairLimits {
  /** Largest steady difference allowed, beyond what the positions explain. */
  readonly bias: number;
  /** Largest scatter (as a standard deviation) of the difference allowed. */
  readonly spread: number;
  /** Fewest pairs worth judging. */
  readonly leastPairs: number;
}

export type PairVerdict = 'too-few' | 'agree' | 'bias' | 'noise' | 'bias-and-noise';

export interface PairDisagreement {
  /** Median of first minus second; `null` without pairs. */
  readonly bias: number | null;
  /** Robust standard deviation of the difference; `null` without pairs. */
  readonly spread: number | null;
  readonly pairCount: number;
  readonly verdict: PairVerdict;
}

/**
 * Compares two channels that should agree, value by value at the same times (gaps are `null` or NaN and are left out).
 * A steady difference is a bias (calibration, position); a scattered one is noise (wiring, a failing sensor). A few
 * wild readings move neither. The bias counts only beyond twice its own standard error (1.2533 spread / sqrt n).
 */
export function pairDisagreement(
  first: ArrayLike<number | null>,
  second: ArrayLike<number | null>,
  limits: PairLimits,
): PairDisagreement {
  if (first.length !== second.length)
    throw new RangeError(
      `second has ${second.length} entries; allowed is ${first.length}, one for each of first`,
    );
  const differences = differencesOf(first, second);
  const pairCount = differences.length;
  if (pairCount === 0) return { bias: null, spread: null, pairCount, verdict: 'too-few' };
  const bias = median(differences);
  const spread = robustSpread(differences, bias);
  if (pairCount < limits.leastPairs) return { bias, spread, pairCount, verdict: 'too-few' };
  const certainBias = Math.abs(bias) - (2 * 1.2533 * spread) / Math.sqrt(pairCount);
  return { bias, spread, pairCount, verdict: verdictOf(certainBias > limits.bias, spread > limits.spread) };
}

function verdictOf(biased: boolean, noisy: boolean): PairVerdict {
  if (biased) return noisy ? 'bias-and-noise' : 'bias';
  return noisy ? 'noise' : 'agree';
}

function differencesOf(first: ArrayLike<number | null>, second: ArrayLike<number | null>): number[] {
  return Array.from(first, (value, index) => (value ?? Number.NaN) - (second[index] ?? Number.NaN)).filter(
    Number.isFinite,
  );
}
