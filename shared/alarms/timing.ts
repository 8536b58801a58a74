import type { AlarmTiming } from './alarm.ts';

/** What a predicate says of one instant. `unknown` = no trustworthy value: it neither raises nor clears. */
export type Truth = 'true' | 'false' | 'unknown';

export interface Delays {
  /** How long the condition must hold without a break before the alarm becomes active. */
  readonly onDelayMinutes: number;
  /** How long it must be back, beyond the deadband, before the alarm returns to normal. */
  readonly offDelayMinutes: number;
}

/** Timing plus the start of an unknown stretch, during which the running timer stands still. */
export interface TimerState extends AlarmTiming {
  readonly frozenSinceMs: number | null;
  /** It came and went too often (`chattering.ts`): it must be back for so long before it returns. */
  readonly heldMinutes?: number | undefined;
}

export interface TimingStep {
  readonly timing: TimerState;
  readonly change: 'became-active' | 'returned' | null;
  /** Since when the new standing has held (start of the delay); null when nothing changed. */
  readonly sinceMs: number | null;
}

export const restingTimer: TimerState = {
  active: false,
  beyondSinceMs: null,
  backSinceMs: null,
  frozenSinceMs: null,
};

/**
 * One step of on-delay and off-delay in event time, with the semantics of ISO 16484-5 (as restated in the reference
 * pack, A-2 and C-50): active once the condition has held for at least the on-delay, normal once it has been back for
 * at least the off-delay; any contrary instant restarts the timer. The deadband is the predicate's business, which is
 * told whether the alarm is active. `unknown` stops the running timer; it goes on where it stood.
 *
 * Instants must come in time order. Returns the very same `timing` object when nothing changed.
 */
export function stepTiming(
  timing: TimerState,
  instant: { readonly atMs: number; readonly truth: Truth },
  delays: Delays,
): TimingStep {
  if (instant.truth === 'unknown') return unchanged(freeze(timing, instant.atMs));
  const thawed = thaw(timing, instant.atMs);
  return thawed.active
    ? stepActive(thawed, instant.atMs, instant.truth === 'true', delays.offDelayMinutes * 60_000)
    : stepResting(thawed, instant.atMs, instant.truth === 'true', delays.onDelayMinutes * 60_000);
}

/**
 * True when `stepTiming` would give the very same timing back: so it is at most instants of most conditions, and asking
 * first makes no garbage.
 */
export function isSettled(timing: TimerState, truth: Truth): boolean {
  if (truth === 'unknown') return !isTimerRunning(timing);
  if (timing.frozenSinceMs !== null) return false;
  return timing.active
    ? truth === 'true' && timing.backSinceMs === null
    : truth === 'false' && timing.beyondSinceMs === null;
}

/** True while a delay is counting, so that the passing of time alone can change the standing. */
export function isTimerRunning(timing: TimerState): boolean {
  if (timing.frozenSinceMs !== null) return false;
  return timing.active ? timing.backSinceMs !== null : timing.beyondSinceMs !== null;
}

function stepResting(timing: TimerState, atMs: number, beyond: boolean, delayMs: number): TimingStep {
  if (!beyond) return unchanged(timing.beyondSinceMs === null ? timing : restingTimer);
  const sinceMs = timing.beyondSinceMs ?? atMs;
  if (atMs - sinceMs >= delayMs) {
    const active: TimerState = { ...restingTimer, active: true, beyondSinceMs: sinceMs };
    return { timing: active, change: 'became-active', sinceMs };
  }
  return unchanged(timing.beyondSinceMs === null ? { ...timing, beyondSinceMs: sinceMs } : timing);
}

function stepActive(timing: TimerState, atMs: number, beyond: boolean, delayMs: number): TimingStep {
  if (beyond) return unchanged(timing.backSinceMs === null ? timing : { ...timing, backSinceMs: null });
  const sinceMs = timing.backSinceMs ?? atMs;
  if (atMs - sinceMs >= delayMs) return { timing: restingTimer, change: 'returned', sinceMs };
  return unchanged(timing.backSinceMs === null ? { ...timing, backSinceMs: sinceMs } : timing);
}

function freeze(timing: TimerState, atMs: number): TimerState {
  return isTimerRunning(timing) ? { ...timing, frozenSinceMs: atMs } : timing;
}

/** Moves the running timer's start by the length of the unknown stretch. */
function thaw(timing: TimerState, atMs: number): TimerState {
  if (timing.frozenSinceMs === null) return timing;
  const lostMs = atMs - timing.frozenSinceMs;
  return timing.active
    ? { ...timing, frozenSinceMs: null, backSinceMs: timing.backSinceMs! + lostMs }
    : { ...timing, frozenSinceMs: null, beyondSinceMs: timing.beyondSinceMs! + lostMs };
}

function unchanged(timing: TimerState): TimingStep {
  return { timing, change: null, sinceMs: null };
}
