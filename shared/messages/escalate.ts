import type { Priority } from '../alarms/alarm.ts';
import type { DutyPlan } from './dutyPlan.ts';
import type { Rounds } from './roster.ts';

/** Somebody was told of an alarm, or is about to be. */
export interface Told {
  readonly personId: string;
  /** `owner`: that nobody answers. */
  readonly step: 'raised' | 'next' | 'owner';
  readonly writtenMs: number;
  /** `gone`: it went out; `failed`: it never will; `held`: it waits for the morning or the next hour. */
  readonly state: 'underway' | 'gone' | 'failed' | 'held';
}

export interface UnansweredAlarm {
  readonly priority: Priority;
  /** Since when it waits for an answer. */
  readonly sinceMs: number;
  /** Of this occurrence, in any order. */
  readonly told: readonly Told[];
}

export type Escalation =
  | { readonly kind: 'next'; readonly personIds: readonly string[] }
  /** All have been told: those who are responsible hear that nobody answers. `round` counts from 1. */
  | { readonly kind: 'nobody-answers'; readonly round: number };

/** Fire danger that nobody answers is told again to owners this many times in all; anything else once. */
const nobodyAnswersTimes: Readonly<Record<Priority, number>> = { highest: 6, high: 1, medium: 1, low: 1 };

/**
 * What is to happen now with an alarm nobody has answered; null: nothing yet, or nothing any more. The clock starts when
 * the last one was told; where none of that step can be reached it does not wait. What is held at night has told nobody.
 */
export function escalate(
  alarm: UnansweredAlarm,
  rounds: Rounds,
  plan: Pick<DutyPlan, 'escalateMinutes'>,
  nowMs: number,
): Escalation | null {
  const minutes = plan.escalateMinutes[alarm.priority];
  if (minutes === null || alarm.told.some(({ state }) => state === 'held')) return null;
  const last = lastStep(alarm.told);
  const isUnreached = last.length > 0 && last.every(({ state }) => state === 'failed');
  const lastMs = Math.max(alarm.sinceMs, ...last.map(({ writtenMs }) => writtenMs));
  if (!isUnreached && nowMs - lastMs < minutes * 60_000) return null;
  const known = new Set(alarm.told.map(({ personId }) => personId));
  // Without a word of our own about it, it was told with others in a flood, to the first round.
  const rest = (alarm.told.length === 0 ? rounds.slice(1) : rounds).map((round) =>
    round.filter((personId) => !known.has(personId)),
  );
  const next = rest.find((round) => round.length > 0);
  if (next !== undefined) return { kind: 'next', personIds: next };
  const times = new Set(alarm.told.filter(({ step }) => step === 'owner').map(({ writtenMs }) => writtenMs))
    .size;
  const isEnough = times >= nobodyAnswersTimes[alarm.priority];
  const isSoon = times > 0 && nowMs - lastMs < minutes * 60_000;
  return isEnough || isSoon ? null : { kind: 'nobody-answers', round: times + 1 };
}

/** Those told in the latest step: what was written at the same time. */
function lastStep(told: readonly Told[]): Told[] {
  const lastMs = Math.max(...told.map(({ writtenMs }) => writtenMs));
  return told.filter(({ writtenMs }) => writtenMs === lastMs);
}
