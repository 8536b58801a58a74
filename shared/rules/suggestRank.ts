import type { ConditionId } from '../alarms/alarm.ts';
import type { CommonParameters } from './condition.ts';
import type { ReplayResult } from './replay.ts';
import type { Trouble } from './replayTroubles.ts';
import type { Activation, Trial } from './suggestTrial.ts';

/** What a ranking of trials has to keep to. */
export interface RankOptions {
  /** Troubles people have marked; left out: every stretch in which the condition held long is one. */
  readonly troubles?: readonly Trouble[];
  /** No suggestion loses more warning than this before any trouble. */
  readonly mostWarningLostMinutes?: number;
}

/** No suggestion loses more warning than this before any trouble, unless said otherwise (our choice). */
export const usualMostLostMinutes = 60;

/** A stretch as long as this was a trouble and not a touch (our choice, no source). */
const troubleMinutes: Readonly<Partial<Record<ConditionId, number>>> = {
  'too-hot-ceiling': 60,
  'drying-out-measured': 1440,
};
const usualTroubleMinutes = 360;

/** The condition itself without delays, joined over an hour: what its long stretches are measured by. */
export function reference(parameters: CommonParameters): CommonParameters {
  return { ...parameters, onDelayMinutes: 0, offDelayMinutes: 60 };
}

export interface Ranked {
  readonly trial: Trial;
  readonly troubles: readonly Activation[];
}

/** Candidates that catch every trouble the current limits catch, fewest texts first, then least warning lost. */
export function rank(id: ConditionId, trials: readonly Trial[], options: RankOptions): Ranked[] {
  const [plain, current, ...others] = trials as [Trial, Trial, ...Trial[]];
  const marked = options.troubles?.filter(({ warnedBy }) => warnedBy.includes(id));
  const found = marked ?? longStretches(id, plain);
  const troubles = found.filter((trouble) => caughtAt(current.activations, trouble) !== null);
  const texts = (trial: Trial): number =>
    textCount(trial.activations, trial.parameters.minimumMinutesBetweenTexts);
  const most = (options.mostWarningLostMinutes ?? usualMostLostMinutes) + 5;
  return others
    .map((trial) => ({ trial, troubles, texts: texts(trial), lost: lostMinutes(current, trial, troubles) }))
    .filter(({ lost, texts: count }) => lost !== null && lost <= most && count < texts(current))
    .sort((a, b) => a.texts - b.texts || a.lost! - b.lost!);
}

function longStretches(id: ConditionId, { activations, parameters }: Trial): Activation[] {
  const leastMs = (troubleMinutes[id] ?? usualTroubleMinutes) * 60_000;
  // It was over when the off-delay began, not when that had run.
  const over = (endMs: number | null) =>
    endMs === null ? null : endMs - parameters.offDelayMinutes * 60_000;
  return activations
    .map(({ startMs, endMs }) => ({ startMs, endMs: over(endMs) }))
    .filter(({ startMs, endMs }) => (endMs ?? Number.POSITIVE_INFINITY) - startMs >= leastMs);
}

/** When a set of activations first speaks of a trouble; null when it does not before the trouble is over. */
function caughtAt(activations: readonly Activation[], trouble: Activation): number | null {
  const first = activations.find(
    ({ startMs, endMs }) =>
      startMs <= (trouble.endMs ?? Number.POSITIVE_INFINITY) &&
      (endMs ?? Number.POSITIVE_INFINITY) >= trouble.startMs,
  );
  return first === undefined ? null : first.startMs;
}

type Activated = Pick<Trial, 'activations'>;

/** Most minutes of warning lost before any of the troubles; null when one is not caught at all. */
function lostMinutes(current: Activated, trial: Activated, troubles: readonly Activation[]): number | null {
  let most = Number.NEGATIVE_INFINITY;
  for (const trouble of troubles) {
    const then = caughtAt(trial.activations, trouble);
    if (then === null) return null;
    most = Math.max(most, (then - caughtAt(current.activations, trouble)!) / 60_000);
  }
  return troubles.length === 0 ? 0 : most;
}

/** Most warning lost, or null for a trouble not caught, from two full replays. */
export function mostLost(
  troubles: readonly Activation[],
  now: ReplayResult,
  then: ReplayResult,
  id: ConditionId,
): number | null {
  const own = (result: ReplayResult) => ({
    activations: result.alarms.filter(({ condition }) => condition === id),
  });
  const caught = troubles.filter((trouble) => caughtAt(own(now).activations, trouble) !== null);
  return lostMinutes(own(now), own(then), caught);
}

/** Texts as `textsOf` counts them, but for the guard against chatter: enough to rank by. */
function textCount(activations: readonly Activation[], quietMinutes: number): number {
  let count = 0;
  let lastMs = Number.NEGATIVE_INFINITY;
  for (const { startMs, endMs } of activations) {
    const dueMs = Math.max(startMs, lastMs + quietMinutes * 60_000);
    if (dueMs >= (endMs ?? Number.POSITIVE_INFINITY)) continue;
    count += 1;
    lastMs = dueMs;
  }
  return count;
}
