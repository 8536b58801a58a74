/** Shortest and longest wait between two attempts. */
const firstWaitMs = 5_000;
const longestWaitMs = 15 * 60_000;

/**
 * Wait before the next attempt: doubles with every failure up to 15 minutes, spread over the upper half of that span so
 * that many waiting messages do not return to a recovering gateway at one instant.
 * @param failures attempts that failed so far, 1 or more
 * @param random 0..1
 */
export function backoffMs(failures: number, random: number): number {
  const span = Math.min(longestWaitMs, firstWaitMs * 2 ** (failures - 1));
  return Math.round(span / 2 + (span / 2) * random);
}
