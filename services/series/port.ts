export type { ForwardState, ForwardStatus } from './forward/status.ts';

import type { Reading } from '../../shared/readings/reading.ts';
import type { ChannelName } from '../../shared/yard/yard.ts';

/** A reading with its place in the order of storing; `sequence` only grows, so a cursor over it never misses a late one. */
export interface StoredReading extends Reading {
  readonly sequence: number;
}

export interface AppendResult {
  readonly stored: number;
  /**
   * Exact duplicates by (channel, time): dropped, the first one stored stays. Counted here too: readings older than what
   * retention has removed, because those can no longer be told from duplicates.
   */
  readonly duplicates: number;
  /** Sequence of the last reading now in the store. */
  readonly lastSequence: number;
}

export interface RangeQuery {
  readonly channel: ChannelName;
  readonly fromMs: number;
  /** Exclusive. */
  readonly toMs: number;
  /** At most this many points come back; minima and maxima of what was thinned out stay. Default: all. */
  readonly maxPoints?: number;
  /** Default `good`: only readings a pile may be judged by. `all` includes suspect and bad ones. */
  readonly quality?: 'good' | 'all';
}

export type RollupStep = 'hour' | 'day';

/** Roll-up over good readings of one clock hour or UTC day; kept right when late readings arrive. */
export interface Rollup {
  readonly startMs: number;
  /** Good readings. When 0, minimum, maximum and mean are NaN. */
  readonly count: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly mean: number;
  /** Readings of any quality, so that gaps and bad stretches can be told apart. */
  readonly countAll: number;
}

export interface Retention {
  /** Days raw readings are kept; null = for ever. Roll-ups are kept for ever. */
  readonly rawDays: number | null;
  /** Only readings stored up to this sequence are removed: those that come after it have not been forwarded yet. */
  readonly upToSequence?: number;
}

/** Time-series store. One behaviour suite (`tests/contract/seriesContract.ts`) defines every adapter. */
export interface SeriesStore {
  /** Resolves only when every reading is durable. Rejects as a whole: then nothing may be acknowledged. */
  append(readings: readonly Reading[]): Promise<AppendResult>;
  range(query: RangeQuery): Promise<StoredReading[]>;
  rollups(channel: ChannelName, step: RollupStep, fromMs: number, toMs: number): Promise<Rollup[]>;
  /** Latest reading (by time) of each channel, any quality, and latest good one. */
  latest(
    channels: readonly ChannelName[],
  ): Promise<Map<ChannelName, { last: StoredReading; lastGood: StoredReading | null }>>;
  /** Readings stored after the cursor, in order of storing, of all channels. */
  since(sequence: number, limit: number): Promise<StoredReading[]>;
  /** Channels known to the store. */
  channels(): Promise<ChannelName[]>;
  /** Applies retention; returns how many raw readings were removed. */
  trim(retention: Retention, nowMs: number): Promise<number>;
  close(): Promise<void>;
}
