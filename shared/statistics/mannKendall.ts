import { twoSidedNormalP } from './normal.ts';
import { requireCount, requireFinite } from './requireFinite.ts';
import { countTerm, tieCorrection } from './ties.ts';

export interface MannKendall {
  /** Rising pairs minus falling pairs. */
  readonly s: number;
  readonly variance: number;
  /** s as a share of all pairs, -1 (always falling) to 1. */
  readonly tau: number;
  readonly z: number;
  /** Two-sided p value of "no trend". */
  readonly p: number;
}

/**
 * Mann-Kendall trend test of values in time order, corrected for ties (reference pack 8.3; Mann 1945, Kendall 1975).
 * It assumes independent samples: give it hourly or daily medians, never raw five-minute readings, or p is far too
 * small. Throws on fewer than two values.
 */
export function mannKendall(values: ArrayLike<number>): MannKendall {
  requireCount('values', values, 2);
  requireFinite('values', values);
  const count = values.length;
  const s = risingMinusFalling(values);
  const variance = (countTerm(count) - tieCorrection(values)) / 18;
  const z = variance > 0 ? (s - Math.sign(s)) / Math.sqrt(variance) : 0;
  return { s, variance, tau: (2 * s) / (count * (count - 1)), z, p: twoSidedNormalP(z) };
}

function risingMinusFalling(values: ArrayLike<number>): number {
  let s = 0;
  for (let later = 1; later < values.length; later += 1) {
    for (let earlier = 0; earlier < later; earlier += 1) s += Math.sign(values[later]! - values[earlier]!);
  }
  return s;
}
