import type { HourOfCore } from './longRunSums.ts';

/** Mean of one placed channel over a clock hour. */
export interface HourMean {
  readonly placementId: string;
  readonly mean: number;
}

/**
 * A clock hour of a pile known only by roll-ups, for the time before raw readings are read again. `core` is the hottest
 * core channel; null when none was heard.
 */
export interface PastHour {
  readonly startMs: number;
  readonly core: HourOfCore | null;
  readonly means: readonly HourMean[];
}

/** A roll-up of one placement; `count` is its good readings. */
export interface PlacementHour {
  readonly placementId: string;
  readonly isCore: boolean;
  readonly byHand?: boolean;
  readonly startMs: number;
  readonly count: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly mean: number;
}

/** Roll-ups of all placements of a pile, put together hour by hour in time order; hours without good readings are left out. */
export function pastHoursOf(hours: readonly PlacementHour[]): PastHour[] {
  const heard = hours.filter(({ count }) => count > 0).sort((a, b) => a.startMs - b.startMs);
  return [...Map.groupBy(heard, ({ startMs }) => startMs)].map(([startMs, together]) => ({
    startMs,
    core: hottestOf(together.filter(({ isCore }) => isCore)),
    means: together.map(({ placementId, mean }) => ({ placementId, mean })),
  }));
}

function hottestOf(cores: readonly PlacementHour[]): HourOfCore | null {
  if (cores.length === 0) return null;
  return cores.reduce((one, other) => (other.minimum > one.minimum ? other : one));
}
