import type { ConditionId } from '../alarms/alarm.ts';
import type { Banded } from '../compost/forecast/banded.ts';
import type { JournalEntry, JournalKind } from '../yard/journal.ts';
import type { Pile, Stage } from '../yard/yard.ts';
import type { Certainty, Extreme } from './extreme.ts';
import { quickFoodLeft } from './materialLeft.ts';
import { type Outlook, outlookOf } from './outlook.ts';
import type { PileView } from './pileView.ts';
import type { PileWindow } from './pileWindow.ts';
import type { SanitisationStanding } from './sanitisationRecord.ts';
import { gridSamples } from './timeGrid.ts';
import { gridTrendPerHour } from './trend.ts';
import { moistureOfBalance } from './waterBalance.ts';
import { sanitisationOf, stageOf } from './windowStanding.ts';

const hourMs = 3_600_000;

/**
 * The view over a window. A class, so that ten thousand piles share one set of getters: as object literals with
 * accessors they took three times the memory.
 */
export class WindowView implements PileView {
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
    return (this.#window.nowMs - this.#window.facts.pile.startedMs) / hourMs;
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
  get coreByHand(): boolean {
    return known(this.#window.coreNow)?.byHand ?? false;
  }
  get hotCelsius(): number | null {
    return known(this.#window.hotNow)?.value ?? null;
  }
  get hotTimeMs(): number | null {
    return known(this.#window.hotNow)?.timeMs ?? null;
  }
  get hotCertainty(): Certainty {
    return this.#window.hotNow.certainty;
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
  get moistureByHand(): boolean {
    return known(this.#window.moistureNow)?.byHand ?? false;
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
  get lastAt55Ms(): number | null {
    return this.#window.sums.lastAt55Ms;
  }
  get stage(): Stage | null {
    return stageOf(this.#window);
  }
  get sanitisation(): SanitisationStanding | null {
    return sanitisationOf(this.#window);
  }
  get estimatedMoisture(): Banded {
    return moistureOfBalance(this.#window.course.memory.balance);
  }
  get materialLeft(): Banded {
    return quickFoodLeft(this.#window.course.memory.workDays);
  }
  get hasWorms(): boolean {
    return this.#window.wormsFromMs <= this.#window.nowMs;
  }
  trendCelsiusPerHour(hours: number): number | null {
    return trend(this.#window, hours);
  }
  hotTrendCelsiusPerHour(hours: number): number | null {
    const { hotGrid, nowMs } = this.#window;
    return gridTrendPerHour(hotGrid, Math.floor(nowMs / hotGrid.stepMs) * hotGrid.stepMs, hours);
  }
  heatOutlook(): Outlook | null {
    return heatOutlook(this.#window);
  }
  moistureOutlook(): Outlook | null {
    return moistureOutlook(this.#window);
  }
  meanAirCelsius(days: number): number | null {
    const { airHours, nowMs } = this.#window;
    return meanOf(gridSamples(airHours, nowMs - days * 24 * hourMs, nowMs).map(({ value }) => value));
  }
  meanCoreCelsius(days: number): number | null {
    const { coreHours, nowMs } = this.#window;
    const hours = gridSamples(coreHours, nowMs - days * 24 * hourMs, nowMs);
    return hours.length < days * 12 ? null : meanOf(hours.map(({ value }) => value));
  }
  highestCoreSince(fromMs: number): number | null {
    return highest(gridSamples(this.#window.coreHours, fromMs, this.#window.nowMs).map(({ value }) => value));
  }
  lastEntry(kinds: readonly JournalKind[]): JournalEntry | null {
    const { facts, nowMs } = this.#window;
    return facts.journal.findLast((entry) => entry.timeMs <= nowMs && kinds.includes(entry.kind)) ?? null;
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

const heatHours = 8;
const moistureHours = 72;
/** Water poured on a probe runs past it: what it says in the first hours after is no trend (our choice). */
const settlingHours = 6;

function heatOutlook(window: PileWindow): Outlook | null {
  const cell = Math.floor(window.nowMs / window.coreGrid.stepMs);
  if (window.heatAhead.cell !== cell)
    window.heatAhead = {
      cell,
      outlook: outlookOf(window.coreGrid, cell * window.coreGrid.stepMs, heatHours),
    };
  return window.heatAhead.outlook;
}

function moistureOutlook(window: PileWindow): Outlook | null {
  const { moistureHours: grid, nowMs, facts } = window;
  const cell = Math.floor(nowMs / grid.stepMs);
  if (window.moistureAhead.cell !== cell) {
    const watered = facts.journal.findLast(
      ({ timeMs, kind }) => timeMs <= nowMs && (kind === 'watered' || kind === 'added'),
    );
    const fromMs = watered === undefined ? 0 : watered.timeMs + settlingHours * hourMs;
    window.moistureAhead = { cell, outlook: outlookOf(grid, cell * grid.stepMs, moistureHours, fromMs) };
  }
  return window.moistureAhead.outlook;
}

function hottestOfDay(window: PileWindow): number | null {
  const cell = Math.floor(window.nowMs / window.hotHours.stepMs);
  if (window.day.cell !== cell) {
    const past = gridSamples(window.hotHours, (cell - 24) * window.hotHours.stepMs, window.nowMs);
    window.day = { cell, hottest: highest(past.map((sample) => sample.value)) };
  }
  const fresh = window.heat.filter((track) => window.nowMs - track.lastGoodMs <= 24 * hourMs);
  const values = fresh.map((track) => track.lastGood);
  const now = known(window.hotNow);
  if (now !== null) values.push(now.value);
  return highest(window.day.hottest === null ? values : [...values, window.day.hottest]);
}

function meanOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

function highest(values: readonly number[]): number | null {
  return values.length === 0 ? null : Math.max(...values);
}
