/**
 * Sum over groups of equal values of g (g - 1) (2 g + 5): what ties take away from the variance of a rank count
 * (Mann-Kendall and the Theil-Sen interval share it). Groups of one contribute nothing.
 */
export function tieCorrection(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  let sum = 0;
  for (let start = 0; start < sorted.length; ) {
    let end = start + 1;
    while (end < sorted.length && sorted[end] === sorted[start]) end += 1;
    sum += countTerm(end - start);
    start = end;
  }
  return sum;
}

/** n (n - 1) (2 n + 5), the term of one group of n. */
export function countTerm(count: number): number {
  return count * (count - 1) * (2 * count + 5);
}
