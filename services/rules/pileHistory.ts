import { type PastHour, type PlacementHour, pastHoursOf } from '../../shared/rules/pastHour.ts';
import { type PileSample, type PileSubject, refill, renewWindow } from '../../shared/rules/pileSubject.ts';
import { addPastHour, type PileFacts } from '../../shared/rules/pileWindow.ts';
import { trailDays } from '../../shared/rules/timerTrail.ts';
import type { Placement } from '../../shared/yard/yard.ts';
import type { SeriesStore } from '../series/port.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** Raw readings are read this far back; before that the hourly roll-ups must do. A day more than can be judged again. */
const rawDays = trailDays + 1;

/** Days of hourly roll-ups read for the grids and sums. */
const rollupDays = 400;

/**
 * Builds a pile's window again from the store: roll-ups for the far past, raw readings for the last days, up to (not
 * including) `beforeMs`. Returns the raw readings from then on, which are still to be judged. Only readings stored up
 * to `sequence` count: later ones are on their way by themselves.
 */
export async function rebuildPile(
  pile: PileSubject,
  facts: PileFacts,
  series: SeriesStore,
  until: { readonly beforeMs: number; readonly nowMs: number; readonly sequence: number },
): Promise<PileSample[]> {
  const earliestMs = Math.min(until.beforeMs, until.nowMs) - rawDays * dayMs;
  const rawFromMs = Math.max(facts.pile.startedMs, Math.floor(earliestMs / hourMs) * hourMs);
  const samples = await readSamples(facts, series, rawFromMs, until.sequence);
  const hours = await readHours(facts, series, rawFromMs);
  renewWindow(pile, facts);
  for (const hour of hours) addPastHour(pile.window, hour);
  const split = samples.findIndex((sample) => sample.timeMs >= until.beforeMs);
  const before = split === -1 ? samples : samples.slice(0, split);
  refill(pile, before);
  return split === -1 ? [] : samples.slice(split);
}

async function readSamples(
  facts: PileFacts,
  series: SeriesStore,
  fromMs: number,
  sequence: number,
): Promise<PileSample[]> {
  const lists = await Promise.all(
    facts.placed.map(async ({ placement }) => {
      const stretch = overlap(placement, fromMs, Number.MAX_SAFE_INTEGER);
      if (stretch === null) return [];
      const readings = await series.range({ channel: placement.channel, ...stretch, quality: 'all' });
      return readings
        .filter((reading) => reading.sequence <= sequence)
        .map(({ timeMs, value, quality, reason }) => ({
          placementId: placement.id,
          timeMs,
          value,
          quality,
          reason,
        }));
    }),
  );
  return lists.flat().sort((a, b) => a.timeMs - b.timeMs);
}

/** Hours before the raw stretch: of each, the hottest core channel and the mean of every channel. */
async function readHours(facts: PileFacts, series: SeriesStore, endMs: number): Promise<PastHour[]> {
  const fromMs = Math.max(facts.pile.startedMs, endMs - rollupDays * dayMs);
  if (fromMs >= endMs) return [];
  const hours: PlacementHour[] = [];
  for (const { placement } of facts.placed) {
    const { id: placementId, channel, quantity, position } = placement;
    if (quantity !== 'temperature' && quantity !== 'moisture') continue;
    const stretch = overlap(placement, fromMs, endMs);
    if (stretch === null) continue;
    const isCore = quantity === 'temperature' && position === 'core';
    for (const hour of await series.rollups(channel, 'hour', stretch.fromMs, stretch.toMs))
      hours.push({ ...hour, placementId, isCore });
  }
  return pastHoursOf(hours);
}

function overlap(
  placement: Placement,
  fromMs: number,
  toMs: number,
): { fromMs: number; toMs: number } | null {
  const from = Math.max(placement.fromMs, fromMs);
  const to = Math.min(placement.toMs ?? Number.MAX_SAFE_INTEGER, toMs);
  return from < to ? { fromMs: from, toMs: to } : null;
}
