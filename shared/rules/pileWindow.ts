import type { ConditionId } from '../alarms/alarm.ts';
import type { RuleSet } from '../compost/sanitisation/ruleSet.ts';
import { createCourseLine } from '../compost/stages/coreCourse.ts';
import { type ProbesOut, probesOut } from '../readings/handling.ts';
import type { Quality, QualityReason } from '../readings/reading.ts';
import { isSameBuild } from '../yard/build.ts';
import type { JournalEntry } from '../yard/journal.ts';
import type { Pile, Placement } from '../yard/yard.ts';
import {
  type ChannelTrack,
  closeTrackHour,
  createTrack,
  leadMargin,
  type PlacedChannel,
  takeSample,
} from './channelTrack.ts';
import { createExtreme, type Extreme, findExtreme, noteLeaders } from './extreme.ts';
import { findHottest } from './hottest.ts';
import { addHour, createHourlyCourse, type HourlyCourse, readHoursAgain } from './hourlyCourse.ts';
import { addHourToSums, addToSums, createSums, type LongRunSums } from './longRunSums.ts';
import type { Outlook } from './outlook.ts';
import type { PastHour } from './pastHour.ts';
import { freshPileMemory, type HourContext, hourContext } from './pileMemory.ts';
import type { PileView } from './pileView.ts';
import { countsFromCelsius, type SanitisationStanding, shownRule } from './sanitisationRecord.ts';
import { addRow, createRows, type SanitisationRows } from './sanitisationRows.ts';
import { createTimeGrid, putInGrid, type TimeGrid } from './timeGrid.ts';
import { WindowView } from './windowView.ts';

/** What the records know of a pile; everything else comes from readings. */
export interface PileFacts {
  readonly pile: Pile;
  /** Every channel that has ever stood in it, and the yard's air sensors. */
  readonly placed: readonly PlacedChannel[];
  /** In time order. */
  readonly journal: readonly JournalEntry[];
}

/**
 * The stretch of a pile's past that judgement needs, in bounded memory: exact last good sample of each channel,
 * ten-minute cells for a day, hourly cells for thirty, sums and hourly memory over its whole life, and the hot hours
 * its sanitisation record rests on: about 15 kB a pile with a core and an air channel. Samples go in in time order; a
 * late one means building the window again from the store, so that it never depends on the order or size of batches.
 */
export interface PileWindow {
  facts: PileFacts;
  tracks: Map<string, ChannelTrack>;
  core: ChannelTrack[];
  /** Every temperature channel that stands in the pile, the core's among them. */
  heat: ChannelTrack[];
  air: ChannelTrack[];
  moisture: ChannelTrack[];
  readonly coreNow: Extreme;
  readonly hotNow: Extreme;
  readonly airNow: Extreme;
  readonly moistureNow: Extreme;
  readonly coreGrid: TimeGrid;
  /** The hottest place, wherever it is, for as long as fire danger looks back. */
  readonly hotGrid: TimeGrid;
  readonly coreHours: TimeGrid;
  readonly hotHours: TimeGrid;
  readonly airHours: TimeGrid;
  readonly yardAir: TimeGrid | null;
  readonly moistureHours: TimeGrid;
  readonly sums: LongRunSums;
  course: HourlyCourse;
  context: HourContext;
  rule: RuleSet | null;
  readonly rows: SanitisationRows;
  /** As judged when so many rows had been taken; null when it must be judged again. */
  record: { taken: number; standing: SanitisationStanding } | null;
  wormsFromMs: number;
  /** When the pile's probes were out of it. */
  probesOut: readonly ProbesOut[];
  /** Number of the running clock hour; -1 before the first sample. */
  hour: number;
  /** End of the last hour known only by its roll-up: a sample from before is in there already. */
  pastUntilMs: number;
  /** Last instant a sample of this pile was taken in. */
  lastSampleMs: number;
  nowMs: number;
  /** Something was taken in since the extremes were last found. */
  touched: boolean;
  isActive: (condition: ConditionId) => boolean;
  readonly view: PileView;
  readonly trends: Map<number, { cell: number; slope: number | null }>;
  heatAhead: { cell: number; outlook: Outlook | null };
  moistureAhead: { cell: number; outlook: Outlook | null };
  day: { cell: number; hottest: number | null };
}

const hourMs = 3_600_000;

/** Hours of the yard's own air, which are the same behind every pile that has no air sensor of its own. */
export function createYardAir(): TimeGrid {
  return createTimeGrid(60, 720);
}

/**
 * An empty window over a pile. `yardAir` is the grid it shares with the other piles of its yard; without it, or with an
 * air sensor of its own, the pile keeps its own.
 */
