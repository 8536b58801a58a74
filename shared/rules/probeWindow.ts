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
  /** How many readings in a row have been bad; and how many have been doubtful for one and the same reason. */
  badInARow: number;
  doubtInARow: number;
  /** Since when no reading has been good but the latest is doubtful rather than bad, and why; null when it is not so. */
  doubtSinceMs: number | null;
  doubtReason: QualityReason | null;
  /** Its latest doubtful value. */
  doubtful: number;
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
  readonly yardIsSilent: boolean;
  /** How far ahead of us its clock was at the last reading from the future. */
  clockAheadMs: number;
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
export function createProbeWindow(
  facts: ProbeFacts,
  isYardSilent: (atMs: number) => boolean = () => false,
): ProbeWindow {
  return { view: new WindowProbeView(facts, isYardSilent), gapsMs: [] };
}

/** A class, because ten thousand objects with an accessor of their own take several times the memory. */
class WindowProbeView implements ProbeView {
  readonly kind = 'probe';
  nowMs = Number.NEGATIVE_INFINITY;
  facts: ProbeFacts;
  lastHeardMs = Number.NEGATIVE_INFINITY;
  readonly channels = new Map<ChannelName, ProbeChannel>();
  expectedIntervalMs: number;
  clockAheadMs = 0;
  readonly #isYardSilent: (atMs: number) => boolean;
  constructor(facts: ProbeFacts, isYardSilent: (atMs: number) => boolean) {
    this.facts = facts;
    this.expectedIntervalMs = (facts.expectedIntervalSeconds ?? facts.defaultIntervalSeconds) * 1000;
    this.#isYardSilent = isYardSilent;
  }
  /** Asked only when somebody wants to know: it takes a look at every probe of the yard. */
  get yardIsSilent(): boolean {
    return this.#isYardSilent(this.nowMs);
  }
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
  noteBad(channel, reading);
  noteDoubt(channel, reading);
  if (reading.quality === 'good') {
    channel.lastGoodMs = reading.timeMs;
    channel.lastGood = reading.value;
  }
}

/**
 * Takes a reading whose time has not come yet. That is no time to judge it at, so it counts as heard now: the probe
 * speaks, but nothing it says can be used.
 */
export function heardNow(window: ProbeWindow, reading: ProbeReading, nowMs: number): ProbeReading {
  window.view.clockAheadMs = reading.timeMs - nowMs;
  return { ...reading, timeMs: nowMs };
}

function noteBad(channel: ProbeChannel, { quality, timeMs, reason }: ProbeReading): void {
  const isBad = quality === 'bad';
  channel.badSinceMs = isBad ? (channel.badSinceMs ?? timeMs) : null;
  channel.badReason = isBad ? reason : null;
  channel.badInARow = isBad ? channel.badInARow + 1 : 0;
}

/** Doubt goes on as long as its reason does: a value that jumped and then stands still is another fault. */
function noteDoubt(channel: ProbeChannel, { quality, timeMs, value, reason }: ProbeReading): void {
  if (quality !== 'suspect') {
    channel.doubtSinceMs = null;
    channel.doubtReason = null;
    channel.doubtInARow = 0;
    return;
  }
  const isSame = channel.doubtReason === reason;
  if (!isSame) channel.doubtSinceMs = timeMs;
  channel.doubtInARow = isSame ? channel.doubtInARow + 1 : 1;
  channel.doubtReason = reason;
  channel.doubtful = value;
}

/** Places whose channel's latest readings are doubtful for this reason; empty at once when none of its channels is. */
export function placesInDoubt(view: ProbeView, reasons: readonly QualityReason[]): ProbePlace[] {
  if (!hasDoubt(view, reasons)) return [];
  return placesNow(view).filter((place) => {
    const reason = view.channels.get(place.channel)?.doubtReason ?? null;
    return reason !== null && reasons.includes(reason);
  });
}

function hasDoubt(view: ProbeView, reasons: readonly QualityReason[]): boolean {
  for (const { doubtReason } of view.channels.values())
    if (doubtReason !== null && reasons.includes(doubtReason)) return true;
  return false;
}

/** Whether a temperature channel is, or last was, this hot by what it says now or said last that was good. */
export function isHotPlace(view: ProbeView, place: ProbePlace, hotCelsius: number): boolean {
  const channel = view.channels.get(place.channel);
  if (place.quantity !== 'temperature' || channel === undefined) return false;
  return channel.lastGood >= hotCelsius || (channel.doubtReason !== null && channel.doubtful >= hotCelsius);
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
    badInARow: 0,
    doubtInARow: 0,
    doubtSinceMs: null,
    doubtReason: null,
    doubtful: Number.NaN,
  };
  view.channels.set(name, fresh);
  return fresh;
}
