import type { ConditionId } from '../alarms/alarm.ts';
import type { Quality } from '../readings/reading.ts';
import type { JournalEntry, JournalKind } from '../yard/journal.ts';
import type { Pile, Placement, Stage } from '../yard/yard.ts';
import {
  type ChannelTrack,
  createTrack,
  leadMargin,
  type PlacedChannel,
  takeSample,
} from './channelTrack.ts';
import { type Certainty, createExtreme, type Extreme, findExtreme, noteLeaders } from './extreme.ts';
import { addToSums, createSums, type LongRunSums } from './longRunSums.ts';
import type { PileView } from './pileView.ts';
import { stageOf } from './stageOf.ts';
import { createTimeGrid, gridSamples, putInGrid, type TimeGrid } from './timeGrid.ts';
import { gridTrendPerHour } from './trend.ts';

/** What the records know of a pile; everything else comes from readings. */
export interface PileFacts {
  readonly pile: Pile;
  /** Every channel that has ever stood in it, and the yard's air sensors. */
  readonly placed: readonly PlacedChannel[];
  /** In time order. */
  readonly journal: readonly JournalEntry[];
}

/**
 * The stretch of a pile's past that judgement needs, in constant memory: exact last good sample of each channel,
 * ten-minute cells for two days, hourly cells for thirty, and sums over its whole life: about 10 kB a pile with a core
 * and an air channel. Samples go in in time order; a late one means building the window again from the store, so that
 * it never depends on the order or size of batches.
 */
export interface PileWindow {
  facts: PileFacts;
  tracks: Map<string, ChannelTrack>;
  core: ChannelTrack[];
  air: ChannelTrack[];
  moisture: ChannelTrack[];
  readonly coreNow: Extreme;
  readonly airNow: Extreme;
  readonly moistureNow: Extreme;
  readonly coreGrid: TimeGrid;
  readonly coreHours: TimeGrid;
  readonly airHours: TimeGrid;
  readonly moistureHours: TimeGrid;
  readonly sums: LongRunSums;
  /** Last instant a sample of this pile was taken in. */
  lastSampleMs: number;
  nowMs: number;
  /** Something was taken in since the extremes were last found. */
  touched: boolean;
  isActive: (condition: ConditionId) => boolean;
  readonly view: PileView;
  readonly trends: Map<number, { cell: number; slope: number | null }>;
  day: { cell: number; hottest: number | null };
}

/** An empty window over a pile. */
export function createPileWindow(facts: PileFacts): PileWindow {
  const window = {
    tracks: new Map(),
    coreNow: createExtreme(),
    airNow: createExtreme(),
    moistureNow: createExtreme(),
    coreGrid: createTimeGrid(10, 288),
    coreHours: createTimeGrid(60, 720),
    airHours: createTimeGrid(60, 720),
    moistureHours: createTimeGrid(60, 720),
    sums: createSums(),
    lastSampleMs: Number.NEGATIVE_INFINITY,
    nowMs: Number.NEGATIVE_INFINITY,
    touched: true,
    isActive: () => false,
    trends: new Map(),
    day: { cell: -1, hottest: null },
  } as unknown as PileWindow;
  (window as { view: PileView }).view = new WindowView(window);
  setFacts(window, facts);
  return window;
}

/** Changes what the records say: placements, journal, method. Channels that stay keep their samples. */
export function setFacts(window: PileWindow, facts: PileFacts): void {
  const tracks = new Map<string, ChannelTrack>();
  for (const placed of facts.placed) {
    const track = window.tracks.get(placed.placement.id) ?? createTrack(placed);
    track.placed = placed;
    tracks.set(placed.placement.id, track);
  }
  window.facts = facts;
  window.touched = true;
  window.tracks = tracks;
  window.core = tracksOf(tracks, (at) => at.quantity === 'temperature' && at.position === 'core');
  window.air = tracksOf(tracks, (at) => at.quantity === 'temperature' && at.position === 'air');
  window.moisture = tracksOf(tracks, (at) => at.quantity === 'moisture');
}

/** Takes one sample; all samples of an instant go in before `settle`. Unknown placements are ignored. */
export function addSample(
  window: PileWindow,
  placementId: string,
  sample: { readonly timeMs: number; readonly value: number; readonly quality: Quality },
): void {
  const track = window.tracks.get(placementId);
  if (track === undefined) return;
  takeSample(track, sample.timeMs, sample.value, sample.quality);
  window.touched = true;
  window.lastSampleMs = Math.max(window.lastSampleMs, sample.timeMs);
}

/** Draws the conclusions of an instant at which samples came: leaders, grids and sums. */
export function settle(window: PileWindow, atMs: number): void {
  noteLeaders(window.core, atMs, 1, leadMargin.temperature);
  noteLeaders(window.moisture, atMs, -1, leadMargin.moisture);
  atInstant(window, atMs);
  const { coreNow, airNow, moistureNow } = window;
  if (coreNow.timeMs === atMs) keepCore(window, atMs);
  if (airNow.timeMs === atMs) putInGrid(window.airHours, atMs, airNow.value, 'lowest');
  if (moistureNow.timeMs === atMs) putInGrid(window.moistureHours, atMs, moistureNow.value, 'lowest');
}

