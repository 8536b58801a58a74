import type { Alarm, AlarmSubject, ConditionId } from '../alarms/alarm.ts';
import { isTimerRunning } from '../alarms/timing.ts';
import type { YardId } from '../yard/yard.ts';
import type { Measured, Rule } from './condition.ts';
import { createTrail, latestTimers, type TimerTrail } from './timerTrail.ts';

/** A text that may have to wait: when it is due and for which occurrence. */
export interface TextDue {
  readonly occurrence: number;
  readonly dueMs: number;
  /** What was measured when it became active: said where nothing newer is known by the time the text goes. */
  readonly measured: Measured | null;
}

/** How a subject's readings become what its conditions judge. */
export interface Judged<View, S extends { readonly timeMs: number }> {
  /** Takes a sample; samples come in time order. */
  readonly add: (sample: S) => void;
  /** All samples of this instant are in. */
  readonly settle: (atMs: number) => void;
  /** As known at an instant not before the last sample. */
  readonly view: (atMs: number) => View;
}

/** Where judgement of a subject stands, whatever it judges. */
export interface Standing {
  readonly trail: TimerTrail;
  readonly alarms: Map<ConditionId, Alarm>;
  /** Last text sent and any text waiting, by condition. */
  readonly lastTextMs: Map<ConditionId, number>;
  readonly textsDue: Map<ConditionId, TextDue>;
  /** Last instant judged. */
  lastInstantMs: number;
  /** Up to here people have been told; going back before it only adds what they were not told. */
  toldUntilMs: number;
  /** Changes of standing people know of, in the stretch that is being judged again. */
  readonly told: Map<ConditionId, number>;
}

/** A pile, probe or yard under judgement: what it is judged by and where judgement stands. Changed in place. */
export interface Subject<View, S extends { readonly timeMs: number }> extends Standing {
  readonly yardId: YardId;
  readonly subject: AlarmSubject;
  readonly judged: Judged<View, S>;
  rules: readonly Rule<View>[];
  limitsVersion: number;
  /** Minutes between instants judged without a sample while nothing is counting. */
  readonly quietTickMinutes: number;
}

/** A subject about which nothing has been judged yet. */
export function createSubject<View, S extends { readonly timeMs: number }>(
  start: Pick<
    Subject<View, S>,
    'yardId' | 'subject' | 'judged' | 'rules' | 'limitsVersion' | 'quietTickMinutes'
  >,
): Subject<View, S> {
  return {
    ...start,
    trail: createTrail(),
    alarms: new Map(),
    lastTextMs: new Map(),
    textsDue: new Map(),
    lastInstantMs: Number.NEGATIVE_INFINITY,
    toldUntilMs: Number.NEGATIVE_INFINITY,
    told: new Map(),
  };
}

/** Whether a condition of this subject is active at the last instant judged. */
export function isActiveOn(subject: Standing, condition: ConditionId): boolean {
  return latestTimers(subject.trail).get(condition)?.active ?? false;
}

const minuteMs = 60_000;

/**
 * The next instant that must be judged although no sample comes: while something is active or counting the first whole
 * minute that is at least a minute on, so that readings every minute need no instants of their own between them.
 */
export function nextTickMs<View, S extends { readonly timeMs: number }>(subject: Subject<View, S>): number {
  if (isCounting(subject)) return Math.ceil(subject.lastInstantMs / minuteMs + 1) * minuteMs;
  const stepMs = subject.quietTickMinutes * minuteMs;
  return (Math.floor(subject.lastInstantMs / stepMs) + 1) * stepMs;
}

function isCounting(subject: Standing): boolean {
  // Only the timers may decide: alarms carry what people did, and judging a stretch again must meet the same instants.
  for (const timer of latestTimers(subject.trail).values())
    if (timer.active || isTimerRunning(timer)) return true;
  return false;
}
