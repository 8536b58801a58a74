import { type ChannelTrack, isFresh, isPlaced, lostLeadHours, speaks } from './channelTrack.ts';

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
  /** A person measured it. */
  byHand: boolean;
}

export function createExtreme(): Extreme {
  return { certainty: 'unknown', value: Number.NaN, timeMs: Number.NEGATIVE_INFINITY, byHand: false };
}

/**
 * Finds the hottest (`sign` 1) or driest (`sign` -1) fresh good channel. Never a mean, and never a cooler channel in
 * place of a hotter one that died: for `lostLeadHours` after the leading channel was last heard, what is left is a
 * bound. With a bound "hotter than" can be true but not false, so losing a probe raises and clears nothing. What a person
 * measured after the channel was lost takes its place: that is what the text about a lost probe asks for.
 */
export function findExtreme(
  tracks: readonly ChannelTrack[],
  atMs: number,
  sign: 1 | -1,
  into: Extreme,
): void {
  into.certainty = 'unknown';
  into.timeMs = Number.NEGATIVE_INFINITY;
  into.byHand = false;
  for (const track of tracks) {
    if (!speaks(track, tracks, atMs)) continue;
    if (into.certainty === 'unknown' || sign * (track.lastGood - into.value) > 0) {
      into.certainty = 'measured';
      into.value = track.lastGood;
      into.timeMs = track.lastGoodMs;
      into.byHand = track.placed.byHand === true;
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
  let first: ChannelTrack | null = null;
  let second: ChannelTrack | null = null;
  for (const track of tracks) {
    if (!speaks(track, tracks, atMs)) continue;
    if (first === null || sign * (track.lastGood - first.lastGood) > 0) {
      second = first;
      first = track;
    } else if (second === null || sign * (track.lastGood - second.lastGood) > 0) second = track;
  }
  for (const track of tracks) {
    if (track.lastGoodMs !== atMs) continue;
    const rival = track === first ? second : first;
    track.led = rival === null || sign * (track.lastGood - rival.lastGood) > margin;
  }
}

function lostLeader(tracks: readonly ChannelTrack[], atMs: number, sign: 1 | -1, best: number): boolean {
  const handMs = lastByHandMs(tracks, atMs);
  for (const track of tracks) {
    if (!track.led || track.lastGoodMs < handMs || !isPlaced(track, atMs) || speaks(track, tracks, atMs))
      continue;
    // By hand it is not lost but overtaken, and counts as long as it is fresh: somebody found a hotter spot.
    const heard =
      track.placed.byHand === true
        ? isFresh(track, atMs)
        : atMs - track.lastGoodMs <= lostLeadHours * 3_600_000;
    if (heard && sign * (track.lastGood - best) > 0) return true;
  }
  return false;
}

/** When a person last measured, as long as that is fresh. */
function lastByHandMs(tracks: readonly ChannelTrack[], atMs: number): number {
  let lastMs = Number.NEGATIVE_INFINITY;
  for (const track of tracks)
    if (track.placed.byHand === true && speaks(track, tracks, atMs))
      lastMs = Math.max(lastMs, track.lastGoodMs);
  return lastMs;
}
