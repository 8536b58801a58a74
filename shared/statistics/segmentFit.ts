/** Sums over a series that give the squared error of a mean or a straight line over any stretch of it at once. */
export interface SegmentFit {
  /** Squared error around the mean of entries from..to (exclusive). */
  readonly levelError: (from: number, to: number) => number;
  /** Slope (per entry) and squared error of the least-squares line through entries from..to (exclusive). */
  readonly line: (from: number, to: number) => { readonly slope: number; readonly error: number };
}

/** Prepares running sums so that each later question costs the same whatever its length. Values are centred first. */
export function segmentFit(values: ArrayLike<number>): SegmentFit {
  const count = values.length;
  const centre = values[count >> 1] ?? 0;
  const [sum, square, product] = [0, 1, 2].map(() => new Float64Array(count + 1)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let index = 0; index < count; index += 1) {
    const value = values[index]! - centre;
    sum[index + 1] = sum[index]! + value;
    square[index + 1] = square[index]! + value * value;
    product[index + 1] = product[index]! + value * index;
  }
  const levelError = (from: number, to: number) =>
    Math.max(square[to]! - square[from]! - (sum[to]! - sum[from]!) ** 2 / (to - from), 0);
  const line = (from: number, to: number) => {
    const length = to - from;
    const meanTime = (from + to - 1) / 2;
    const timeSquares = (length * (length * length - 1)) / 12;
    const covariance = product[to]! - product[from]! - meanTime * (sum[to]! - sum[from]!);
    const slope = timeSquares > 0 ? covariance / timeSquares : 0;
    return { slope, error: Math.max(levelError(from, to) - slope * covariance, 0) };
  };
  return { levelError, line };
}