/** The pile as known at an instant not before the last sample. Reused: the next call changes the same object. */
export function atInstant(window: PileWindow, nowMs: number): PileView {
  if (nowMs === window.nowMs && !window.touched) return window.view;
  window.nowMs = nowMs;
  window.touched = false;
  findExtreme(window.core, nowMs, 1, window.coreNow);
  findExtreme(window.air, nowMs, -1, window.airNow);
  findExtreme(window.moisture, nowMs, -1, window.moistureNow);
  return window.view;
}

/** A bound is heat that is truly there, so sums take it; grids do not, because a trend over it would be a false fall. */
function keepCore(window: PileWindow, atMs: number): void {
  addToSums(window.sums, atMs, window.coreNow.value);
  if (window.coreNow.certainty !== 'measured') return;
  putInGrid(window.coreGrid, atMs, window.coreNow.value, 'highest');
  putInGrid(window.coreHours, atMs, window.coreNow.value, 'highest');
}

function tracksOf(
  tracks: Map<string, ChannelTrack>,
  wanted: (placement: Placement) => boolean,
): ChannelTrack[] {
  return [...tracks.values()].filter((track) => wanted(track.placed.placement));
}

/**
 * The view over a window. A class, so that ten thousand piles share one set of getters: as object literals with
 * accessors they took three times the memory.
 */
class WindowView implements PileView {
  readonly kind = 'pile';
  readonly #window: PileWindow;
  constructor(window: PileWindow) {
    this.#window = window;
  }
  get nowMs(): number {
    return this.#window.nowMs;
  }
  get pile(): Pile {
    return this.#window.facts.pile;
  }
  get ageHours(): number {
    return (this.#window.nowMs - this.#window.facts.pile.startedMs) / 3_600_000;
  }
  get coreCelsius(): number | null {
    return known(this.#window.coreNow)?.value ?? null;
  }
  get coreTimeMs(): number | null {
    return known(this.#window.coreNow)?.timeMs ?? null;
  }
  get coreCertainty(): Certainty {
    return this.#window.coreNow.certainty;
  }
  get hottestOfDayCelsius(): number | null {
    return hottestOfDay(this.#window);
  }
  get airCelsius(): number | null {
    return known(this.#window.airNow)?.value ?? null;
  }
  get moistureFraction(): number | null {
    return known(this.#window.moistureNow)?.value ?? null;
  }
  get moistureTimeMs(): number | null {
    return known(this.#window.moistureNow)?.timeMs ?? null;
  }
  get moistureCertainty(): Certainty {
    return this.#window.moistureNow.certainty;
  }
  get peakCelsius(): number | null {
    return this.#window.sums.peakCelsius;
  }
  get hoursAbove55(): number {
    return this.#window.sums.hoursAbove55;
  }
  get degreeHoursAbove40(): number {
    return this.#window.sums.degreeHoursAbove40;
  }
  get firstAt40Ms(): number | null {
    return this.#window.sums.firstAt40Ms;
  }
  get firstAt55Ms(): number | null {
    return this.#window.sums.firstAt55Ms;
  }
  get lastAt45Ms(): number | null {
    return this.#window.sums.lastAt45Ms;
  }
  get stage(): Stage | null {
    return stageOf(this);
  }
  trendCelsiusPerHour(hours: number): number | null {
    return trend(this.#window, hours);
  }
  meanAirCelsius(days: number): number | null {
    return meanAir(this.#window, days);
  }
  lastEntry(kinds: readonly JournalKind[]): JournalEntry | null {
    return lastEntry(this.#window.facts.journal, kinds, this.#window.nowMs);
  }
  isActive(condition: ConditionId): boolean {
    return this.#window.isActive(condition);
  }
}

function known(extreme: Extreme): Extreme | null {
  return extreme.certainty === 'unknown' ? null : extreme;
}

/** Only whole cells count, so the slope changes once a cell and is worked out once a cell. */
function trend(window: PileWindow, hours: number): number | null {
  const cell = Math.floor(window.nowMs / window.coreGrid.stepMs);
  const held = window.trends.get(hours);
  if (held?.cell === cell) return held.slope;
  const slope = gridTrendPerHour(window.coreGrid, cell * window.coreGrid.stepMs, hours);
  window.trends.set(hours, { cell, slope });
  return slope;
}

function hottestOfDay(window: PileWindow): number | null {
  const cell = Math.floor(window.nowMs / window.coreHours.stepMs);
  if (window.day.cell !== cell) {
    const past = gridSamples(window.coreHours, (cell - 24) * window.coreHours.stepMs, window.nowMs);
    window.day = { cell, hottest: highest(past.map((sample) => sample.value)) };
  }
  const fresh = window.core.filter((track) => window.nowMs - track.lastGoodMs <= 86_400_000);
  const values = fresh.map((track) => track.lastGood);
  return highest(window.day.hottest === null ? values : [...values, window.day.hottest]);
}

function meanAir(window: PileWindow, days: number): number | null {
  const hours = gridSamples(window.airHours, window.nowMs - days * 86_400_000, window.nowMs);
  if (hours.length === 0) return null;
  return hours.reduce((sum, sample) => sum + sample.value, 0) / hours.length;
}

function lastEntry(
  journal: readonly JournalEntry[],
  kinds: readonly JournalKind[],
  nowMs: number,
): JournalEntry | null {
  return journal.findLast((entry) => entry.timeMs <= nowMs && kinds.includes(entry.kind)) ?? null;
}

function highest(values: readonly number[]): number | null {
  return values.length === 0 ? null : Math.max(...values);
}
