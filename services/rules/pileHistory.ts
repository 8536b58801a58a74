import { type ProbesOut, probesOut } from '../../shared/readings/handling.ts';
import { type PastHour, type PlacementHour, pastHoursOf } from '../../shared/rules/pastHour.ts';
import { type PileSample, type PileSubject, refill, renewWindow } from '../../shared/rules/pileSubject.ts';
import { addPastHour, type PileFacts } from '../../shared/rules/pileWindow.ts';
import { trailDays } from '../../shared/rules/timerTrail.ts';
import type { Placement } from '../../shared/yard/yard.ts';
import type { Rollup, SeriesStore } from '../series/port.ts';
import { isFromFuture } from './probeDesk.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** Raw readings are read this far back; before that the hourly roll-ups must do. A day more than can be judged again. */
const rawDays = trailDays + 1;

/** Days of hourly roll-ups read for the grids and sums. */
const rollupDays = 400;

/** What a window is built again from, besides the store. */
export interface RebuildUntil {
  readonly beforeMs: number;
  readonly nowMs: number;
  /** Only readings stored up to here count: later ones are on their way by themselves. */
  readonly sequence: number;
  /** Readings by hand that were taken before, in time order. */
  readonly hands: readonly PileSample[];
  /** The yard's air, shared by all piles that are built at one time. */
  readonly air?: AirHistory;
}

/**
 * Builds a pile's window again from the store: roll-ups for the far past, raw readings for the last days, up to (not
 * including) `beforeMs`. Returns the raw readings from then on, which are still to be judged.
 */
export async function rebuildPile(
  pile: PileSubject,
  facts: PileFacts,
  series: SeriesStore,
  until: RebuildUntil,
): Promise<PileSample[]> {
  const earliestMs = Math.min(until.beforeMs, until.nowMs) - rawDays * dayMs;
  const rawFromMs = Math.max(facts.pile.startedMs, Math.floor(earliestMs / hourMs) * hourMs);
  const air = until.air ?? createAirHistory(series, until.sequence);
  const [stored, hours] = await Promise.all([
    readSamples(facts, series, rawFromMs, until.sequence, air),
    readHours(facts, series, rawFromMs, until.hands, air),
  ]);
  const samples = [...stored, ...until.hands.filter(({ timeMs }) => timeMs >= rawFromMs)];
  samples.sort((a, b) => a.timeMs - b.timeMs);
  renewWindow(pile, facts);
  for (const hour of hours) addPastHour(pile.window, hour);
  const split = samples.findIndex((sample) => sample.timeMs >= until.beforeMs);
  const before = split === -1 ? samples : samples.slice(0, split);
  refill(pile, before);
  return split === -1 ? [] : samples.slice(split);
}

/** The yard's air stands behind every pile: read once for a stretch, its samples are the same objects for all. */
export interface AirHistory {
  readonly samples: (placement: Placement, fromMs: number) => Promise<readonly PileSample[]>;
  readonly hours: (placement: Placement, fromMs: number, toMs: number) => Promise<readonly Rollup[]>;
}

export function createAirHistory(series: SeriesStore, sequence: number): AirHistory {
  const read = new Map<string, Promise<unknown>>();
  function once<Answer>(key: string, ask: () => Promise<Answer>): Promise<Answer> {
    const answer = (read.get(key) as Promise<Answer> | undefined) ?? ask();
    read.set(key, answer);
    return answer;
  }
  return {
    samples: (placement, fromMs) =>
      once(`${placement.id} ${fromMs}`, () => samplesOf(placement, series, fromMs, sequence)),
    hours: (placement, fromMs, toMs) =>
      once(`${placement.id} ${fromMs} ${toMs}`, () =>
        series.rollups(placement.channel, 'hour', fromMs, toMs),
      ),
  };
}

async function readSamples(
  facts: PileFacts,
  series: SeriesStore,
  fromMs: number,
  sequence: number,
  air: AirHistory,
): Promise<PileSample[]> {
  const lists = await Promise.all(
    facts.placed
      .filter(({ byHand }) => byHand !== true)
      .map(({ placement }) =>
        placement.pileId === null
          ? air.samples(placement, fromMs)
          : samplesOf(placement, series, fromMs, sequence),
      ),
  );
  return lists.flat();
}

async function samplesOf(
  placement: Placement,
  series: SeriesStore,
  fromMs: number,
  sequence: number,
): Promise<PileSample[]> {
  const stretch = overlap(placement, fromMs, Number.MAX_SAFE_INTEGER);
  if (stretch === null) return [];
  const readings = await series.range({ channel: placement.channel, ...stretch, quality: 'all' });
  return readings
    .filter((reading) => reading.sequence <= sequence && !isFromFuture(reading))
    .map(({ timeMs, value, quality, reason }) => ({
      placementId: placement.id,
      timeMs,
      value,
      quality,
      reason,
    }));
}

/** Hours before the raw stretch: of each, the hottest core channel and the mean of every channel. */
export async function readHours(
  facts: PileFacts,
  series: SeriesStore,
  endMs: number,
  hands: readonly PileSample[],
  air: AirHistory,
): Promise<PastHour[]> {
  const fromMs = Math.max(facts.pile.startedMs, endMs - rollupDays * dayMs);
  if (fromMs >= endMs) return [];
  const out = probesOut(facts.journal);
  const hours: PlacementHour[] = handHours(facts, hands, fromMs, endMs);
  for (const { placement, byHand } of facts.placed) {
    const { id: placementId, channel, quantity, pileId } = placement;
    if (byHand === true || (quantity !== 'temperature' && quantity !== 'moisture')) continue;
    const stretch = overlap(placement, fromMs, endMs);
    if (stretch === null) continue;
    const read =
      pileId === null
        ? await air.hours(placement, stretch.fromMs, stretch.toMs)
        : await series.rollups(channel, 'hour', stretch.fromMs, stretch.toMs);
    for (const hour of read)
      if (pileId === null || !isIn(out, hour.startMs))
        hours.push({ ...hour, placementId, isCore: isCoreHeat(placement) });
  }
  return pastHoursOf(hours);
}

/** Readings by hand as hours of their own: a reading is all that is known of its hour. */
function handHours(
  { placed }: PileFacts,
  hands: readonly PileSample[],
  fromMs: number,
  endMs: number,
): PlacementHour[] {
  return hands
    .filter(({ timeMs, quality }) => timeMs >= fromMs && timeMs < endMs && quality === 'good')
    .map(({ placementId, timeMs, value }) => {
      const channel = placed.find(({ placement }) => placement.id === placementId);
      const isCore = channel !== undefined && isCoreHeat(channel.placement);
      const startMs = Math.floor(timeMs / hourMs) * hourMs;
      const values = { minimum: value, maximum: value, mean: value };
      return { placementId, isCore, byHand: true, startMs, count: 1, ...values };
    });
}

const isCoreHeat = ({ quantity, position }: Placement): boolean =>
  quantity === 'temperature' && position === 'core';

const isIn = (stretches: readonly ProbesOut[], timeMs: number): boolean =>
  stretches.some(({ fromMs, toMs }) => fromMs <= timeMs && timeMs < toMs);

function overlap(
  placement: Placement,
  fromMs: number,
  toMs: number,
): { fromMs: number; toMs: number } | null {
  const from = Math.max(placement.fromMs, fromMs);
  const to = Math.min(placement.toMs ?? Number.MAX_SAFE_INTEGER, toMs);
  return from < to ? { fromMs: from, toMs: to } : null;
}
