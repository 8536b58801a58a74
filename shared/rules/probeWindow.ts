import type { Quality, QualityReason } from '../readings/reading.ts';
import type { ChannelName, PileId, ProbeId } from '../yard/yard.ts';

/** Where one channel of a probe stands, for judgement and for the words of a text. */
export interface ProbePlace {
  readonly channel: ChannelName;
  readonly quantity: string;
  readonly position: string;
  readonly pileId: PileId | null;
  readonly pileName: string;
  readonly place: string;
  readonly fromMs: number;
  readonly toMs: number | null;
}

export interface ProbeFacts {
  readonly probeId: ProbeId;
  readonly label: string;
  /** Longest normal gap as the keeper set it; null = learnt from what it sends. */
  readonly expectedIntervalSeconds: number | null;
  /** Until anything is learnt. */
  readonly defaultIntervalSeconds: number;
  readonly places: readonly ProbePlace[];
}

/** What is remembered of one channel of a probe. */
export interface ProbeChannel {
  lastGoodMs: number;
  lastGood: number;
  lastMs: number;
  /** Since when every reading has been bad; null when the last one was not. */
  badSinceMs: number | null;
  badReason: QualityReason | null;
}

/** A probe as it is known at one instant; reused, so read it at once. */
export interface ProbeView {
  readonly kind: 'probe';
  nowMs: number;
  facts: ProbeFacts;
  /** When any of its channels was last heard; `-Infinity` when never. */
  lastHeardMs: number;
  readonly channels: Map<ChannelName, ProbeChannel>;
  /** The normal gap between its readings: as set, else the middle of the last gaps, else the yard's default. */
  expectedIntervalMs: number;
  /** The whole yard has gone quiet: one alarm on the yard says it. */
  yardIsSilent: boolean;
}

/** One reading of a probe's channel. */
export interface ProbeReading {
  readonly channel: ChannelName;
  readonly timeMs: number;
  readonly value: number;
  readonly quality: Quality;
  readonly reason: QualityReason | null;
}

export interface ProbeWindow {
  readonly view: ProbeView;
  /** Last gaps between its readings, newest last. */
  readonly gapsMs: number[];
}

const gapsKept = 9;

/** An empty window over a probe. */
export function createProbeWindow(facts: ProbeFacts): ProbeWindow {
  const view: ProbeView = {
    kind: 'probe',
    nowMs: Number.NEGATIVE_INFINITY,
    facts,
    lastHeardMs: Number.NEGATIVE_INFINITY,
    channels: new Map(),
    expectedIntervalMs: (facts.expectedIntervalSeconds ?? facts.defaultIntervalSeconds) * 1000,
    yardIsSilent: false,
  };
  return { view, gapsMs: [] };
}

/** Changes what the records say of the probe. */
export function setProbeFacts(window: ProbeWindow, facts: ProbeFacts): void {
  window.view.facts = facts;
  window.view.expectedIntervalMs = intervalOf(window);
}

/** Takes a reading; one older than the channel's last changes nothing. */
export function addProbeReading(window: ProbeWindow, reading: ProbeReading): void {
  const { view } = window;
  if (reading.timeMs > view.lastHeardMs) {
    if (Number.isFinite(view.lastHeardMs)) window.gapsMs.push(reading.timeMs - view.lastHeardMs);
    if (window.gapsMs.length > gapsKept) window.gapsMs.shift();
    view.lastHeardMs = reading.timeMs;
    view.expectedIntervalMs = intervalOf(window);
  }
  const channel = channelOf(view, reading.channel);
  if (reading.timeMs < channel.lastMs) return;
  channel.lastMs = reading.timeMs;
  if (reading.quality === 'bad') {
    channel.badSinceMs ??= reading.timeMs;
    channel.badReason = reading.reason;
  } else {
    channel.badSinceMs = null;
    channel.badReason = null;
  }
  if (reading.quality === 'good') {
    channel.lastGoodMs = reading.timeMs;
    channel.lastGood = reading.value;
  }
}

/** Places it stands in at this time. */
export function placesNow(view: ProbeView): ProbePlace[] {
  return placesAt(view, view.nowMs);
}

/** Places it stands in at any time. */
export function placesAt(view: ProbeView, atMs: number): ProbePlace[] {
  return view.facts.places.filter(
    (place) => place.fromMs <= atMs && (place.toMs === null || atMs < place.toMs),
  );
}

function intervalOf(window: ProbeWindow): number {
  const { expectedIntervalSeconds, defaultIntervalSeconds } = window.view.facts;
  if (expectedIntervalSeconds !== null) return expectedIntervalSeconds * 1000;
  if (window.gapsMs.length < 3) return defaultIntervalSeconds * 1000;
  const sorted = [...window.gapsMs].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}

function channelOf(view: ProbeView, name: ChannelName): ProbeChannel {
  const held = view.channels.get(name);
  if (held !== undefined) return held;
  const fresh: ProbeChannel = {
    lastMs: Number.NEGATIVE_INFINITY,
    lastGoodMs: Number.NEGATIVE_INFINITY,
    lastGood: Number.NaN,
    badSinceMs: null,
    badReason: null,
  };
  view.channels.set(name, fresh);
  return fresh;
}
