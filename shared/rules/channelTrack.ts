import type { Quality, QualityReason } from '../readings/reading.ts';
import type { Placement } from '../yard/yard.ts';
import { besideProbeMinutes } from './byHand.ts';

/** A placed channel and how long one of its readings may speak for now. */
export interface PlacedChannel {
  readonly placement: Placement;
  /** After this a reading is too old: about four times the probe's interval, longer for readings taken by hand. */
  readonly maxAgeMinutes: number;
  /** Its samples are what people measured by hand and wrote in the journal. */
  readonly byHand?: true;
}

/** What the window remembers of one placed channel: its last good sample exactly, and how it stood among its peers. */
export interface ChannelTrack {
  placed: PlacedChannel;
  lastMs: number;
  lastGoodMs: number;
  lastGood: number;
  /** Latest reading that is doubtful only because the calibration is overdue: it may raise a heat alarm, never clear one. */
  lastStaleMs: number;
  lastStale: number;
  /** Latest reading that is doubtful for how it moved: believed only when a second channel moves with it. */
  lastJumpMs: number;
  lastJump: number;
  /** At its last good sample it was further out (hotter, drier) than every other fresh channel by more than `leadMargin`. */
  led: boolean;
  /** Good readings of the running clock hour. */
  hourTotal: number;
  hourCount: number;
  hourLowest: number;
  /** Mean of the last hour that was closed; NaN when nothing good was heard in it. */
  hourMean: number;
  /** Lowest good value of the last hour that had one: what a sudden rise is measured from. */
  lowestBefore: number;
}

/** A channel's own error is about 0.5 C, so a lead of less than two of those says nothing (common practice, no source). */
export const leadMargin = { temperature: 1, moisture: 0.02 } as const;

/** How long a lost leading channel keeps its peers from calling the pile cooler (our choice, no source). */
export const lostLeadHours = 72;

export function createTrack(placed: PlacedChannel): ChannelTrack {
  return {
    placed,
    lastMs: Number.NEGATIVE_INFINITY,
    lastGoodMs: Number.NEGATIVE_INFINITY,
    lastGood: Number.NaN,
    lastStaleMs: Number.NEGATIVE_INFINITY,
    lastStale: Number.NaN,
    lastJumpMs: Number.NEGATIVE_INFINITY,
    lastJump: Number.NaN,
    led: false,
    hourTotal: 0,
    hourCount: 0,
    hourLowest: Number.POSITIVE_INFINITY,
    hourMean: Number.NaN,
    lowestBefore: Number.POSITIVE_INFINITY,
  };
}

/** Takes a sample in time order of its own channel. Without a reason a doubtful one proves nothing. */
export function takeSample(
  track: ChannelTrack,
  timeMs: number,
  value: number,
  quality: Quality,
  reason: QualityReason | null = null,
): void {
  track.lastMs = Math.max(track.lastMs, timeMs);
  if (quality === 'suspect') takeDoubtful(track, timeMs, value, reason);
  if (quality !== 'good' || timeMs < track.lastGoodMs) return;
  track.lastGoodMs = timeMs;
  track.lastGood = value;
  track.hourTotal += value;
  track.hourCount += 1;
  if (value < track.hourLowest) track.hourLowest = value;
}

function takeDoubtful(
  track: ChannelTrack,
  timeMs: number,
  value: number,
  reason: QualityReason | null,
): void {
  if (reason === 'calibration-stale') {
    track.lastStaleMs = timeMs;
    track.lastStale = value;
  } else if (reason === 'impossible-rate' || reason === 'outlier' || reason === 'disagrees-with-pair') {
    track.lastJumpMs = timeMs;
    track.lastJump = value;
  }
}

/** Ends the running hour and starts the next. */
export function closeTrackHour(track: ChannelTrack): void {
  track.hourMean = track.hourCount === 0 ? Number.NaN : track.hourTotal / track.hourCount;
  if (track.hourCount > 0) track.lowestBefore = track.hourLowest;
  track.hourTotal = 0;
  track.hourCount = 0;
  track.hourLowest = Number.POSITIVE_INFINITY;
}

/** The placement holds at this time (its end is exclusive). */
export function isPlaced(track: ChannelTrack, atMs: number): boolean {
  const { fromMs, toMs } = track.placed.placement;
  return fromMs <= atMs && (toMs === null || atMs < toMs);
}

/** Its last good sample is young enough to speak for this time. */
export function isFresh(track: ChannelTrack, atMs: number): boolean {
  return isYoung(track, track.lastGoodMs, atMs);
}

/**
 * It may speak for the pile at this time: placed, fresh, and, when it is by hand, not overtaken by a probe at the same
 * position that has been heard since.
 */
export function speaks(track: ChannelTrack, tracks: readonly ChannelTrack[], atMs: number): boolean {
  if (!isPlaced(track, atMs) || !isFresh(track, atMs)) return false;
  return track.placed.byHand !== true || !isOvertaken(track, tracks, atMs);
}

function isOvertaken(hand: ChannelTrack, tracks: readonly ChannelTrack[], atMs: number): boolean {
  if (atMs - hand.lastGoodMs <= besideProbeMinutes * 60_000) return false;
  const { position } = hand.placed.placement;
  return tracks.some(
    ({ placed, lastGoodMs }, index) =>
      placed.byHand !== true &&
      placed.placement.position === position &&
      lastGoodMs > hand.lastGoodMs &&
      isPlaced(tracks[index]!, atMs) &&
      isFresh(tracks[index]!, atMs),
  );
}

/** A sample of this channel taken then is young enough to speak for this time. */
export function isYoung(track: ChannelTrack, sampleMs: number, atMs: number): boolean {
  return atMs - sampleMs <= track.placed.maxAgeMinutes * 60_000;
}
