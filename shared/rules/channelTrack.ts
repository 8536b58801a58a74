import type { Quality } from '../readings/reading.ts';
import type { Placement } from '../yard/yard.ts';

/** A placed channel and how long one of its readings may speak for now. */
export interface PlacedChannel {
  readonly placement: Placement;
  /** After this a reading is too old: about four times the probe's interval, longer for readings taken by hand. */
  readonly maxAgeMinutes: number;
}

/** What the window remembers of one placed channel: its last good sample exactly, and how it stood among its peers. */
export interface ChannelTrack {
  placed: PlacedChannel;
  lastMs: number;
  lastGoodMs: number;
  lastGood: number;
  /** At its last good sample it was further out (hotter, drier) than every other fresh channel by more than `leadMargin`. */
  led: boolean;
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
    led: false,
  };
}

/** Takes a sample in time order of its own channel. */
export function takeSample(track: ChannelTrack, timeMs: number, value: number, quality: Quality): void {
  track.lastMs = Math.max(track.lastMs, timeMs);
  if (quality !== 'good' || timeMs < track.lastGoodMs) return;
  track.lastGoodMs = timeMs;
  track.lastGood = value;
}

/** The placement holds at this time (its end is exclusive). */
export function isPlaced(track: ChannelTrack, atMs: number): boolean {
  const { fromMs, toMs } = track.placed.placement;
  return fromMs <= atMs && (toMs === null || atMs < toMs);
}

/** Its last good sample is young enough to speak for this time. */
export function isFresh(track: ChannelTrack, atMs: number): boolean {
  return atMs - track.lastGoodMs <= track.placed.maxAgeMinutes * 60_000;
}
