import type { SanitisationInput } from '../compost/sanitisation/input.ts';
import type { ZoneSeries } from '../compost/sanitisation/series.ts';
import type { Pile } from '../yard/yard.ts';
import type { ChannelTrack } from './channelTrack.ts';
import type { PileFacts } from './pileWindow.ts';
import { recordChannels, zoneSeriesOf } from './recordChannels.ts';

/** Rows kept: sixty days at temperature. Older ones fall out; no rule asks for so many. */
const mostRows = 1440;
const firstRows = 64;
const hourMs = 3_600_000;

/**
 * The hours that bear on a pile's sanitisation record: hourly means of every temperature channel in it, for each hour
 * in which any was at the rule's temperature, and the hour after. The hours left out are cool ones, and a cool hour
 * after a hot one has ended the run already, so a rule reads the same from these rows as from all of them.
 */
export interface SanitisationRows {
  count: number;
  /** Rows taken in all, those that fell out among them. */
  taken: number;
  startMs: Float64Array;
  /** Hours above 55 C so far, at the end of the row's hour. */
  hotHours: Float32Array;
  /** Means by placement; NaN where silent. */
  readonly means: Map<string, Float32Array>;
  lastWasHot: boolean;
}

export function createRows(): SanitisationRows {
  return {
    count: 0,
    taken: 0,
    startMs: new Float64Array(0),
    hotHours: new Float32Array(0),
    means: new Map(),
    lastWasHot: false,
  };
}

/** Takes an hour if it bears on the record: `means` in the order of `tracks`. Returns whether it was kept. */
export function addRow(
  rows: SanitisationRows,
  tracks: readonly ChannelTrack[],
  means: readonly number[],
  hour: { readonly startMs: number; readonly hotHours: number; readonly fromCelsius: number },
): boolean {
  const isHot = means.some((mean) => mean >= hour.fromCelsius);
  if (!isHot && !rows.lastWasHot) return false;
  // An hour that is known already, by roll-ups say, stays as it is when readings of it come late.
  if (rows.count > 0 && hour.startMs <= rows.startMs[rows.count - 1]!) return false;
  rows.lastWasHot = isHot;
  makeRoom(rows);
  const row = rows.count++;
  rows.taken += 1;
  rows.startMs[row] = hour.startMs;
  rows.hotHours[row] = hour.hotHours;
  tracks.forEach((track, index) => {
    columnOf(rows, track.placed.placement.id)[row] = means[index]!;
  });
  return true;
}

/** What the rules read: each hour's mean as an instant in its middle, so that between two hours the cooler one counts. */
export function inputOf(
  rows: SanitisationRows,
  facts: PileFacts,
  tracks: readonly ChannelTrack[],
  nowMs: number,
): SanitisationInput {
  const { method, startedMs }: Pile = facts.pile;
  const series = recordChannels(tracks, nowMs).map((track) => seriesOf(rows, track));
  return { method, startedMs, nowMs, series, journal: facts.journal, moisture: [], largestPieceMetres: null };
}

/** Hours above 55 C the pile had had by a time, as far as the rows say. */
export function hotHoursAt(rows: SanitisationRows, timeMs: number): number {
  let hours = 0;
  for (let row = 0; row < rows.count && rows.startMs[row]! < timeMs; row += 1) hours = rows.hotHours[row]!;
  return hours;
}

function seriesOf(rows: SanitisationRows, { placed }: ChannelTrack): ZoneSeries {
  const column = rows.means.get(placed.placement.id);
  const samples = [];
  for (let row = 0; row < rows.count; row += 1) {
    const value = column?.[row] ?? Number.NaN;
    if (!Number.isNaN(value)) samples.push({ timeMs: rows.startMs[row]! + hourMs / 2, value });
  }
  return zoneSeriesOf(placed, samples);
}

function columnOf(rows: SanitisationRows, placementId: string): Float32Array {
  const held = rows.means.get(placementId);
  if (held !== undefined) return held;
  const fresh = new Float32Array(rows.startMs.length).fill(Number.NaN);
  rows.means.set(placementId, fresh);
  return fresh;
}

function makeRoom(rows: SanitisationRows): void {
  if (rows.count === mostRows) dropOldest(rows, 24);
  if (rows.count < rows.startMs.length) return;
  const size = Math.min(mostRows, Math.max(firstRows, rows.count * 2));
  const startMs = new Float64Array(size);
  startMs.set(rows.startMs);
  rows.startMs = startMs;
  rows.hotHours = grown(rows.hotHours, size);
  for (const [id, column] of rows.means) rows.means.set(id, grown(column, size));
}

function grown(column: Float32Array, size: number): Float32Array {
  const larger = new Float32Array(size).fill(Number.NaN);
  larger.set(column);
  return larger;
}

function dropOldest(rows: SanitisationRows, dropped: number): void {
  rows.startMs.copyWithin(0, dropped);
  rows.hotHours.copyWithin(0, dropped);
  for (const column of rows.means.values()) {
    column.copyWithin(0, dropped);
    column.fill(Number.NaN, rows.count - dropped);
  }
  rows.count -= dropped;
}
