import { findAverage } from './average.ts';
import { hoursFrom, msFrom, type Part, type PathOutcome, progressOf } from './outcome.ts';
import { findPeak } from './peak.ts';
import { groupPeriods } from './periods.ts';
import type { EvaluationPolicy } from './policy.ts';
import type { HoldPath } from './ruleSet.ts';
import { creditedMs, type Stretch, type StretchFinder, whenCreditedReaches } from './stretches.ts';
import { countTurnings } from './turnings.ts';
import type { ZoneRecord } from './zones.ts';

/** What every path of every rule is judged on. */
export interface PathEvidence {
  readonly record: ZoneRecord;
  readonly find: StretchFinder;
  /** Turnings since the count began, in time order. */
  readonly turnedMs: readonly number[];
}

/** Judges one hold path: the best of its periods, each asked for hours, turnings, a hotter spell and a mean. */
export function evaluateHold(path: HoldPath, evidence: PathEvidence, policy: EvaluationPolicy): PathOutcome {
  const { guardCelsius } = policy;
  const stretches = evidence.find(path.band, guardCelsius);
  const hotter = path.peak ? evidence.find(path.peak.band, guardCelsius) : [];
  const continuity = (path.continuityIsPolicy ? policy.continuity : null) ?? path.continuity;
  const periods = groupPeriods(stretches, { ...policy, continuity });
  const judged = (periods.length === 0 ? [[]] : periods).map((period) =>
    judgePeriod(path, period, hotter, evidence, guardCelsius),
  );
  const best = judged.reduce((one, other) => (isBetter(other, one) ? other : one));
  return { ...best, totalHours: hoursFrom(creditedMs(stretches)), stretches };
}

type PeriodOutcome = Omit<PathOutcome, 'totalHours' | 'stretches'>;

function isBetter(one: PeriodOutcome, other: PeriodOutcome): boolean {
  if (one.satisfiedAtMs !== null || other.satisfiedAtMs !== null) {
    return (
      (one.satisfiedAtMs ?? Number.POSITIVE_INFINITY) < (other.satisfiedAtMs ?? Number.POSITIVE_INFINITY)
    );
  }
  return one.progress > other.progress;
}

/** A part together with the moment it was met. */
interface TimedPart extends Part {
  readonly metAtMs: number | null;
}

function judgePeriod(
  path: HoldPath,
  period: readonly Stretch[],
  hotter: readonly Stretch[],
  evidence: PathEvidence,
  guardCelsius: number,
): PeriodOutcome {
  const parts = [
    hoursPart(path, period),
    ...turningsPart(path, period, evidence.turnedMs),
    ...peakPart(path, period, hotter),
    ...averagePart(path, period, evidence.record, guardCelsius),
  ];
  const met = parts.map((part) => part.metAtMs);
  const satisfiedAtMs = met.every((timeMs) => timeMs !== null) ? Math.max(...met) : null;
  const progress = progressOf(parts, satisfiedAtMs !== null);
  return { satisfiedAtMs, progress, parts, bestPeriodHours: hoursFrom(creditedMs(period)) };
}

function hoursPart(path: HoldPath, period: readonly Stretch[]): TimedPart {
  const metAtMs = whenCreditedReaches(period, msFrom(path.hours));
  const have = hoursFrom(creditedMs(period));
  return { name: 'hours', have, need: path.hours, enough: metAtMs !== null, metAtMs };
}

function turningsPart(path: HoldPath, period: readonly Stretch[], turnedMs: readonly number[]): TimedPart[] {
  if (path.turnings === null) return [];
  const counted = countTurnings(turnedMs, period, path.turnings);
  const metAtMs = counted[path.turnings.count - 1]?.knownMs ?? null;
  return [
    { name: 'turnings', have: counted.length, need: path.turnings.count, enough: metAtMs !== null, metAtMs },
  ];
}

function peakPart(path: HoldPath, period: readonly Stretch[], hotter: readonly Stretch[]): TimedPart[] {
  if (path.peak === null) return [];
  const found = findPeak(period, hotter, msFrom(path.hours), msFrom(path.peak.hours));
  const metAtMs = found.metAtCreditedMs === null ? null : whenCreditedReaches(period, found.metAtCreditedMs);
  const enough = metAtMs !== null;
  return [{ name: 'hotter-hours', have: hoursFrom(found.bestMs), need: path.peak.hours, enough, metAtMs }];
}

function averagePart(
  path: HoldPath,
  period: readonly Stretch[],
  record: ZoneRecord,
  guardCelsius: number,
): TimedPart[] {
  if (path.averageAboveCelsius === null) return [];
  const need = { windowMs: msFrom(path.hours), aboveCelsius: path.averageAboveCelsius, guardCelsius };
  const { bestCelsius, metAtMs } = findAverage(record, period, need);
  const enough = metAtMs !== null;
  return [{ name: 'average', have: bestCelsius ?? 0, need: path.averageAboveCelsius, enough, metAtMs }];
}
