import { evaluateAll } from '../compost/sanitisation/evaluate.ts';
import type { SanitisationInput } from '../compost/sanitisation/input.ts';
import { defaultSanitisationPolicy } from '../compost/sanitisation/policy.ts';
import type { SanitisationResult } from '../compost/sanitisation/result.ts';
import type { RuleSet } from '../compost/sanitisation/ruleSet.ts';
import type { Position, TemperatureUnit } from '../yard/yard.ts';
import type { PlacedChannel } from './channelTrack.ts';
import type { PastHour } from './pastHour.ts';
import { recordChannels, zoneSeriesOf } from './recordChannels.ts';
import type { Past } from './replayPast.ts';

const hourMs = 3_600_000;

/** What a heat record is made from: a pile's past by the hour, up to a moment. */
export type RecordSource = Pick<Past, 'facts' | 'hoursBefore'>;

/** Judges a pile's whole past against some rules; the live standing on walls comes to the same by the hours it keeps. */
export function heatRecord(
  source: RecordSource,
  rules: readonly RuleSet[],
  nowMs: number,
  temperatureUnit: TemperatureUnit,
): SanitisationResult[] {
  return evaluateAll(rules, inputOf(source, nowMs), { ...defaultSanitisationPolicy, temperatureUnit });
}

function inputOf({ facts, hoursBefore = [] }: RecordSource, nowMs: number): SanitisationInput {
  const samples = samplesByPlacement(hoursBefore);
  const of = (placed: PlacedChannel) => samples.get(placed.placement.id) ?? [];
  const heat = facts.placed.filter(({ placement }) => isHeat(placement));
  const series = recordChannels(
    heat.map((placed) => ({ placed })),
    nowMs,
  ).map(({ placed }) => zoneSeriesOf(placed, of(placed)));
  const moisture = facts.placed
    .filter(({ placement }) => placement.quantity === 'moisture')
    .flatMap(of)
    .sort((one, other) => one.timeMs - other.timeMs);
  const { method, startedMs } = facts.pile;
  return { method, startedMs, nowMs, series, journal: facts.journal, moisture, largestPieceMetres: null };
}

const isHeat = ({ quantity, position }: PlacedChannel['placement']): boolean =>
  quantity === 'temperature' && position !== 'air';

/** An hour's mean as an instant in its middle, so that between two hours the cooler one counts. */
function samplesByPlacement(hours: readonly PastHour[]): Map<string, { timeMs: number; value: number }[]> {
  const samples = new Map<string, { timeMs: number; value: number }[]>();
  for (const { startMs, means } of hours)
    for (const { placementId, mean } of means) {
      const own = samples.get(placementId) ?? [];
      samples.set(placementId, own);
      own.push({ timeMs: startMs + hourMs / 2, value: mean });
    }
  return samples;
}

/** Hours in which nothing good was heard of a channel that stood in the pile. */
export interface RecordGap {
  readonly placementId: string;
  readonly position: Position;
  readonly fromMs: number;
  readonly toMs: number;
}

/** Every stretch of at least `leastHours` without a good reading of a probe's temperature, in time order. */
export function recordGaps(
  { facts, hoursBefore = [] }: RecordSource,
  nowMs: number,
  leastHours = 2,
): RecordGap[] {
  const gaps: RecordGap[] = [];
  for (const { placement, byHand } of facts.placed) {
    if (byHand === true || !isHeat(placement)) continue;
    const { id: placementId, position } = placement;
    const heard = hoursBefore.filter(({ means }) => means.some((one) => one.placementId === placementId));
    const endMs = Math.min(placement.toMs ?? nowMs, nowMs);
    let untilMs = Math.max(facts.pile.startedMs, placement.fromMs);
    for (const startMs of [...heard.map((hour) => hour.startMs), endMs]) {
      if (startMs - untilMs >= leastHours * hourMs)
        gaps.push({ placementId, position, fromMs: untilMs, toMs: startMs });
      untilMs = startMs + hourMs;
    }
  }
  return gaps.sort((one, other) => one.fromMs - other.fromMs);
}
