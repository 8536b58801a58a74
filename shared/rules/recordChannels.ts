import type { ZoneSeries } from '../compost/sanitisation/series.ts';
import type { Sample } from '../readings/reading.ts';
import type { PlacedChannel } from './channelTrack.ts';

const hourMs = 3_600_000;

/**
 * The temperature channels a heat record rests on. What people read by hand makes the record only where no probe stood
 * in the core; beside one it would only leave holes. A zone from which every probe has been taken away by then is asked
 * for no longer; the core always is.
 */
export function recordChannels<T extends { readonly placed: PlacedChannel }>(
  channels: readonly T[],
  nowMs: number,
): T[] {
  const probes = channels.filter(({ placed }) => placed.byHand !== true);
  const recorded = probes.some(({ placed }) => placed.placement.position === 'core') ? probes : channels;
  const standing = new Set(
    recorded.filter(({ placed }) => standsAt(placed, nowMs)).map(({ placed }) => placed.placement.position),
  );
  return recorded.filter(
    ({ placed: { placement } }) => standing.has(placement.position) || placement.position === 'core',
  );
}

const standsAt = ({ placement: { fromMs, toMs } }: PlacedChannel, atMs: number): boolean =>
  fromMs <= atMs && (toMs === null || atMs < toMs);

/** One channel's hours as the rules read them: each hour's mean as an instant in its middle. */
export function zoneSeriesOf(
  { placement, maxAgeMinutes, byHand }: PlacedChannel,
  samples: readonly Sample[],
): ZoneSeries {
  return {
    position: placement.position,
    channel: placement.channel,
    samples,
    represents: 'instants',
    // A reading speaks for four of its probe's gaps; by hand it is a daily round.
    intervalMs: byHand ? 24 * hourMs : Math.max(hourMs, (maxAgeMinutes * 60_000) / 4),
    fromMs: byHand ? null : placement.fromMs,
    toMs: placement.toMs,
  };
}
