import type { JournalEntry, JournalKind } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import type { Placement, Position, Quantity } from '../../yard/yard.ts';
import type { PlacedChannel } from '../channelTrack.ts';
import type { PileSample } from '../pileSubject.ts';
import type { PileFacts } from '../pileWindow.ts';

/** Start of every test pile: a whole hour, UTC. */
export const startMs = 1_700_006_400_000;
export const minuteMs = 60_000;
export const hourMs = 3_600_000;

/** A placed channel named by its id, from the start of the pile. */
export function placed(
  id: string,
  position: Position = 'core',
  quantity: Quantity = 'temperature',
  change: Partial<Placement> = {},
): PlacedChannel {
  const placement: Placement = {
    id,
    yardId: 'gannet-row',
    pileId: 'cage-2',
    channel: `urn:dev:ow:${id}`,
    quantity,
    position,
    depthMetres: null,
    fromMs: startMs,
    toMs: null,
    ...change,
  };
  return { placement, maxAgeMinutes: 60 };
}

/** Facts of a pile with one core channel `a`, unless said otherwise. */
export function testFacts(
  change: {
    readonly method?: PileMethod;
    readonly channels?: readonly PlacedChannel[];
    readonly journal?: readonly JournalEntry[];
  } = {},
): PileFacts {
  return {
    pile: {
      id: 'cage-2',
      yardId: 'gannet-row',
      name: 'Cage 2',
      place: 'bay 3',
      method: change.method ?? 'static-cage',
      startedMs: startMs,
      endedMs: null,
    },
    placed: change.channels ?? [placed('a')],
    journal: change.journal ?? [],
  };
}

/** A journal entry some hours after the start. */
export function wrote(kind: JournalKind, hours: number): JournalEntry {
  const timeMs = startMs + hours * hourMs;
  return {
    id: `${kind}-${hours}`,
    pileId: 'cage-2',
    timeMs,
    kind,
    value: null,
    note: '',
    by: null,
    recordedAtMs: timeMs,
  };
}

/** Good samples of one channel from `[minutes after start, value]` pairs. */
export function samplesOf(placementId: string, pairs: readonly (readonly [number, number])[]): PileSample[] {
  return pairs.map(([minutes, value]) => ({
    placementId,
    timeMs: startMs + minutes * minuteMs,
    value,
    quality: 'good',
  }));
}

/** Good samples of one channel every `stepMinutes`, value by hours after the start. */
export function course(
  placementId: string,
  fromHours: number,
  toHours: number,
  valueAt: (hours: number) => number,
  stepMinutes = 5,
): PileSample[] {
  const pairs: [number, number][] = [];
  for (let minutes = fromHours * 60; minutes < toHours * 60; minutes += stepMinutes)
    pairs.push([minutes, valueAt(minutes / 60)]);
  return samplesOf(placementId, pairs);
}

/** Several channels' samples in one time order. */
export function merged(...lists: readonly (readonly PileSample[])[]): PileSample[] {
  return lists.flat().sort((a, b) => a.timeMs - b.timeMs);
}

export const defaultLimits = { version: 0, overrides: {} };
