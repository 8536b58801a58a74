import { SegmentCursor } from './segmentCursor.ts';
import type { ZoneSeries } from './series.ts';

/**
 * The whole pile as watched stretches of time in order: during each, every required zone was heard. `lowest` is the
 * coolest any zone was, `highest` the hottest, `mean` the mean of the coolest zone. Time missing between two
 * stretches is unknown. Column arrays because a year of minutes is half a million rows.
 */
export interface ZoneRecord {
  readonly count: number;
  readonly fromMs: Float64Array;
  readonly toMs: Float64Array;
  readonly lowestCelsius: Float64Array;
  readonly highestCelsius: Float64Array;
  readonly meanCelsius: Float64Array;
  /** 1 where at least one zone was bridged over missing samples. */
  readonly bridged: Uint8Array;
}

export interface ZoneWindow {
  readonly fromMs: number;
  readonly toMs: number;
  readonly maximumGapMs: number;
}

/** Joins the series of all required zones. Throws `RangeError` when samples are out of order. */
export function joinZones(series: readonly ZoneSeries[], window: ZoneWindow): ZoneRecord {
  const cursors = series.map((one) => new SegmentCursor(one, window.maximumGapMs));
  const zones = [...new Set(series.map((one) => one.position))].map((zone) =>
    cursors.filter((cursor) => cursor.series.position === zone),
  );
  const longest = Math.max(0, ...series.map((one) => one.samples.length));
  const writer = new RecordWriter(longest + 1);
  let nowMs = window.fromMs;
  while (nowMs < window.toMs && cursors.length > 0) {
    for (const cursor of cursors) while (cursor.toMs <= nowMs) cursor.advance();
    const nextMs = Math.min(window.toMs, nextChange(cursors, nowMs));
    if (everyZoneHeard(zones, nowMs)) writer.add(nowMs, nextMs, cursors);
    nowMs = nextMs;
  }
  return writer.finish();
}

function nextChange(cursors: readonly SegmentCursor[], nowMs: number): number {
  let next = Number.POSITIVE_INFINITY;
  for (const cursor of cursors) {
    next = Math.min(next, cursor.fromMs > nowMs ? cursor.fromMs : cursor.toMs);
    if (cursor.placedFromMs > nowMs) next = Math.min(next, cursor.placedFromMs);
    if (cursor.placedToMs > nowMs) next = Math.min(next, cursor.placedToMs);
  }
  return next;
}

/** Every zone needs a channel in place, and every channel in place must be speaking. */
function everyZoneHeard(zones: readonly (readonly SegmentCursor[])[], nowMs: number): boolean {
  for (const cursors of zones) {
    let heard = false;
    for (const cursor of cursors) {
      if (!cursor.isPlacedAt(nowMs)) continue;
      if (cursor.fromMs > nowMs) return false;
      heard = true;
    }
    if (!heard) return false;
  }
  return true;
}

class RecordWriter {
  #count = 0;
  #columns: ReturnType<typeof makeColumns>;

  constructor(size: number) {
    this.#columns = makeColumns(size);
  }

  add(fromMs: number, toMs: number, cursors: readonly SegmentCursor[]): void {
    if (this.#count === this.#columns.bridged.length) this.#columns = grown(this.#columns);
    let lowest = Number.POSITIVE_INFINITY;
    let highest = Number.NEGATIVE_INFINITY;
    let mean = Number.POSITIVE_INFINITY;
    let bridged = 0;
    for (const cursor of cursors) {
      if (!cursor.isPlacedAt(fromMs)) continue;
      lowest = Math.min(lowest, cursor.lowest);
      highest = Math.max(highest, cursor.highest);
      mean = Math.min(mean, cursor.mean);
      if (cursor.bridged) bridged = 1;
    }
    const row = this.#count++;
    this.#columns.fromMs[row] = fromMs;
    this.#columns.toMs[row] = toMs;
    this.#columns.lowestCelsius[row] = lowest;
    this.#columns.highestCelsius[row] = highest;
    this.#columns.meanCelsius[row] = mean;
    this.#columns.bridged[row] = bridged;
  }

  finish(): ZoneRecord {
    return { count: this.#count, ...this.#columns };
  }
}

function makeColumns(size: number) {
  const column = () => new Float64Array(size);
  const temperatures = { lowestCelsius: column(), highestCelsius: column(), meanCelsius: column() };
  return { fromMs: column(), toMs: column(), ...temperatures, bridged: new Uint8Array(size) };
}

function grown(old: ReturnType<typeof makeColumns>): ReturnType<typeof makeColumns> {
  const larger = makeColumns(old.bridged.length * 2);
  for (const name of Object.keys(old) as (keyof typeof old)[]) larger[name].set(old[name]);
  return larger;
}
