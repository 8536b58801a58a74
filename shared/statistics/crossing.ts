import type { TheilSenLine } from './theilSen.ts';

export interface Crossing {
  /** Time at which the line reaches the level, in the time unit of the line. */
  readonly at: number;
  /** Time by the steepest believable line. */
  readonly earliest: number;
  /** Time by the flattest believable line; infinite when that one never gets there. */
  readonly latest: number;
}

/**
 * When a rising line reaches a level from below, counted from where its centre is. `null` when the median slope does
 * not rise or the centre is already at or above the level. For a falling approach pass mirrored values.
 */
export function risingCrossing(line: TheilSenLine, level: number): Crossing | null {
  const distance = level - line.medianValue;
  if (distance <= 0 || line.slope <= 0) return null;
  const timeAt = (slope: number) =>
    slope > 0 ? line.medianTime + distance / slope : Number.POSITIVE_INFINITY;
  return { at: timeAt(line.slope), earliest: timeAt(line.slopeHigh), latest: timeAt(line.slopeLow) };
}
