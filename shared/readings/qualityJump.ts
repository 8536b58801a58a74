import { medianOfSorted, normalConsistency } from '../statistics/median.ts';
import { contextMs, countBefore, isGood, isNotBad, latestBefore } from './qualityContext.ts';
import type { QualityInput } from './qualityInput.ts';
import type { QualityReason, Reading } from './reading.ts';

const fiveMinutesMs = 5 * 60_000;
/** Readings compared with in the Hampel test; with fewer than the least the spread means nothing. */
const mostCompared = 6;
const leastCompared = 4;
/** Usual threshold of the Hampel identifier, in spreads. */
const threshold = 3;

/**
 * A change no pile can make, or a value far from those around it. Both are excused from when the journal says somebody
 * opened the pile or handled the probe. The rate is taken against the last good reading, so that one wild value does
 * not make the honest one after it look wild too; the allowance grows with time, so a real new level is soon believed.
 */
export function jumpFault(input: QualityInput): QualityReason | null {
  const { candidate, sensor, handledSinceMs, history } = input;
  if (handledSinceMs !== null && candidate.timeMs >= handledSinceMs) return null;
  const lastGood = latestBefore(history, candidate.timeMs, isGood);
  const step = lastGood === null ? null : Math.abs(candidate.value - lastGood.value);
  // The usual case: a step too small to matter is neither fast nor far, and nothing more need be looked at.
  if (step !== null && step <= sensor.noiseFloor) return null;
  if (step !== null && sensor.maxRatePerFiveMinutes !== null) {
    const spans = Math.max(1, (candidate.timeMs - lastGood!.timeMs) / fiveMinutesMs);
    if (step > sensor.maxRatePerFiveMinutes * spans) return 'impossible-rate';
  }
  return sensor.noiseFloor > 0 && isOutlier(input) ? 'outlier' : null;
}

/** Hampel identifier for one value against its nearest readings, with the sensor's accuracy as the least spread. */
function isOutlier({ candidate, history, sensor }: QualityInput): boolean {
  const around = nearestValues(history, candidate.timeMs);
  if (around.length < leastCompared) return false;
  const window = Float64Array.of(candidate.value, ...around).sort();
  const centre = medianOfSorted(window);
  const deviations = window.map((value) => Math.abs(value - centre)).sort();
  const spread = Math.max(normalConsistency * medianOfSorted(deviations), sensor.noiseFloor);
  return Math.abs(candidate.value - centre) > threshold * spread;
}

/** Values on both sides of a time, the nearer side first to be used up; live data has none later. */
function nearestValues(history: readonly Reading[], timeMs: number): number[] {
  const values: number[] = [];
  let before = countBefore(history, timeMs) - 1;
  let after = before + 1;
  while (values.length < mostCompared) {
    const distanceBefore = timeMs - (history[before]?.timeMs ?? Number.NEGATIVE_INFINITY);
    const distanceAfter = (history[after]?.timeMs ?? Number.POSITIVE_INFINITY) - timeMs;
    if (Math.min(distanceBefore, distanceAfter) > contextMs) break;
    const reading = distanceBefore <= distanceAfter ? history[before--]! : history[after++]!;
    if (isNotBad(reading)) values.push(reading.value);
  }
  return values;
}
