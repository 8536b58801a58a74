/** Unscented Kalman filter (Julier & Uhlmann 1997) for a small state and one scalar reading at a time. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** What is believed of a state: its middle and how its parts vary together. */
export interface Belief {
  readonly mean: Float64Array;
  readonly covariance: Matrix;
}

/** Spread of the sigma points; 3 - n is the classic choice and keeps fourth moments for a normal. */
function spreadOf(length: number): number {
  return Math.max(1, 3 - length) + length;
}

/** Lower triangle L with L L' = covariance; a hair is added to the diagonal until it is positive. */
export function triangleOf(covariance: Matrix): Matrix {
  const tidy = covariance.clone().add(covariance.transpose()).mul(0.5);
  for (let hair = 0; hair < 12; hair += 1) {
    const decomposition = new CholeskyDecomposition(tidy);
    if (decomposition.isPositiveDefinite()) return decomposition.lowerTriangularMatrix;
    for (let index = 0; index < tidy.rows; index += 1)
      tidy.set(index, index, tidy.get(index, index) + 1e-9 * 10 ** hair);
  }
  throw new RangeError('covariance cannot be made positive definite');
}

/** Points about the mean that carry its covariance, with the weight of the first and of every other. */
function sigmaPoints({ mean, covariance }: Belief): { points: Float64Array[]; first: number; other: number } {
  const length = mean.length;
  const spread = spreadOf(length);
  const triangle = triangleOf(covariance);
  const points = [mean.slice()];
  for (let column = 0; column < length; column += 1) {
    for (const sign of [1, -1]) {
      points.push(mean.map((value, row) => value + sign * Math.sqrt(spread) * triangle.get(row, column)));
    }
  }
  return { points, first: (spread - length) / spread, other: 1 / (2 * spread) };
}

/** Mean and covariance of weighted points, with noise added. Plain arrays inside: this is the fit's hot loop. */
function weigh(points: readonly Float64Array[], first: number, other: number, noise: Float64Array): Belief {
  const length = noise.length;
  const mean = new Float64Array(length);
  points.forEach((point, index) => {
    const weight = index === 0 ? first : other;
    for (let row = 0; row < length; row += 1) mean[row]! += weight * point[row]!;
  });
  const rows = Array.from({ length }, () => new Float64Array(length));
  points.forEach((point, index) => {
    const weight = index === 0 ? first : other;
    for (let row = 0; row < length; row += 1) {
      const pull = weight * (point[row]! - mean[row]!);
      const into = rows[row]!;
      for (let column = 0; column < length; column += 1)
        into[column]! += pull * (point[column]! - mean[column]!);
    }
  });
  rows.forEach((row, index) => {
    row[index]! += noise[index]!;
  });
  return { mean, covariance: new Matrix(rows.map((row) => Array.from(row))) };
}

/**
 * Belief after the model has moved on. @param move changes a state in place.
 * @param noise variance added to each part of the state for what the model does not know.
 */
export function predict(belief: Belief, move: (state: Float64Array) => void, noise: Float64Array): Belief {
  const { points, first, other } = sigmaPoints(belief);
  for (const point of points) move(point);
  return weigh(points, first, other, noise);
}

/** Belief after a direct reading of one part of the state (a plain Kalman update: the reading is linear). */
export function learn(
  belief: Belief,
  part: number,
  reading: number,
  variance: number,
): Belief & { surprise: number } {
  const { mean, covariance } = belief;
  const expected = covariance.get(part, part) + variance;
  const error = reading - mean[part]!;
  const gain = Float64Array.from(mean, (_, row) => covariance.get(row, part) / expected);
  const updated = covariance.clone();
  for (let row = 0; row < mean.length; row += 1) {
    for (let column = 0; column < mean.length; column += 1) {
      updated.set(row, column, covariance.get(row, column) - gain[row]! * covariance.get(part, column));
    }
  }
  return {
    mean: mean.map((value, row) => value + gain[row]! * error),
    covariance: updated,
    surprise: error / Math.sqrt(expected),
  };
}
