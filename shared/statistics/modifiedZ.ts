import { median, medianAbsoluteDeviation } from './median.ts';

/** |modified z| above which a value is suspect (Iglewicz & Hoaglin 1993; NIST handbook eda35h). */
export const modifiedZLimit = 3.5;

/**
 * Modified z score of every value against the whole sample: 0.6745 (x - median) / MAD (reference pack 8.1).
 * `resolutionFloor` is the smallest deviation believed; when it is 0 and over half the values are the same, a value
 * that differs scores infinite and one that does not scores 0.
 */
export function modifiedZ(values: ArrayLike<number>, resolutionFloor = 0): number[] {
  const centre = median(values);
  const deviation = Math.max(medianAbsoluteDeviation(values, centre), resolutionFloor);
  return Array.from(values, (value) => (value === centre ? 0 : (0.6745 * (value - centre)) / deviation));
}
