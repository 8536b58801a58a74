import { Matrix } from 'ml-matrix';
import { expect, test } from 'vitest';
import { type Belief, learn, predict, triangleOf } from './unscented.ts';

const belief: Belief = {
  mean: Float64Array.from([1, 2]),
  covariance: new Matrix([
    [4, 1],
    [1, 2],
  ]),
};

test('for a linear model it is the plain Kalman filter', () => {
  const move = (state: Float64Array) => {
    const [a, b] = state as unknown as [number, number];
    state[0] = a + 0.5 * b;
    state[1] = 0.9 * b;
  };
  const after = predict(belief, move, Float64Array.from([0.1, 0.2]));
  const map = new Matrix([
    [1, 0.5],
    [0, 0.9],
  ]);
  const exact = map.mmul(belief.covariance).mmul(map.transpose());
  expect(after.mean[0]).toBeCloseTo(2, 12);
  expect(after.mean[1]).toBeCloseTo(1.8, 12);
  expect(after.covariance.get(0, 0)).toBeCloseTo(exact.get(0, 0) + 0.1, 12);
  expect(after.covariance.get(0, 1)).toBeCloseTo(exact.get(0, 1), 12);
  expect(after.covariance.get(1, 1)).toBeCloseTo(exact.get(1, 1) + 0.2, 12);
});

test('a reading pulls by how sure each side is, and what hangs together moves with it', () => {
  const after = learn(belief, 0, 5, 4);
  expect(after.mean[0]).toBeCloseTo(3, 12);
  expect(after.mean[1]).toBeCloseTo(2.5, 12);
  expect(after.covariance.get(0, 0)).toBeCloseTo(2, 12);
  expect(after.surprise).toBeCloseTo(4 / Math.sqrt(8), 12);
});

test('the triangle squares back to the covariance, and a hopeless matrix is refused', () => {
  const triangle = triangleOf(belief.covariance);
  expect(triangle.mmul(triangle.transpose()).get(0, 1)).toBeCloseTo(1, 9);
  expect(() =>
    triangleOf(
      new Matrix([
        [-1e9, 0],
        [0, 1],
      ]),
    ),
  ).toThrow(/positive definite/);
});
