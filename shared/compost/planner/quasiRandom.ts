import { normalZForTwoSidedP } from '../../statistics/normal.ts';

/** First primes: one base for each dimension of a point. */
const bases = [2, 3, 5, 7, 11, 13, 17, 19] as const;

/**
 * The `index`-th point (from 1) of the Halton sequence in eight dimensions, each in 0..1 without the ends: spreads few
 * draws evenly and gives the same ones every time, where dice would need many.
 */
export function quasiRandom(index: number): number[] {
  // The first points of the higher bases march in step; leaving some out is usual.
  return bases.map((base) => radicalInverse(index + 20, base));
}

function radicalInverse(index: number, base: number): number {
  let [left, share, sum] = [index, 1 / base, 0];
  while (left > 0) {
    sum += (left % base) * share;
    left = Math.floor(left / base);
    share /= base;
  }
  return sum;
}

/** Standard normal value below which a share (between 0 and 1) of all values lies. */
export function normalOf(share: number): number {
  if (share === 0.5) return 0;
  return share < 0.5 ? -normalZForTwoSidedP(2 * share) : normalZForTwoSidedP(2 * (1 - share));
}
