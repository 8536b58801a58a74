import { median } from '../statistics/median.ts';
import type { ChannelName } from '../yard/yard.ts';

/** One temperature channel with what it said lately, oldest first. */
export interface WatchedChannel {
  readonly channel: ChannelName;
  readonly points: readonly { readonly timeMs: number; readonly value: number }[];
}

/** One channel that stands out, with how far it moved; or none; or more than one, so that nothing can be told. */
export type Moved =
  | { readonly kind: 'none' }
  | { readonly kind: 'one'; readonly channel: ChannelName; readonly changeCelsius: number }
  | { readonly kind: 'several'; readonly channels: readonly ChannelName[] };

/** A warm hand moves a sensor by several degrees within a minute; a cloud over the bench does not move one alone (ours). */
export const leastChangeCelsius = 1;
/** The one in the hand must have moved this many times as far as any other (ours). */
const standsOutTimes = 2;
/** A sensor that wavers by itself must move this many times its own wavering (ours). */
const noiseTimes = 6;
const baselinePoints = 5;

/**
 * Which of some channels was just warmed (or cooled) by a person, since `sinceMs`. Each is compared with what it said
 * before, or first after, that time. Another sensor at the same spot may follow; then both are named and the person holds
 * one alone.
 */
export function justMoved(channels: readonly WatchedChannel[], sinceMs: number): Moved {
  const changes = channels
    .flatMap(({ channel, points }) => {
      const change = changeOf(points, sinceMs);
      return change === null ? [] : [{ channel, change, size: Math.abs(change) }];
    })
    .sort((one, other) => other.size - one.size);
  const [first] = changes;
  if (first === undefined) return { kind: 'none' };
  const close = changes.filter(({ size }) => size * standsOutTimes > first.size);
  return close.length === 1
    ? { kind: 'one', channel: first.channel, changeCelsius: first.change }
    : { kind: 'several', channels: close.map(({ channel }) => channel) };
}

/** How far it is from where it was; null when that is nothing to speak of, or nothing to compare with. */
function changeOf(points: WatchedChannel['points'], sinceMs: number): number | null {
  const before = points.filter(({ timeMs }) => timeMs <= sinceMs).slice(-baselinePoints);
  const after = points.filter(({ timeMs }) => timeMs > sinceMs);
  const base = before.length > 0 ? before : after.slice(0, 1);
  const newest = after.at(-1);
  if (newest === undefined || base.length === 0) return null;
  const values = base.map(({ value }) => value);
  const middle = median(values);
  const noise = median(values.map((value) => Math.abs(value - middle)));
  const change = newest.value - middle;
  return Math.abs(change) >= Math.max(leastChangeCelsius, noise * noiseTimes) ? change : null;
}