export function createPileWindow(facts: PileFacts, yardAir: TimeGrid | null = null): PileWindow {
  const hasOwnAir = facts.placed.some(
    ({ placement }) => placement.position === 'air' && placement.pileId !== null,
  );
  const window = {
    facts,
    tracks: new Map(),
    core: [],
    coreNow: createExtreme(),
    hotNow: createExtreme(),
    airNow: createExtreme(),
    moistureNow: createExtreme(),
    coreGrid: createTimeGrid(10, 156),
    hotGrid: createTimeGrid(10, 40),
    coreHours: createTimeGrid(60, 720),
    hotHours: createTimeGrid(60, 48),
    airHours: yardAir === null || hasOwnAir ? createYardAir() : yardAir,
    yardAir,
    moistureHours: createTimeGrid(60, 720, 0.0001),
    sums: createSums(),
    course: createHourlyCourse(freshPileMemory(facts.pile), 0),
    rows: createRows(),
    hour: -1,
    pastUntilMs: Number.NEGATIVE_INFINITY,
    lastSampleMs: Number.NEGATIVE_INFINITY,
    nowMs: Number.NEGATIVE_INFINITY,
    touched: true,
    isActive: () => false,
    trends: new Map(),
    heatAhead: { cell: -1, outlook: null },
    moistureAhead: { cell: -1, outlook: null },
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
  const hasNewWords =
    window.context === undefined ||
    facts.pile.method !== window.facts.pile.method ||
    !isSameBuild(facts.pile.build, window.facts.pile.build) ||
    !isSameJournal(facts.journal, window.facts.journal);
  window.facts = facts;
  window.touched = true;
  window.tracks = tracks;
  setTracks(window);
  if (hasNewWords) setWords(window);
  window.record = null;
  window.moistureAhead.cell = -1;
}

function setTracks(window: PileWindow): void {
  const { tracks, core } = window;
  window.core = tracksOf(tracks, (at) => at.quantity === 'temperature' && at.position === 'core');
  window.heat = tracksOf(tracks, (at) => at.quantity === 'temperature' && at.position !== 'air');
  window.air = tracksOf(tracks, (at) => at.quantity === 'temperature' && at.position === 'air');
  window.moisture = tracksOf(tracks, (at) => at.quantity === 'moisture');
  const isSame =
    core.length === window.core.length && core.every((track, index) => track === window.core[index]);
  if (!isSame) window.course.line = createCourseLine(window.core.length);
}

/** Takes over what people wrote and how the pile is run; the last days are read again in that light. */
function setWords(window: PileWindow): void {
  const { pile, journal } = window.facts;
  const probes = window.core.filter(({ placed }) => placed.byHand !== true);
  const speaking = probes.length > 0 ? probes : window.core;
  const coreHours = Math.max(1, ...speaking.map((track) => track.placed.maxAgeMinutes / 60));
  window.probesOut = probesOut(journal);
  window.context = hourContext(pile, journal, coreHours);
  window.rule = shownRule(pile.method);
  const added = journal.find(({ kind }) => kind === 'worms-added')?.timeMs ?? Number.POSITIVE_INFINITY;
  window.wormsFromMs = pile.method === 'worm-bed' ? Number.NEGATIVE_INFINITY : added;
  readHoursAgain(window.course, window.context);
}

function isSameJournal(one: readonly JournalEntry[], other: readonly JournalEntry[]): boolean {
  return one.length === other.length && one.every((entry, index) => entry.id === other[index]!.id);
}

/** Takes one sample; all samples of an instant go in before `settle`. Unknown placements are ignored. */
export function addSample(
  window: PileWindow,
  placementId: string,
  sample: {
    readonly timeMs: number;
    readonly value: number;
    readonly quality: Quality;
    readonly reason?: QualityReason | null;
  },
): void {
  const track = window.tracks.get(placementId);
  if (track === undefined) return;
  if (sample.timeMs >= (window.hour + 1) * hourMs) {
    if (window.hour >= 0) closeHour(window);
    window.hour = Math.floor(sample.timeMs / hourMs);
  }
  // A probe that was pulled out measures the air: as if it were silent.
  if (isPulled(window, track, sample.timeMs)) takeSample(track, sample.timeMs, sample.value, 'bad');
  else takeSample(track, sample.timeMs, sample.value, sample.quality, sample.reason ?? null);
  window.touched = true;
  window.lastSampleMs = Math.max(window.lastSampleMs, sample.timeMs);
}

function isPulled({ probesOut: stretches }: PileWindow, { placed }: ChannelTrack, timeMs: number): boolean {
  if (stretches.length === 0 || placed.byHand === true || placed.placement.pileId === null) return false;
  return stretches.some(({ fromMs, toMs }) => fromMs <= timeMs && timeMs < toMs);
}

/** Takes an hour known only by its roll-ups, in time order and before every sample. */
export function addPastHour(window: PileWindow, hour: PastHour): void {
  if (hour.core !== null) {
    addHourToSums(window.sums, hour.core);
    putInGrid(window.coreHours, hour.startMs, hour.core.maximum, 'highest');
  }
  for (const track of window.tracks.values()) track.hourMean = Number.NaN;
  for (const { placementId, mean } of hour.means) {
    const track = window.tracks.get(placementId);
    if (track !== undefined) track.hourMean = mean;
  }
  keepHour(window, hour.startMs);
  window.pastUntilMs = hour.startMs + hourMs;
}

/** Draws the conclusions of an instant at which samples came: leaders, grids and sums. */
export function settle(window: PileWindow, atMs: number): void {
  noteLeaders(window.core, atMs, 1, leadMargin.temperature);
  noteLeaders(window.moisture, atMs, -1, leadMargin.moisture);
  atInstant(window, atMs);
  const { coreNow, hotNow, airNow, moistureNow } = window;
  if (coreNow.timeMs === atMs) keepCore(window, atMs);
  if (hotNow.timeMs === atMs) keepHottest(window, atMs);
  if (airNow.timeMs === atMs) putInGrid(window.airHours, atMs, airNow.value, 'lowest');
  if (moistureNow.timeMs === atMs) putInGrid(window.moistureHours, atMs, moistureNow.value, 'lowest');
}

/** The pile as known at an instant not before the last sample. Reused: the next call changes the same object. */
export function atInstant(window: PileWindow, nowMs: number): PileView {
  if (nowMs === window.nowMs && !window.touched) return window.view;
  window.nowMs = nowMs;
  window.touched = false;
  findExtreme(window.core, nowMs, 1, window.coreNow);
  findHottest(window.heat, window.coreNow.certainty, nowMs, window.hotNow);
  findExtreme(window.air, nowMs, -1, window.airNow);
  findExtreme(window.moisture, nowMs, -1, window.moistureNow);
  return window.view;
}

/** A bound is heat that is truly there, so sums take it; grids do not, because a trend over it would be a false fall. */
function keepCore(window: PileWindow, atMs: number): void {
  addToSums(window.sums, atMs, window.coreNow.value, window.coreNow.byHand);
  if (window.coreNow.certainty !== 'measured') return;
  putInGrid(window.coreGrid, atMs, window.coreNow.value, 'highest');
  putInGrid(window.coreHours, atMs, window.coreNow.value, 'highest');
}

/** As for the core: what a bound leaves out would look like a rise when it comes back. */
function keepHottest({ hotHours, hotGrid, hotNow }: PileWindow, atMs: number): void {
  putInGrid(hotHours, atMs, hotNow.value, 'highest');
  if (hotNow.certainty === 'measured') putInGrid(hotGrid, atMs, hotNow.value, 'highest');
}

function closeHour(window: PileWindow): void {
  for (const track of window.tracks.values()) closeTrackHour(track);
  keepHour(window, window.hour * hourMs);
}

/** The record is complete and nothing raw has been put in since: more hours would add nothing to it. */
function isRecordDone(window: PileWindow, hourStartMs: number): boolean {
  const { record, facts } = window;
  if (record?.standing.outcome !== 'consistent') return false;
  const addedMs = facts.journal.findLast(
    ({ kind, timeMs }) => kind === 'added' && timeMs < hourStartMs + hourMs,
  )?.timeMs;
  if (addedMs === undefined || addedMs <= record.standing.recordAtMs!) return true;
  window.record = null;
  return false;
}

/** Draws the conclusions of an hour whose means are in the tracks. */
function keepHour(window: PileWindow, startMs: number): void {
  const cores = window.core.map(({ hourMean }) => (Number.isNaN(hourMean) ? null : hourMean));
  const airCelsius = lowestMean(window.air);
  const moistureFraction = lowestMean(window.moisture);
  const isSilent = cores.every((mean) => mean === null);
  if (!(isSilent && Number.isNaN(airCelsius) && Number.isNaN(moistureFraction)))
    addHour(window.course, cores, { startMs, airCelsius, moistureFraction }, window.context);
  if (window.rule === null || isRecordDone(window, startMs)) return;
  const means = window.heat.map(({ hourMean }) => hourMean);
  const hotHours = window.sums.hoursAbove55;
  const fromCelsius = countsFromCelsius(window.rule);
  addRow(window.rows, window.heat, means, { startMs, hotHours, fromCelsius });
}

function lowestMean(tracks: readonly ChannelTrack[]): number {
  let lowest = Number.NaN;
  for (const { hourMean } of tracks) if (!(hourMean >= lowest) && !Number.isNaN(hourMean)) lowest = hourMean;
  return lowest;
}

function tracksOf(
  tracks: Map<string, ChannelTrack>,
  wanted: (placement: Placement) => boolean,
): ChannelTrack[] {
  // A copy takes only the room it needs; what a filter makes keeps room for many more, in every one of many piles.
  return [...tracks.values()].filter((track) => wanted(track.placed.placement)).slice();
}
