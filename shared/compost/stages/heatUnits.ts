import type { Sample } from '../../readings/reading.ts';
import { SegmentCursor } from '../sanitisation/segmentCursor.ts';
import type { ZoneSeries } from '../sanitisation/series.ts';
import type { ZoneWindow } from '../sanitisation/zones.ts';

const msPerHour = 3_600_000;
const msPerDay = 24 * msPerHour;

/** Time and heat above one temperature. */
export interface HeatAbove {
  readonly celsius: number;
  readonly hours: number;
  /** Integral of the excess, C day. */
  readonly areaCelsiusDays: number;
}

/** How much heat one channel saw. Only watched time counts; the holes are reported beside it. */
export interface HeatUnits {
  readonly watchedHours: number;
  readonly holeHours: number;
  readonly above: readonly HeatAbove[];
  /** Integral of core minus air where the core is warmer, C day, and the hours for which both were known. */
  readonly degreeDaysOverAir: number;
  readonly hoursWithAir: number;
}

export const heatUnitLevels: readonly number[] = [40, 55, 60, 65, 70];

/** Air changes slowly: a value may stand for a time this close to it (ours). */
const airHoldMs = 3 * msPerHour;

/**
 * Hours and area at or above each level, and degree-days over the air, of one series within a window (area above a
 * level: Mason and Milke 2005, from memory). Between two instants the temperature is taken to change evenly.
 */
export function heatUnits(
  series: ZoneSeries,
  air: readonly Sample[],
  window: ZoneWindow,
  levels: readonly number[] = heatUnitLevels,
): HeatUnits {
  const above = levels.map((celsius) => ({ celsius, hours: 0, areaCelsiusDays: 0 }));
  const airAt = nearestAir(air);
  let [watchedMs, degreeDaysOverAir, msWithAir] = [0, 0, 0];
  for (
    const cursor = new SegmentCursor(series, window.maximumGapMs);
    cursor.fromMs < window.toMs;
    cursor.advance()
  ) {
    const fromMs = Math.max(cursor.fromMs, window.fromMs);
    const lengthMs = Math.min(cursor.toMs, window.toMs) - fromMs;
    if (lengthMs <= 0) continue;
    watchedMs += lengthMs;
    for (const level of above) {
      const { share, meanExcess } = excessOver(level.celsius, cursor.lowest, cursor.highest);
      level.hours += (share * lengthMs) / msPerHour;
      level.areaCelsiusDays += (meanExcess * lengthMs) / msPerDay;
    }
    const airCelsius = airAt(fromMs + lengthMs / 2);
    if (airCelsius === null) continue;
    msWithAir += lengthMs;
    degreeDaysOverAir += (Math.max(0, cursor.mean - airCelsius) * lengthMs) / msPerDay;
  }
  const holeHours = Math.max(0, window.toMs - window.fromMs - watchedMs) / msPerHour;
  const hoursWithAir = msWithAir / msPerHour;
  return { watchedHours: watchedMs / msPerHour, holeHours, above, degreeDaysOverAir, hoursWithAir };
}

/** Share of an even change from `lowest` to `highest` spent at or above a level, and the mean excess over all of it. */
function excessOver(level: number, lowest: number, highest: number): { share: number; meanExcess: number } {
  if (lowest >= level) return { share: 1, meanExcess: (lowest + highest) / 2 - level };
  if (highest <= level) return { share: 0, meanExcess: 0 };
  const share = (highest - level) / (highest - lowest);
  return { share, meanExcess: (share * (highest - level)) / 2 };
}

/** The air sample nearest to a time, for times asked in rising order; null when none is near enough. */
function nearestAir(air: readonly Sample[]): (timeMs: number) => number | null {
  let at = 0;
  return (timeMs) => {
    const distance = (index: number) => Math.abs((air[index]?.timeMs ?? Number.POSITIVE_INFINITY) - timeMs);
    while (at + 1 < air.length && distance(at + 1) <= distance(at)) at += 1;
    return distance(at) <= airHoldMs ? air[at]!.value : null;
  };
}
