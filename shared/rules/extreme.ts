import { type ChannelTrack, isFresh, isPlaced, lostLeadHours } from './channelTrack.ts';

/**
 * `measured`: the value is the pile's extreme. `bound`: the channel that was furthest out has been lost (silent or
 * bad), so the truth is at least this far out. `unknown`: no channel is fresh; value and time are meaningless.
 */
export type Certainty = 'measured' | 'bound' | 'unknown';

/** Reused between instants: read it at once, never keep it. */
export interface Extreme {
  certainty: Certainty;
  value: number;
  timeMs: number;
}

export function createExtreme(): Extreme {
  return { certainty: 'unknown', value: Number.NaN, timeMs: Number.NEGATIVE_INFINITY };
}

/**
 * Finds the hottest (`sign` 1) or driest (`sign` -1) fresh good channel. Never a mean, and never a cooler channel in
 * place of a hotter one that died: for `lostLeadHours` after the leading channel was last heard, what is left is a
 * bound. With a bound "hotter than" can be true but not false, so losing a probe raises and clears nothing.
 */
export function findExtreme(
  tracks: readonly ChannelTrack[],
  atMs: number,
  sign: 1 | -1,
  into: Extreme,
): void {
  into.certainty = 'unknown';
  into.timeMs = Number.NEGATIVE_INFINITY;
  for (const track of tracks) {
    if (!isPlaced(track, atMs) || !isFresh(track, atMs)) continue;
    if (into.certainty === 'unknown' || sign * (track.lastGood - into.value) > 0) {
      into.certainty = 'measured';
      into.value = track.lastGood;
      into.timeMs = track.lastGoodMs;
    }
  }
  if (into.certainty === 'measured' && lostLeader(tracks, atMs, sign, into.value)) into.certainty = 'bound';
}

/** Notes which of the channels heard at exactly this instant lead the others. */
export function noteLeaders(
  tracks: readonly ChannelTrack[],
  atMs: number,
  sign: 1 | -1,
  margin: number,
): void {
  for (const track of tracks) {
    if (track.lastGoodMs !== atMs) continue;
    track.led = tracks.every(
      (other) =>
        other === track ||
        !isPlaced(other, atMs) ||
        !isFresh(other, atMs) ||
        sign * (track.lastGood - other.lastGood) > margin,
    );
  }
}

function lostLeader(tracks: readonly ChannelTrack[], atMs: number, sign: 1 | -1, best: number): boolean {
  for (const track of tracks) {
    if (!track.led || !isPlaced(track, atMs) || isFresh(track, atMs)) continue;
    const heard = atMs - track.lastGoodMs <= lostLeadHours * 3_600_000;
    if (heard && sign * (track.lastGood - best) > 0) return true;
  }
  return false;
}
