import { mayBeTurned } from '../../yard/method.ts';
import type { Situation } from '../advice/safety.ts';
import type { KindId, Seen } from '../kind.ts';
import type { Observations } from '../observations.ts';
import { expectedHeat } from '../tables/food.ts';
import { steepestFall, swingShare } from './courseFacts.ts';
import type { DiagnosisFacts } from './facts.ts';
import { freshSqueeze, moistureEvidence, squeezeAgrees } from './moistureFacts.ts';
import { notedIn } from './notedFacts.ts';
import { responsesTo, workOn } from './responseFacts.ts';
import { dayMs, hourMs, meanOf, nearest, within } from './samples.ts';

type Found = { readonly [Kind in KindId]?: Seen | null };

/** What can be observed from the facts. What they do not tell is left out. */
export function observationsFrom(facts: DiagnosisFacts): Observations {
  const found: Found = {
    ...moistureFound(facts),
    ...foodFound(facts),
    ...courseFound(facts),
    ...workFound(facts),
    ...surroundingsFound(facts),
    ...probeFound(facts),
    ...notedIn(facts.journal, facts.nowMs),
    ...responsesTo(facts),
  };
  return Object.fromEntries(Object.entries(found).filter(([, seen]) => seen !== null)) as Observations;
}

/** What decides whether a deed is safe to advise. A burnt smell is a sign of fire. */
export function situationFrom(facts: DiagnosisFacts): Situation {
  const recent = within(facts.core, facts.nowMs - 6 * hourMs, facts.nowMs);
  return {
    method: facts.method,
    stage: facts.stage,
    hottestCelsius: facts.hottestOfDayCelsius,
    isRising: recent.length > 1 && recent.at(-1)!.value > recent[0]!.value,
    hasSignsOfFire: notedIn(facts.journal, facts.nowMs).smell === 'burnt',
    moisture: moistureEvidence(facts),
  };
}

function moistureFound(facts: DiagnosisFacts): Found {
  const score = freshSqueeze(facts);
  const { moistureFraction, method } = facts;
  const agrees =
    score === null || moistureFraction === null ? null : squeezeAgrees(score, moistureFraction, method);
  return {
    moistureFraction,
    squeezeScore: score,
    squeezeAgainstProbe: agrees === null ? null : agrees ? 'agrees' : 'disagrees',
    estimatedMoistureFraction: moistureFraction === null && score === null ? facts.estimatedMoisture : null,
    builtMoistureFraction: facts.mix?.moistureFraction ?? null,
  };
}

function foodFound({
  method,
  mix,
  degreeHoursAbove40,
  materialLeft,
  nowMs,
  startedMs,
}: DiagnosisFacts): Found {
  return {
    degradableLeft: materialLeft,
    heatShare: degreeHoursAbove40 === null ? null : degreeHoursAbove40 / 24 / expectedHeat[method].above40,
    ageDays: (nowMs - startedMs) / dayMs,
    carbonToNitrogen: mix?.carbonToNitrogen ?? null,
    freeAirSpaceFraction: mix?.freeAirSpaceFraction ?? null,
  };
}

function courseFound(facts: DiagnosisFacts): Found {
  const { core, air, nowMs } = facts;
  const now = nearest(core, nowMs, 3 * hourMs);
  const airOfDay = meanOf(within(air, nowMs - dayMs, nowMs), 6);
  const recent = within(core, nowMs - 6 * hourMs, nowMs);
  const workMs = workOn(facts).map(({ timeMs }) => timeMs);
  const wasWorked = (timeMs: number) => workMs.some((at) => timeMs >= at && timeMs <= at + dayMs);
  return {
    riseOverAirCelsius: now === null || airOfDay === null ? null : now - airOfDay,
    trendCelsiusPerHour: recent.length < 4 ? null : slopePerHour(recent[0]!, recent.at(-1)!),
    steepestFallCelsiusPerHour: steepestFall(core, nowMs, wasWorked),
    coreMinusEdgeCelsius: now === null || facts.edgeCelsius === null ? null : now - facts.edgeCelsius,
    peakCelsius: facts.peakCelsius,
    hottestCelsius: facts.hottestOfDayCelsius,
    meanCoreCelsius: meanOf(within(core, nowMs - 3 * dayMs, nowMs), 24),
    followsAir: swingShare(core, air, nowMs),
  };
}

function slopePerHour(
  first: { timeMs: number; value: number },
  last: { timeMs: number; value: number },
): number {
  return ((last.value - first.value) / Math.max(1, last.timeMs - first.timeMs)) * hourMs;
}

function workFound(facts: DiagnosisFacts): Found {
  const { journal, nowMs, startedMs, method, volumeM3 } = facts;
  const past = journal.filter(({ timeMs }) => timeMs <= nowMs);
  const last = workOn(facts).at(-1);
  const turnedMs = past.findLast(({ kind }) => kind === 'turned')?.timeMs ?? startedMs;
  const watered = past.filter(({ kind, value }) => kind === 'watered' && value !== null);
  const litres = watered
    .filter(({ timeMs }) => timeMs > nowMs - 7 * dayMs)
    .reduce((sum, one) => sum + one.value!, 0);
  return {
    hoursSinceWork: last === undefined ? null : (nowMs - last.timeMs) / hourMs,
    daysSinceTurned: mayBeTurned(method) ? (nowMs - turnedMs) / dayMs : null,
    // Nobody may have written waterings down: none at all is "not known", not "none".
    litresPerM3Week: watered.length === 0 || volumeM3 === null ? null : litres / volumeM3,
  };
}

function surroundingsFound(facts: DiagnosisFacts): Found {
  const { air, nowMs, journal, volumeM3, leastSideMetres, rainMillimetresWeek } = facts;
  const covering = journal.findLast(
    ({ timeMs, kind }) => timeMs <= nowMs && (kind === 'covered' || kind === 'uncovered'),
  );
  return {
    airCelsius: meanOf(within(air, nowMs - 3 * dayMs, nowMs), 12),
    volumeM3,
    leastSideMetres,
    rainMillimetresWeek,
    cover: covering === undefined ? null : covering.kind === 'covered' ? 'covered' : 'open',
  };
}

function probeFound({ core, otherCoresCelsius, journal, nowMs, hasDoubtfulProbe }: DiagnosisFacts): Found {
  const now = nearest(core, nowMs, 3 * hourMs);
  const past = journal.filter(({ timeMs }) => timeMs <= nowMs);
  const pulled = past.findLast(({ kind }) => kind === 'probe-pulled' || kind === 'probe-returned');
  const hand = past.findLast(
    ({ kind, value, timeMs }) => kind === 'hand-reading' && value !== null && timeMs > nowMs - 3 * dayMs,
  );
  const atHand = hand === undefined ? null : nearest(core, hand.timeMs, 2 * hourMs);
  const isOut = pulled?.kind === 'probe-pulled';
  return {
    coresApartCelsius:
      now === null || otherCoresCelsius.length === 0
        ? null
        : Math.max(...otherCoresCelsius.map((other) => Math.abs(other - now))),
    handMinusProbeCelsius: atHand === null ? null : Math.abs(hand!.value! - atHand),
    probeHistory:
      isOut || hasDoubtfulProbe === true ? 'doubtful' : hasDoubtfulProbe === false ? 'clean' : null,
  };
}
