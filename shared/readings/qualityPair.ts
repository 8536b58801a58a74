import { countBefore, isNotBad, nearestTo } from './qualityContext.ts';
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
  const differs = (reading: Pick<Reading, 'timeMs' | 'value'>): boolean => {
    const other = nearestTo(pair.history, reading.timeMs, sameTimeMs, isNotBad);
    return other !== null && Math.abs(reading.value - other.value) > tolerance;
  };
  let count = differs(candidate) ? 1 : 0;
  for (
    let index = countBefore(history, candidate.timeMs) - 1;
    index >= 0 && count > 0 && count < inARow;
    index--
  ) {
    const reading = history[index]!;
    if (isNotBad(reading)) count = differs(reading) ? count + 1 : 0;
  }
  return count >= inARow;
}
