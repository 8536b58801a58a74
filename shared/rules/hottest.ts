import {
  type ChannelTrack,
  isFresh,
  isPlaced,
  isYoung,
  leadMargin,
  lostLeadHours,
  speaks,
} from './channelTrack.ts';
import type { Certainty, Extreme } from './extreme.ts';

/** Two channels that each rose by this over their lowest of the last hour or two rose together (our choice, no source). */
export const risenTogetherCelsius = 5;

/**
 * The hottest the pile may be, for heat and fire alarms: the highest of every temperature channel in it, wherever it
 * sits, and with readings the quality filter keeps from every other judgement, where those can only make it safer:
 * - one whose calibration is overdue counts;
 * - one that moved too fast, or away from its pair, counts when another channel of the pile has risen too: two sensors
 *   do not fail alike, but both feel a fire.
 * What rests on a doubtful reading is a bound, and so is what is left when a hotter channel is lost: it raises, and
 * clears nothing. `core` is how surely the core itself is known.
 */
export function findHottest(
  tracks: readonly ChannelTrack[],
  core: Certainty,
  atMs: number,
  into: Extreme,
): void {
  forget(into);
  for (const track of tracks)
    if (speaks(track, tracks, atMs)) offer(into, track.lastGood, track.lastGoodMs, core);
  if (isHotterLost(tracks, atMs, into.value)) weaken(into);
  for (const track of tracks) {
    if (!isPlaced(track, atMs)) continue;
    if (isStaleNow(track, atMs)) offer(into, track.lastStale, track.lastStaleMs, 'bound');
    if (isJumpNow(track, atMs) && roseTogether(tracks, track, atMs))
      offer(into, track.lastJump, track.lastJumpMs, 'bound');
  }
}

function forget(into: Extreme): void {
  into.certainty = 'unknown';
  into.value = Number.NEGATIVE_INFINITY;
  into.timeMs = Number.NEGATIVE_INFINITY;
}

function weaken(into: Extreme): void {
  if (into.certainty === 'measured') into.certainty = 'bound';
}

function offer(into: Extreme, value: number, timeMs: number, certainty: Certainty): void {
  if (into.certainty !== 'unknown' && value <= into.value) return;
  into.certainty = certainty === 'measured' ? 'measured' : 'bound';
  into.value = value;
  into.timeMs = timeMs;
}

function isStaleNow(track: ChannelTrack, atMs: number): boolean {
  return track.lastStaleMs > track.lastGoodMs && isYoung(track, track.lastStaleMs, atMs);
}

function isJumpNow(track: ChannelTrack, atMs: number): boolean {
  return track.lastJumpMs > track.lastGoodMs && isYoung(track, track.lastJumpMs, atMs);
}

function roseTogether(tracks: readonly ChannelTrack[], one: ChannelTrack, atMs: number): boolean {
  if (!hasRisen(one, atMs)) return false;
  for (const other of tracks) {
    if (other === one || !isPlaced(other, atMs) || !hasRisen(other, atMs)) continue;
    // One supply that fails gives the same number everywhere; two sensors in one fire do not.
    if (Math.abs(latest(other, atMs) - latest(one, atMs)) > 0.01) return true;
  }
  return false;
}

function hasRisen(track: ChannelTrack, atMs: number): boolean {
  const from = Math.min(track.hourLowest, track.lowestBefore);
  return latest(track, atMs) - from >= risenTogetherCelsius;
}

/** What the channel says now, doubtful or not; NaN when it is silent. */
function latest(track: ChannelTrack, atMs: number): number {
  if (isJumpNow(track, atMs)) return track.lastJump;
  return isFresh(track, atMs) ? track.lastGood : Number.NaN;
}

/** A channel heard within `lostLeadHours` as hotter than anything now. The core's own lost leader is in its certainty. */
function isHotterLost(tracks: readonly ChannelTrack[], atMs: number, best: number): boolean {
  for (const track of tracks) {
    if (!isPlaced(track, atMs) || isFresh(track, atMs) || isStaleNow(track, atMs)) continue;
    const wasStale = track.lastStaleMs > track.lastGoodMs;
    if (!wasStale && track.placed.placement.position === 'core') continue;
    const lastMs = wasStale ? track.lastStaleMs : track.lastGoodMs;
    const value = wasStale ? track.lastStale : track.lastGood;
    if (atMs - lastMs <= lostLeadHours * 3_600_000 && value > best + leadMargin.temperature) return true;
  }
  return false;
}
