import type { ConditionId } from '../alarms/alarm.ts';
import { chatterLimits, holdMinutes } from '../alarms/chattering.ts';
import {
  type Delays,
  isSettled,
  restingTimer,
  stepTiming,
  type TimerState,
  type Truth,
} from '../alarms/timing.ts';
import {
  askAgain,
  endShelving,
  noChanges,
  type StepChanges,
  syncSuppression,
  tellChange,
} from './alarmSteps.ts';
import type { Rule } from './condition.ts';
import { nextTickMs, type Standing, type Subject } from './subject.ts';
import { activationsOf, extendTrail, latestTimers, noTimers, rewindTrail, timerOf } from './timerTrail.ts';

/**
 * Judges a subject up to `toMs` in event time: first every instant at which one of `samples` (time order) was taken,
 * and between them the ticks at which the passing of time alone may change something. The result depends on the
 * samples only, not on how they were cut into calls: one big batch and many small ones give the same alarms.
 *
 * Samples must be later than those taken before; see `rewind` for late ones. `nowMs` is the clock's time, for what
 * people set by the clock (shelving, the time until an acknowledged alarm asks again); it changes nothing else.
 */
export function advance<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  samples: readonly S[],
  toMs: number,
  nowMs: number = toMs,
): StepChanges {
  const changes = noChanges();
  let next = 0;
  while (next < samples.length) {
    const atMs = samples[next]!.timeMs;
    tickUntil(subject, atMs, changes);
    for (; next < samples.length && samples[next]!.timeMs === atMs; next += 1)
      subject.judged.add(samples[next]!);
    subject.judged.settle(atMs);
    judgeInstant(subject, atMs, changes);
  }
  tickUntil(subject, toMs + 1, changes);
  finish(subject, toMs, nowMs, changes);
  return changes;
}

/**
 * Goes back to just before an instant, because samples at or after it came late. The judged window must hold no
 * sample from `beforeMs` on: build it again first when it does. The next `advance` judges the stretch again; changes
 * of standing that were told already are not told twice.
 */
export function rewind<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  beforeMs: number,
  lastSampleMs: number,
): void {
  for (const [condition, count] of rewindTrail(subject.trail, beforeMs))
    subject.told.set(condition, (subject.told.get(condition) ?? 0) + count);
  subject.lastInstantMs = Math.max(lastSampleMs, subject.trail.entries.at(-1)!.atMs);
}

function tickUntil<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  endMs: number,
  changes: StepChanges,
): void {
  if (!Number.isFinite(subject.lastInstantMs)) return;
  for (let tick = nextTickMs(subject); tick < endMs; tick = nextTickMs(subject))
    judgeInstant(subject, tick, changes);
}

function judgeInstant<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  atMs: number,
  changes: StepChanges,
): void {
  const view = subject.judged.view(atMs);
  const live = atMs > subject.toldUntilMs;
  if (live && subject.told.size > 0) settleAccounts(subject, view, subject.toldUntilMs, changes);
  subject.lastInstantMs = atMs;
  let timers = latestTimers(subject.trail);
  // At nearly every instant nothing changes for nearly every rule: this is the loop that judgement's time goes into.
  for (const rule of subject.rules) {
    const timer = timerOf(timers, rule.condition.id);
    const truth = rule.parameters.enabled
      ? rule.condition.truth(view, rule.parameters, timer.active)
      : 'false';
    if (isSettled(timer, truth)) continue;
    stepRule(subject, rule, view, { atMs, truth }, changes);
    timers = latestTimers(subject.trail);
  }
  if (live && subject.alarms.size > 0) syncSuppression(subject, view, atMs, changes);
}

function stepRule<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  rule: Rule<View>,
  view: View,
  instant: { readonly atMs: number; readonly truth: Truth },
  changes: StepChanges,
): void {
  const { condition, parameters } = rule;
  const { atMs } = instant;
  const timer = timerOf(latestTimers(subject.trail), condition.id);
  const step = stepTiming(timer, instant, guardedDelays(timer, parameters));
  if (step.timing === timer) return;
  const isRaised = step.change === 'became-active';
  keepTimer(
    subject,
    condition.id,
    isRaised ? held(subject, condition.id, step.timing, atMs) : step.timing,
    atMs,
  );
  changes.stateChanged = true;
  if (step.change === null || wasTold(subject, condition.id)) return;
  const kind = step.change === 'returned' ? 'returned-to-normal' : 'became-active';
  tellChange(subject, rule, view, { kind, atMs }, changes);
}

/** What came and went too often must be back for longer. */
function guardedDelays({ heldMinutes }: TimerState, parameters: Delays): Delays {
  if (heldMinutes === undefined || parameters.offDelayMinutes >= heldMinutes) return parameters;
  return { onDelayMinutes: parameters.onDelayMinutes, offDelayMinutes: heldMinutes };
}

/** Reckoned from the trail, so that judging a stretch again gives the same; kept in the timer, which outlives the trail. */
function held(subject: Standing, condition: ConditionId, timer: TimerState, atMs: number): TimerState {
  const before = activationsOf(subject.trail, condition, chatterLimits.activations - 1);
  const heldMinutes = holdMinutes([atMs, ...before]);
  return heldMinutes === 0 ? timer : { ...timer, heldMinutes };
}

/** In a stretch judged again, as many changes as people know of pass in silence: from one start they must alternate. */
function wasTold<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  condition: ConditionId,
): boolean {
  const left = subject.told.get(condition) ?? 0;
  if (left === 0) return false;
  if (left === 1) subject.told.delete(condition);
  else subject.told.set(condition, left - 1);
  return true;
}

/** The stretch judged again gave fewer changes than were told: an odd rest means the alarm now stands the other way. */
function settleAccounts<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  view: View,
  atMs: number,
  changes: StepChanges,
): void {
  for (const rule of subject.rules) {
    if ((subject.told.get(rule.condition.id) ?? 0) % 2 === 0) continue;
    const { active } = timerOf(latestTimers(subject.trail), rule.condition.id);
    const kind = active ? 'became-active' : 'returned-to-normal';
    tellChange(subject, rule, view, { kind, atMs }, changes);
  }
  subject.told.clear();
}

function finish<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  toMs: number,
  nowMs: number,
  changes: StepChanges,
): void {
  if (!Number.isFinite(subject.lastInstantMs)) return;
  const view = subject.judged.view(Math.max(toMs, subject.lastInstantMs));
  if (toMs >= subject.toldUntilMs) {
    settleAccounts(subject, view, toMs, changes);
    subject.toldUntilMs = toMs;
  }
  endShelving(subject, view, nowMs, changes);
  askAgain(subject, view, nowMs, changes);
}

function keepTimer<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  condition: ConditionId,
  timer: TimerState,
  atMs: number,
): void {
  const timers = new Map(latestTimers(subject.trail));
  if (timer === restingTimer) timers.delete(condition);
  else timers.set(condition, timer);
  extendTrail(subject.trail, atMs, timers.size === 0 ? noTimers : timers);
}
