import type { ChannelName, Position } from '../../yard/yard.ts';
import { hoursFrom } from './outcome.ts';
import { SegmentCursor } from './segmentCursor.ts';
import type { ZoneSeries } from './series.ts';
import type { Stretch } from './stretches.ts';
import type { ZoneWindow } from './zones.ts';

/** A row of the table an inspector reads: one unbroken stretch at temperature. */
export interface EvidenceRow {
  readonly fromMs: number;
  readonly toMs: number;
  readonly hours: number;
  /** Coolest any required zone was during it. */
  readonly minimumCelsius: number;
  /** Share of the time with readings at the probe's own rhythm, without bridging over missing ones. */
  readonly coverageFraction: number;
}

/** How much of the asked time one channel was heard. */
export interface ChannelCoverage {
  readonly position: Position;
  readonly channel: ChannelName;
  readonly watchedHours: number;
  readonly longestHoleHours: number;
  readonly coverageFraction: number;
}

export function evidenceRow(stretch: Stretch): EvidenceRow {
  const { fromMs, toMs, minimumCelsius } = stretch;
  const lengthMs = toMs - fromMs;
  return {
    fromMs,
    toMs,
    hours: hoursFrom(lengthMs),
    minimumCelsius,
    coverageFraction: 1 - stretch.bridgedMs / lengthMs,
  };
}

/** Measures how much of the window (cut to the channel's placement) was watched, and the longest hole in it. */
export function channelCoverage(series: ZoneSeries, window: ZoneWindow): ChannelCoverage {
  const fromMs = Math.max(window.fromMs, series.fromMs ?? Number.NEGATIVE_INFINITY);
  const toMs = Math.min(window.toMs, series.toMs ?? Number.POSITIVE_INFINITY);
  const cursor = new SegmentCursor(series, window.maximumGapMs);
  let watchedMs = 0;
  let longestHoleMs = 0;
  let heardUntilMs = fromMs;
  for (; cursor.fromMs < toMs; cursor.advance()) {
    if (cursor.toMs <= fromMs) continue;
    const startMs = Math.max(cursor.fromMs, fromMs);
    const endMs = Math.min(cursor.toMs, toMs);
    longestHoleMs = Math.max(longestHoleMs, startMs - heardUntilMs);
    watchedMs += endMs - startMs;
    heardUntilMs = endMs;
  }
  longestHoleMs = Math.max(longestHoleMs, toMs - heardUntilMs);
  return {
    position: series.position,
    channel: series.channel,
    watchedHours: hoursFrom(watchedMs),
    longestHoleHours: hoursFrom(Math.max(0, longestHoleMs)),
    coverageFraction: toMs > fromMs ? watchedMs / (toMs - fromMs) : 0,
  };
}
