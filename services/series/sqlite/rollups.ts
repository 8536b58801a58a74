import type { DatabaseSync } from 'node:sqlite';
import type { RollupStep } from '../port.ts';

export const stepMs: Readonly<Record<RollupStep, number>> = { hour: 3_600_000, day: 86_400_000 };

interface Delta {
  readonly step: RollupStep;
  readonly channel: number;
  readonly startMs: number;
  count: number;
  minimum: number;
  maximum: number;
  sum: number;
  countAll: number;
}

/** What one group adds to the roll-ups it touches. */
export interface RollupDeltas {
  add(channel: number, timeMs: number, value: number, isGood: boolean): void;
  all(): Iterable<Delta>;
}

/**
 * Collects what a group adds, one entry per touched hour and day. A reading is never changed once stored and never
 * stored twice, so adding is exact for counts, minima and maxima however late it comes, and works where the raw
 * readings of that hour are already gone; sums differ from a recount only in the last bits of a double.
 */
export function makeRollupDeltas(): RollupDeltas {
  const deltas = new Map<string, Delta>();
  const steps = Object.entries(stepMs) as [RollupStep, number][];
  return {
    add(channel, timeMs, value, isGood) {
      for (const [step, length] of steps) {
        const startMs = Math.floor(timeMs / length) * length;
        const key = `${step}${channel}:${startMs}`;
        const delta = deltas.get(key) ?? emptyDelta(step, channel, startMs);
        deltas.set(key, delta);
        count(delta, value, isGood);
      }
    },
    all: () => deltas.values(),
  };
}

function emptyDelta(step: RollupStep, channel: number, startMs: number): Delta {
  return { step, channel, startMs, count: 0, minimum: Infinity, maximum: -Infinity, sum: 0, countAll: 0 };
}

function count(delta: Delta, value: number, isGood: boolean): void {
  delta.countAll++;
  if (!isGood) return;
  delta.count++;
  delta.sum += value;
  if (value < delta.minimum) delta.minimum = value;
  if (value > delta.maximum) delta.maximum = value;
}

/** Prepares adding deltas to the stored roll-ups; call inside the transaction that stores the readings. */
export function addToRollups(database: DatabaseSync): (deltas: RollupDeltas) => void {
  // SQLite's two-argument min() is null when either side is, hence the coalesce: an hour may hold no good reading yet.
  const upsert = database.prepare(`
    INSERT INTO rollup (step, channel, start_ms, count, minimum, maximum, sum, count_all)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?)
    ON CONFLICT DO UPDATE SET
      count = count + excluded.count,
      minimum = min(coalesce(minimum, excluded.minimum), coalesce(excluded.minimum, minimum)),
      maximum = max(coalesce(maximum, excluded.maximum), coalesce(excluded.maximum, maximum)),
      sum = sum + excluded.sum,
      count_all = count_all + excluded.count_all`);
  return (deltas) => {
    for (const delta of deltas.all()) {
      const [minimum, maximum] = delta.count === 0 ? [null, null] : [delta.minimum, delta.maximum];
      upsert.run(
        delta.step,
        delta.channel,
        delta.startMs,
        delta.count,
        minimum,
        maximum,
        delta.sum,
        delta.countAll,
      );
    }
  };
}
