import { type Quality, type QualityReason, qualityReasons } from '../readings/reading.ts';
import type { PastHour } from './pastHour.ts';
import type { PileFacts } from './pileWindow.ts';

/**
 * One placement's readings as columns of equal length in time order: arrays of numbers as the API sends them, or typed
 * arrays. Values in canonical units (Celsius, fraction). Quality: 0 good, 1 suspect, 2 bad (`qualityFlags` of the API).
 */
export interface PastChannel {
  readonly placementId: string;
  readonly timesMs: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  readonly quality: ArrayLike<number>;
  /** Why a reading is not good: 0 unknown or none, else 1 + place in `qualityReasons`. Left out: unknown throughout. */
  readonly reasons?: ArrayLike<number>;
}

/** A stretch of a pile's past, ready to be judged by any limits. */
export interface Past {
  readonly facts: PileFacts;
  readonly channels: readonly PastChannel[];
  /** Hours before the columns begin, known by roll-ups, so that what is summed over the pile's life is right. */
  readonly hoursBefore?: readonly PastHour[];
  /** Judged up to here. */
  readonly toMs: number;
}

export const qualityByFlag: readonly Quality[] = ['good', 'suspect', 'bad'];

/** Reason by its number in a column; null for 0. */
export const reasonByFlag: readonly (QualityReason | null)[] = [null, ...qualityReasons];

/** The number of a reason in a column. */
export function flagOfReason(reason: QualityReason | null): number {
  return reason === null ? 0 : qualityReasons.indexOf(reason) + 1;
}

/** First and last reading of any channel; null when there is none. */
export function spanOf(past: Past): { readonly fromMs: number; readonly toMs: number } | null {
  let fromMs = Number.POSITIVE_INFINITY;
  let toMs = Number.NEGATIVE_INFINITY;
  for (const { timesMs } of past.channels) {
    if (timesMs.length === 0) continue;
    fromMs = Math.min(fromMs, timesMs[0]!);
    toMs = Math.max(toMs, timesMs[timesMs.length - 1]!);
  }
  return fromMs <= toMs ? { fromMs, toMs } : null;
}

/** Number of readings of all channels together. */
export function countReadings(past: Past): number {
  return past.channels.reduce((sum, channel) => sum + channel.timesMs.length, 0);
}
