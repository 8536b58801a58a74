import type { ConditionId } from '../alarms/alarm.ts';
import { isSettled, restingTimer, stepTiming, type TimerState } from '../alarms/timing.ts';
import type { CommonParameters, Condition } from './condition.ts';
import { createPileSubject } from './pileSubject.ts';
import type { PileView } from './pileView.ts';
import { addPastHour } from './pileWindow.ts';
import type { ReplayAlarm } from './replayAlarms.ts';
import { mergePast } from './replayMerge.ts';
import { countReadings, type Past } from './replayPast.ts';

/** A stretch in which a set of parameters held its condition active. */
export interface Activation {
  readonly startMs: number;
  readonly endMs: number | null;
}

/** One set of parameters on trial. */
export interface Trial {
  readonly parameters: CommonParameters;
  readonly activations: readonly Activation[];
}

/** Between readings that come faster than this a trial does not look again: limits are not set to minutes. */
const trialStepMs = 5 * 60_000;

/**
 * Tries many sets of parameters of one condition in a single pass over the past: the window is filled once, and only
 * truth and timer are worked out per set. What other conditions did is taken from a replay with the limits in force.
 * Near enough for choosing (to about five minutes); what is told to people comes from a full replay. Yields 0..1.
 */
export function* tryParameters(
  past: Past,
  condition: Condition<PileView>,
  sets: readonly CommonParameters[],
  others: readonly ReplayAlarm[],
): Generator<number, Trial[]> {
  const pile = createPileSubject(past.facts, { version: 0, overrides: {} });
  for (const hour of past.hoursBefore ?? []) addPastHour(pile.window, hour);
  const isActiveAt = activeLookup(others);
  const runs = sets.map((parameters): Run => ({ parameters, timer: restingTimer, activations: [] }));
  pile.window.isActive = (id) => isActiveAt(id, pile.window.nowMs);
  const { judged } = pile.subject;
  const merged = mergePast(past);
  const total = countReadings(past);
  let lookedMs = Number.NEGATIVE_INFINITY;
  for (let batch = merged.next(); batch.length > 0; batch = merged.next()) {
    for (let index = 0; index < batch.length; index += 1) {
      const sample = batch[index]!;
      judged.add(sample);
      if (batch[index + 1]?.timeMs === sample.timeMs) continue;
      judged.settle(sample.timeMs);
      if (sample.timeMs - lookedMs < trialStepMs) continue;
      lookedMs = sample.timeMs;
      const view = judged.view(sample.timeMs);
      for (const run of runs) look(run, condition, view, sample.timeMs);
    }
    yield merged.done / total;
  }
  return runs;
}

interface Run {
  readonly parameters: CommonParameters;
  timer: TimerState;
  readonly activations: { startMs: number; endMs: number | null }[];
}

function look(run: Run, condition: Condition<PileView>, view: PileView, atMs: number): void {
  const truth = condition.truth(view, run.parameters, run.timer.active);
  if (isSettled(run.timer, truth)) return;
  const step = stepTiming(run.timer, { atMs, truth }, run.parameters);
  run.timer = step.timing;
  if (step.change === 'became-active') run.activations.push({ startMs: atMs, endMs: null });
  else if (step.change === 'returned') run.activations.at(-1)!.endMs = atMs;
}

/** Whether a condition was active at an instant, asked in time order. */
function activeLookup(alarms: readonly ReplayAlarm[]): (id: ConditionId, atMs: number) => boolean {
  const byCondition = Map.groupBy(alarms, ({ condition }) => condition);
  return (id, atMs) =>
    (byCondition.get(id) ?? []).some(
      ({ startMs, endMs }) => startMs <= atMs && atMs < (endMs ?? Number.POSITIVE_INFINITY),
    );
}
