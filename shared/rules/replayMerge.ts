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

/** Merges the columns by time; equal times in the order of the channels, as the store's own merge does. */
export function mergePast(past: Past): MergedPast {
  const { channels } = past;
  const heads = new Uint32Array(channels.length);
  const pool: PooledSample[] = [];
  const batch: PooledSample[] = [];
  let done = 0;

  function put(channel: PastChannel, row: number): void {
    const sample = pool[batch.length] ?? {
      placementId: '',
      timeMs: 0,
      value: 0,
      quality: 'good',
      reason: null,
    };
    pool[batch.length] = sample;
    sample.placementId = channel.placementId;
    sample.timeMs = channel.timesMs[row]!;
    sample.value = channel.values[row]!;
    sample.quality = qualityByFlag[channel.quality[row]!] ?? 'bad';
    sample.reason = reasonByFlag[channel.reasons?.[row] ?? 0] ?? null;
    batch.push(sample);
  }

  return {
    get done() {
      return done;
    },
    next() {
      batch.length = 0;
      while (batch.length < batchSize) {
        const atMs = earliest(channels, heads);
        if (atMs === Number.POSITIVE_INFINITY) break;
        for (let index = 0; index < channels.length; index += 1) {
          const channel = channels[index]!;
          for (let row = heads[index]!; channel.timesMs[row] === atMs; row += 1) {
            put(channel, row);
            heads[index] = row + 1;
          }
        }
      }
      done += batch.length;
      return batch;
    },
  };
}

function earliest(channels: readonly PastChannel[], heads: Uint32Array): number {
  let best = Number.POSITIVE_INFINITY;
  for (let index = 0; index < channels.length; index += 1) {
    const { timesMs } = channels[index]!;
    const row = heads[index]!;
    if (row < timesMs.length && timesMs[row]! < best) best = timesMs[row]!;
  }
  return best;
}
