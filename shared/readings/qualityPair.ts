import { isNotBad, nearestTo } from './qualityContext.ts';
import type { NeighbourChannel, QualityInput } from './qualityInput.ts';
import type { Reading } from './reading.ts';

/** Readings of a pair are compared when they are at most this far apart in time. */
const sameTimeMs = 15 * 60_000;
/** One difference may be a draught or a lump; this many in a row are a fault of one of the two. Ours. */
const inARow = 3;

/** Whether the channel has disagreed with a pair beyond the tolerance, now and in the readings just before. */
export function disagreesWithPair(input: QualityInput): boolean {
  const tolerance = input.sensor.pairTolerance;
  if (tolerance === null || input.pairs === undefined) return false;
  return input.pairs.some((pair) => disagrees(input, pair, tolerance));
}

function disagrees({ candidate, history }: QualityInput, pair: NeighbourChannel, tolerance: number): boolean {
  const partner = (timeMs: number) => nearestTo(pair.history, timeMs, sameTimeMs, isNotBad);
  const differs = (reading: Pick<Reading, 'timeMs' | 'value'>): boolean => {
    const other = partner(reading.timeMs);
    return other !== null && Math.abs(reading.value - other.value) > tolerance;
  };
  if (!differs(candidate)) return false;
  const earlier = history.filter((reading) => isNotBad(reading) && reading.timeMs < candidate.timeMs);
  const recent = earlier.slice(-(inARow - 1));
  return recent.length === inARow - 1 && recent.every(differs);
}
