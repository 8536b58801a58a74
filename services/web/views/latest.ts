import type { LatestReading, MeasuredCelsius } from '../../../shared/api/types.ts';
import type { ChannelName, Placement } from '../../../shared/yard/yard.ts';
import type { SeriesStore, StoredReading } from '../../series/port.ts';

export type LatestByChannel = Awaited<ReturnType<SeriesStore['latest']>>;

/** Placements standing at a time. */
export function standingAt(placements: readonly Placement[], atMs: number): Placement[] {
  return placements.filter(({ fromMs, toMs }) => fromMs <= atMs && (toMs === null || toMs > atMs));
}

export function channelsOf(placements: readonly Placement[]): ChannelName[] {
  return [...new Set(placements.map((placement) => placement.channel))];
}

/** Latest good reading of a placement, only if it was taken while the channel stood there. */
export function lastGoodOf(placement: Placement, latest: LatestByChannel): StoredReading | null {
  return inside(placement, latest.get(placement.channel)?.lastGood ?? null);
}

export function lastOf(placement: Placement, latest: LatestByChannel): StoredReading | null {
  return inside(placement, latest.get(placement.channel)?.last ?? null);
}

function inside(placement: Placement, reading: StoredReading | null): StoredReading | null {
  return reading !== null && reading.timeMs >= placement.fromMs ? reading : null;
}

/** Newest good air temperature of the yard itself; null when it has no such sensor or it never spoke. */
export function yardAir(placements: readonly Placement[], latest: LatestByChannel): MeasuredCelsius | null {
  const readings = placements
    .filter(({ pileId, quantity }) => pileId === null && quantity === 'temperature')
    .map((placement) => lastGoodOf(placement, latest))
    .filter((reading) => reading !== null)
    .sort((a, b) => b.timeMs - a.timeMs);
  const newest = readings[0];
  return newest === undefined ? null : { celsius: newest.value, timeMs: newest.timeMs };
}

/** Time of the newest good reading of any of these placements; null when there is none. */
export function newestMs(placements: readonly Placement[], latest: LatestByChannel): number | null {
  let newest: number | null = null;
  for (const placement of placements) {
    const timeMs = lastGoodOf(placement, latest)?.timeMs;
    if (timeMs !== undefined && timeMs > (newest ?? 0)) newest = timeMs;
  }
  return newest;
}

export function readingView(reading: StoredReading | null): LatestReading | null {
  if (reading === null) return null;
  const { timeMs, value, quality, reason } = reading;
  return { timeMs, value, quality, reason };
}
