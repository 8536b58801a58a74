import type { Sample } from '../../readings/reading.ts';
import type { ChannelName, Position } from '../../yard/yard.ts';

/**
 * One channel of a pile, `good` samples only, in time order. It is required to speak from `fromMs` until `toMs`
 * (its placement): silence in between is unknown and earns nothing, so a probe that dies must have its placement
 * ended by a person before the remaining ones may speak for the zone.
 */
export interface ZoneSeries {
  readonly position: Position;
  readonly channel: ChannelName;
  readonly samples: readonly Sample[];
  /** `instants`: a value at a moment. `means`: a mean over the `intervalMs` that begins at the sample's time. */
  readonly represents: 'instants' | 'means';
  /** How often the probe is meant to speak. */
  readonly intervalMs: number;
  readonly fromMs: number | null;
  readonly toMs: number | null;
}

/** A sample may come this much late before the time between is called a hole in the data (ours). */
const lateInstantFactor = 1.25;
const lateMeanFactor = 1.1;

/**
 * The longest time between two samples that still counts as watched. Between two instants up to `maximumGapMs` is
 * bridged (a compost core cannot cool and reheat in an hour); a mean speaks for its own interval only.
 */
export function longestWatchedMs(series: ZoneSeries, maximumGapMs: number): number {
  if (series.represents === 'means') return series.intervalMs * lateMeanFactor;
  return Math.max(maximumGapMs, series.intervalMs * lateInstantFactor);
}

/** True when the time between two samples is longer than the probe's own rhythm explains. */
export function isBridged(series: ZoneSeries, spacingMs: number): boolean {
  return spacingMs > series.intervalMs * lateInstantFactor;
}
