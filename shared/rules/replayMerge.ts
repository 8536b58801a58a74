import type { Quality, QualityReason } from '../readings/reading.ts';
import type { PileSample } from './pileSubject.ts';
import { type Past, type PastChannel, qualityByFlag, reasonByFlag } from './replayPast.ts';

/** A sample that is filled again and again: judgement copies what it needs and keeps none. */
interface PooledSample {
  placementId: string;
  timeMs: number;
  value: number;
  quality: Quality;
  reason: QualityReason | null;
}

/** Hands out a past's samples in time order, a bounded number at a time, in objects that are used again. */
export interface MergedPast {
  /** The next samples, never cut inside an instant; empty at the end. Good until the next call. */
  next(): readonly PileSample[];
  /** Samples handed out so far. */
  readonly done: number;
}

/** Samples handed out at a time: enough to make the call cheap, few enough to stay in the processor's cache. */
const batchSize = 2048;

/** One channel's columns and how far they have been handed out. */
interface Head {
  readonly channel: PastChannel;
  row: number;
  /** Time of that row; infinite at the end. */
  nextMs: number;
}

/** Merges the columns by time; equal times in the order of the channels, as the store's own merge does. */
export function mergePast(past: Past): MergedPast {
  const heads = past.channels.map((channel): Head => ({ channel, row: 0, nextMs: timeAt(channel, 0) }));
  const pool: PooledSample[] = [];
  const batch: PooledSample[] = [];
  let done = 0;

  function take(head: Head): void {
    const { channel, row } = head;
    const sample = pool[batch.length] ?? emptySample(pool, batch.length);
    sample.placementId = channel.placementId;
    sample.timeMs = head.nextMs;
    sample.value = channel.values[row]!;
    const flag = channel.quality[row]!;
    sample.quality = qualityByFlag[flag] ?? 'bad';
    // Nobody asks why a good reading is good, and nearly all are.
    sample.reason = flag === 0 || channel.reasons === undefined ? null : reasonByFlag[channel.reasons[row]!]!;
    batch.push(sample);
    head.row = row + 1;
    head.nextMs = timeAt(channel, head.row);
  }

  return {
    get done() {
      return done;
    },
    next() {
      batch.length = 0;
      while (batch.length < batchSize) {
        let atMs = Number.POSITIVE_INFINITY;
        for (const head of heads) if (head.nextMs < atMs) atMs = head.nextMs;
        if (atMs === Number.POSITIVE_INFINITY) break;
        for (const head of heads) while (head.nextMs === atMs) take(head);
      }
      done += batch.length;
      return batch;
    },
  };
}

function timeAt({ timesMs }: PastChannel, row: number): number {
  return row < timesMs.length ? timesMs[row]! : Number.POSITIVE_INFINITY;
}

function emptySample(pool: PooledSample[], place: number): PooledSample {
  const sample: PooledSample = { placementId: '', timeMs: 0, value: 0, quality: 'good', reason: null };
  pool[place] = sample;
  return sample;
}
