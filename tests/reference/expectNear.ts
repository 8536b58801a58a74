import { expect } from 'vitest';

/** Fails unless `actual` lies within a RELATIVE tolerance of `expected`: how the pack's tables state theirs. */
export function expectNear(actual: number | null, expected: number, tolerance: number): void {
  expect(actual).not.toBeNull();
  const allowed = Math.abs(expected) * tolerance;
  expect(Math.abs(actual! - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(allowed);
}
