import type { PathEvidence } from './evaluateHold.ts';
import { hoursFrom, msFrom, type Part, type PathOutcome, progressOf } from './outcome.ts';
import { groupPeriods } from './periods.ts';
import type { EvaluationPolicy } from './policy.ts';
import type { HoldBeforeTurnsPath } from './ruleSet.ts';
import { creditedMs, type Stretch } from './stretches.ts';

/** Judges a path that wants the band held without a break before each of several turnings (AS 4454 style). */
export function evaluateHoldBeforeTurns(
  path: HoldBeforeTurnsPath,
  evidence: PathEvidence,
  policy: EvaluationPolicy,
): PathOutcome {
  const { turnedMs } = evidence;
  const stretches = evidence.find(path.band, policy.guardCelsius);
  const runs = groupPeriods(stretches, { ...policy, continuity: 'consecutive' });
  const good: number[] = [];
  let previousMs = Number.NEGATIVE_INFINITY;
  for (const timeMs of turnedMs) {
    if (longestBetween(runs, previousMs, timeMs) >= msFrom(path.hours)) good.push(timeMs);
    previousMs = timeMs;
  }
  const satisfiedAtMs = good[path.turns - 1] ?? null;
  const turnsEnough = satisfiedAtMs !== null;
  const heldNowHours = hoursFrom(longestBetween(runs, previousMs, Number.POSITIVE_INFINITY));
  const parts: Part[] = [
    { name: 'turns-after-hold', have: good.length, need: path.turns, enough: turnsEnough },
    {
      name: 'hours',
      have: heldNowHours,
      need: path.hours,
      enough: turnsEnough || heldNowHours >= path.hours,
    },
  ];
  return {
    satisfiedAtMs,
    progress: turnsEnough ? 1 : progressBetweenTurns(good.length, heldNowHours, path),
    parts,
    totalHours: hoursFrom(creditedMs(stretches)),
    bestPeriodHours: hoursFrom(longestBetween(runs, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)),
    stretches,
  };
}

/** Turnings done, plus the share of the hold before the next one: a turn never makes it go down. */
function progressBetweenTurns(good: number, heldNowHours: number, path: HoldBeforeTurnsPath): number {
  const hold = Math.min(1, heldNowHours / path.hours);
  const parts: Part[] = [
    { name: 'turns-after-hold', have: good + hold * 0.9, need: path.turns, enough: false },
  ];
  return progressOf(parts, false);
}

function longestBetween(runs: readonly Stretch[][], fromMs: number, toMs: number): number {
  const lengths = runs.map((run) => run.reduce((sum, stretch) => sum + overlap(stretch, fromMs, toMs), 0));
  return Math.max(0, ...lengths);
}

function overlap(stretch: Stretch, fromMs: number, toMs: number): number {
  return Math.max(0, Math.min(stretch.toMs, toMs) - Math.max(stretch.fromMs, fromMs));
}
