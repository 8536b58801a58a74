import { countBefore, isNotBad } from './qualityContext.ts';
import type { QualityInput } from './qualityInput.ts';
import type { Reading } from './reading.ts';

const hourMs = 3_600_000;
/** Fewer readings than this in the whole stretch do not show that a channel stands still. Ours. */
const leastReadings = 6;

/**
 * Whether a channel has not moved beyond its resolution for hours while a neighbour has. A pile that is simply steady
 * has steady neighbours too. Looks back only until the first reading that differs, which is usually the last one.
 */
export function isStuck({ candidate, history, neighbours, sensor }: QualityInput): boolean {
  if (sensor.stuckAfterHours === null || neighbours.length === 0) return false;
  const fromMs = candidate.timeMs - sensor.stuckAfterHours * hourMs;
  if (!hasStoodStill(history, candidate.value, fromMs, candidate.timeMs, sensor.resolution)) return false;
  return neighbours.some(
    (neighbour) => movement(neighbour.history, fromMs, candidate.timeMs) >= sensor.neighbourMove,
  );
}

function hasStoodStill(
  history: readonly Reading[],
  value: number,
  fromMs: number,
  toMs: number,
  resolution: number,
): boolean {
  let least = value;
  let most = value;
  let count = 1;
  for (let index = countBefore(history, toMs) - 1; index >= 0; index--) {
    const reading = history[index]!;
    if (!isNotBad(reading)) continue;
    least = Math.min(least, reading.value);
    most = Math.max(most, reading.value);
    count++;
    // A hair more than the resolution, which binary fractions cannot always hold.
    if (most - least > resolution * 1.001) return false;
    if (reading.timeMs <= fromMs) return count >= leastReadings;
  }
  // The history does not reach back far enough to say.
  return false;
}

function movement(history: readonly Reading[], fromMs: number, toMs: number): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let index = countBefore(history, toMs + 1) - 1; index >= 0; index--) {
    const reading = history[index]!;
    if (reading.timeMs < fromMs) break;
    if (reading.quality !== 'good') continue;
    least = Math.min(least, reading.value);
    most = Math.max(most, reading.value);
  }
  return most - least;
}
