import type { Reading } from './reading.ts';

/** How long an earlier or later reading says something about this one; a longer silence counts as a gap. Ours. */
export const contextMs = 3 * 3_600_000;

/** Number of readings in a time-ordered history that are earlier than a time: the place where it would go. */
export function countBefore(history: readonly Reading[], timeMs: number): number {
  const last = history.at(-1);
  if (last === undefined || last.timeMs < timeMs) return history.length;
  let low = 0;
  let high = history.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (history[middle]!.timeMs < timeMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Latest reading before a time, and not longer before than `contextMs`, that passes a test; null when there is none. */
export function latestBefore(
  history: readonly Reading[],
  timeMs: number,
  accepts: (reading: Reading) => boolean,
): Reading | null {
  for (let index = countBefore(history, timeMs) - 1; index >= 0; index--) {
    const reading = history[index]!;
    if (reading.timeMs < timeMs - contextMs) return null;
    if (accepts(reading)) return reading;
  }
  return null;
}

/** Reading nearest to a time on either side, within `withinMs`, that passes a test; null when there is none. */
export function nearestTo(
  history: readonly Reading[],
  timeMs: number,
  withinMs: number,
  accepts: (reading: Reading) => boolean,
): Reading | null {
  let nearest: Reading | null = null;
  const place = countBefore(history, timeMs);
  const distance = (reading: Reading) => Math.abs(reading.timeMs - timeMs);
  const consider = (reading: Reading): boolean => {
    if (distance(reading) > withinMs) return true;
    if (!accepts(reading)) return false;
    if (nearest === null || distance(reading) < distance(nearest)) nearest = reading;
    return true;
  };
  for (let index = place - 1; index >= 0 && !consider(history[index]!); index--);
  for (let index = place; index < history.length && !consider(history[index]!); index++);
  return nearest;
}

export function isNotBad(reading: Reading): boolean {
  return reading.quality !== 'bad';
}

export function isGood(reading: Reading): boolean {
  return reading.quality === 'good';
}
