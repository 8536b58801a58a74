import { expect } from 'vitest';

/** Fails unless `actual` lies within a RELATIVE tolerance of `expected`: how the pack's tables state theirs. */
export function expectNear(actual: number | null, expected: number, tolerance: number): void {
  expect(actual).not.toBeNull();
  const allowed = Math.abs(expected) * tolerance;
  expect(Math.abs(actual! - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(allowed);
}

/** Fails unless `actual`, rounded to that many significant figures, is what the pack prints (its tolerance is finer). */
export function expectFigures(actual: number | null, printed: number, figures: number): void {
  expect(actual).not.toBeNull();
  expect(Number(actual!.toPrecision(figures)), `${actual} against ${printed}`).toBe(printed);
}
