import type { ConditionId } from '../alarms/alarm.ts';
import { restingTimer, type TimerState } from '../alarms/timing.ts';

/** Timers of a subject's conditions, those at rest left out. */
export type Timers = ReadonlyMap<ConditionId, TimerState>;

/**
 * How the timers stood, instant by instant, for the last days. Between two entries they did not change, so the trail
 * gives their exact standing at any past instant: late readings are judged by going back to it, and a restart goes on
 * from its end. Oldest first; the first entry stands for everything before it too.
 */
export interface TimerTrail {
  readonly entries: { readonly atMs: number; readonly timers: Timers }[];
}

/** Late readings older than this still enter the sums but are no longer judged (our choice). */
export const trailDays = 3;

/** A value that chatters across its limit must not grow the trail without bound. */
const longestTrail = 300;

/** All at rest. One object for all subjects: most of many piles and probes have nothing else. */
export const noTimers: Timers = new Map();

export function createTrail(): TimerTrail {
  return { entries: [{ atMs: Number.NEGATIVE_INFINITY, timers: noTimers }] };
}

/** Standing now. */
export function latestTimers(trail: TimerTrail): Timers {
  return trail.entries.at(-1)!.timers;
}

/** Adds a change and forgets what is too old to go back to. */
export function extendTrail(trail: TimerTrail, atMs: number, timers: Timers): void {
  const last = trail.entries.at(-1)!;
  if (last.atMs === atMs) trail.entries.pop();
  trail.entries.push({ atMs, timers });
  const horizonMs = atMs - trailDays * 86_400_000;
  const isSpare = () => trail.entries.length > longestTrail || trail.entries[1]!.atMs < horizonMs;
  while (trail.entries.length > 1 && isSpare()) trail.entries.shift();
}

/**
 * Goes back to how the timers stood just before an instant. Returns, by condition, how often the alarm's standing
 * changed in the part taken away: those changes are known to people and must not be told again.
 */
export function rewindTrail(trail: TimerTrail, beforeMs: number): Map<ConditionId, number> {
  const told = new Map<ConditionId, number>();
  while (trail.entries.length > 1 && trail.entries.at(-1)!.atMs >= beforeMs) {
    const after = trail.entries.pop()!.timers;
    const before = latestTimers(trail);
    for (const condition of new Set([...after.keys(), ...before.keys()])) {
      const changed = timerOf(after, condition).active !== timerOf(before, condition).active;
      if (changed) told.set(condition, (told.get(condition) ?? 0) + 1);
    }
  }
  return told;
}

/** When a condition became active, newest first, as far back as the trail goes; at most `most` of them. */
export function activationsOf(trail: TimerTrail, condition: ConditionId, most: number): number[] {
  const times: number[] = [];
  for (let index = trail.entries.length - 1; index > 0 && times.length < most; index -= 1) {
    const { atMs, timers } = trail.entries[index]!;
    const wasActive = timerOf(trail.entries[index - 1]!.timers, condition).active;
    if (timerOf(timers, condition).active && !wasActive) times.push(atMs);
  }
  return times;
}

export function timerOf(timers: Timers, condition: ConditionId): TimerState {
  // At most instants every timer rests, and this runs for every condition at each.
  return timers.size === 0 ? restingTimer : (timers.get(condition) ?? restingTimer);
}
