import { isBridged, longestWatchedMs, type ZoneSeries } from './series.ts';

/**
 * Walks one series as watched stretches of time, each with its coolest, hottest and mean temperature. Two instants
 * vouch for the time between them only together, so the cooler of them is the coolest of the stretch.
 */
export class SegmentCursor {
  readonly series: ZoneSeries;
  readonly placedFromMs: number;
  readonly placedToMs: number;
  fromMs = Number.POSITIVE_INFINITY;
  toMs = Number.POSITIVE_INFINITY;
  lowest = 0;
  highest = 0;
  mean = 0;
  bridged = false;
  #next = 0;
  readonly #watchedMs: number;

  constructor(series: ZoneSeries, maximumGapMs: number) {
    this.series = series;
    this.placedFromMs = series.fromMs ?? Number.NEGATIVE_INFINITY;
    this.placedToMs = series.toMs ?? Number.POSITIVE_INFINITY;
    this.#watchedMs = longestWatchedMs(series, maximumGapMs);
    this.advance();
  }

  isPlacedAt(timeMs: number): boolean {
    return timeMs >= this.placedFromMs && timeMs < this.placedToMs;
  }

  /** Moves to the next watched stretch; past the last one it stands at infinity. */
  advance(): void {
    const { samples } = this.series;
    while (this.#next < samples.length) {
      const index = this.#next++;
      if (this.series.represents === 'means' ? this.#takeMean(index) : this.#takeInstants(index)) return;
    }
    this.fromMs = Number.POSITIVE_INFINITY;
    this.toMs = Number.POSITIVE_INFINITY;
  }

  #takeInstants(index: number): boolean {
    const from = this.series.samples[index]!;
    const to = this.series.samples[index + 1];
    if (to === undefined) return false;
    const spacingMs = this.#spacing(from.timeMs, to.timeMs);
    if (spacingMs > this.#watchedMs) return false;
    this.bridged = isBridged(this.series, spacingMs);
    this.lowest = Math.min(from.value, to.value);
    this.highest = Math.max(from.value, to.value);
    this.mean = (from.value + to.value) / 2;
    return this.#clip(from.timeMs, to.timeMs);
  }

  #takeMean(index: number): boolean {
    const { timeMs, value } = this.series.samples[index]!;
    const next = this.series.samples[index + 1];
    const spacingMs = next === undefined ? Number.POSITIVE_INFINITY : this.#spacing(timeMs, next.timeMs);
    this.lowest = value;
    this.highest = value;
    this.mean = value;
    this.bridged = false;
    return this.#clip(timeMs, timeMs + (spacingMs <= this.#watchedMs ? spacingMs : this.series.intervalMs));
  }

  #spacing(fromMs: number, toMs: number): number {
    if (toMs > fromMs) return toMs - fromMs;
    throw new RangeError(
      `samples of ${this.series.channel} must be in rising time order; ${toMs} follows ${fromMs}`,
    );
  }

  #clip(fromMs: number, toMs: number): boolean {
    this.fromMs = Math.max(fromMs, this.placedFromMs);
    this.toMs = Math.min(toMs, this.placedToMs);
    return this.fromMs < this.toMs;
  }
}
