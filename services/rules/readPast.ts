import { handSamples } from '../../shared/rules/byHand.ts';
import type { PlacedChannel } from '../../shared/rules/channelTrack.ts';
import type { PileFacts } from '../../shared/rules/pileWindow.ts';
import { flagOfReason, type Past, type PastChannel, qualityByFlag } from '../../shared/rules/replayPast.ts';
import type { PileId } from '../../shared/yard/yard.ts';
import type { Records } from '../records/port.ts';
import type { SeriesStore, StoredReading } from '../series/port.ts';
import { createAirHistory, readHours } from './pileHistory.ts';
import { isFromFuture } from './probeDesk.ts';
import { pileFactsOf, readYardFacts } from './yardFacts.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** Readings are asked for some days at a time, so that other work gets its turn in between. */
const daysAtOnce = 7;

export interface PastSources {
  readonly records: Records;
  readonly series: SeriesStore;
  readonly nowMs: number;
  readonly defaultIntervalSeconds: number;
}

/**
 * A stretch of a pile's past as judgement would read it: facts by the very functions the live runner uses, every
 * reading in columns, and the hours before by their roll-ups. An ended pile as it was when it ended. Null when there is
 * no such pile.
 */
export async function readPast(
  sources: PastSources,
  pileId: PileId,
  span: { readonly fromMs: number; readonly toMs: number },
): Promise<Past | null> {
  const { records, series, nowMs } = sources;
  const pile = await records.piles.get(pileId);
  const yard = pile === null ? null : await records.yards.get(pile.yardId);
  if (pile === null || yard === null) return null;
  const atMs = pile.endedMs === null ? nowMs : pile.endedMs - 1;
  const facts = pileFactsOf(await readYardFacts(records, yard, atMs), pile, sources.defaultIntervalSeconds);
  const fromMs = Math.max(Math.floor(span.fromMs / hourMs) * hourMs, pile.startedMs);
  const toMs = Math.min(span.toMs, pile.endedMs ?? span.toMs, nowMs);
  const channels: PastChannel[] = [];
  for (const placed of facts.placed)
    channels.push(
      placed.byHand === true
        ? handColumn(facts, placed, fromMs, toMs)
        : await probeColumn(series, placed, fromMs, toMs),
    );
  const air = createAirHistory(series, Number.MAX_SAFE_INTEGER);
  const hands = handSamples(facts);
  const hoursBefore = await readHours(facts, series, fromMs, hands, air);
  return { facts, channels, hoursBefore, toMs };
}

async function probeColumn(
  series: SeriesStore,
  { placement }: PlacedChannel,
  fromMs: number,
  toMs: number,
): Promise<PastChannel> {
  const parts: StoredReading[][] = [];
  const from = Math.max(fromMs, placement.fromMs);
  const to = Math.min(toMs + 1, placement.toMs ?? toMs + 1);
  for (let partMs = from; partMs < to; partMs += daysAtOnce * dayMs) {
    const stretch = { fromMs: partMs, toMs: Math.min(to, partMs + daysAtOnce * dayMs) };
    const readings = await series.range({ channel: placement.channel, ...stretch, quality: 'all' });
    parts.push(readings.filter((reading) => !isFromFuture(reading)));
  }
  return columnOf(placement.id, parts);
}

function handColumn(
  facts: PileFacts,
  { placement }: PlacedChannel,
  fromMs: number,
  toMs: number,
): PastChannel {
  const own = handSamples(facts).filter(
    ({ placementId, timeMs }) => placementId === placement.id && timeMs >= fromMs && timeMs <= toMs,
  );
  return columnOf(placement.id, [own.map((sample) => ({ ...sample, reason: sample.reason ?? null }))]);
}

type Judged = Pick<StoredReading, 'timeMs' | 'value' | 'quality' | 'reason'>;

function columnOf(placementId: string, parts: readonly (readonly Judged[])[]): PastChannel {
  const length = parts.reduce((sum, part) => sum + part.length, 0);
  const column = {
    placementId,
    timesMs: new Float64Array(length),
    values: new Float64Array(length),
    quality: new Uint8Array(length),
    reasons: new Uint8Array(length),
  };
  let row = 0;
  for (const part of parts)
    for (const { timeMs, value, quality, reason } of part) {
      column.timesMs[row] = timeMs;
      column.values[row] = value;
      column.quality[row] = qualityByFlag.indexOf(quality);
      column.reasons[row] = flagOfReason(reason);
      row += 1;
    }
  return column;
}
