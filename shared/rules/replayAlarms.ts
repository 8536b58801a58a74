import type { ConditionId, Evidence, Priority } from '../alarms/alarm.ts';
import { standingStates } from '../alarms/lifecycle.ts';
import type { JudgedStep } from './replayTexts.ts';

/** One stretch in which a condition was active. */
export interface ReplayAlarm {
  readonly condition: ConditionId;
  readonly startMs: number;
  /** Null when it still stood at the end. */
  readonly endMs: number | null;
  readonly priority: Priority;
  /** Whether people would have seen it at any time, rather than its being hidden by design throughout. */
  readonly shown: boolean;
  readonly evidence: readonly Evidence[];
}

/** When alarms came and went, in order of their coming, from the steps of their lives in time order. */
export function alarmsOf(steps: readonly JudgedStep[]): ReplayAlarm[] {
  const open = new Map<ConditionId, { -readonly [K in keyof ReplayAlarm]: ReplayAlarm[K] }>();
  const alarms: ReplayAlarm[] = [];
  for (const { condition, transition, priority } of steps) {
    const { event, atMs, to, evidence } = transition;
    if (event === 'became-active') {
      const alarm = { condition, startMs: atMs, endMs: null, priority, shown: false, evidence };
      open.set(condition, alarm);
      alarms.push(alarm);
    }
    const current = open.get(condition);
    if (current === undefined) continue;
    if (event === 'returned-to-normal') {
      current.endMs = atMs;
      open.delete(condition);
    } else if (standingStates.includes(to)) current.shown = true;
  }
  return alarms;
}

/** Minutes an alarm stood; up to `toMs` when it still does. */
export function minutesOf(alarm: Pick<ReplayAlarm, 'startMs' | 'endMs'>, toMs: number): number {
  return ((alarm.endMs ?? toMs) - alarm.startMs) / 60_000;
}
