import type { Alarm, Priority } from './alarm.ts';

/**
 * Minutes after acknowledging at which an alarm whose condition still holds asks again; null = never. Whole days,
 * because whoever acknowledged it was awake at that time of day; fire danger does not wait for that (our choice, no
 * source).
 */
export const reAlarmMinutes: Readonly<Record<Priority, number | null>> = {
  highest: 60,
  high: 1440,
  medium: 4320,
  low: null,
};

/** A latched alarm whose cause has gone waits only for its reset: it asks again a day later, without a text. */
const latchedMinutes = 1440;

/**
 * When an acknowledged alarm asks again (ISA-18.2 re-alarm time); null when it does not. `ownMinutes` is what the pile's
 * limits say, 0 = as its priority wants.
 */
export function reAlarmDueMs(
  alarm: Pick<Alarm, 'state' | 'acknowledgedMs' | 'priority'>,
  ownMinutes: number,
): number | null {
  if (alarm.acknowledgedMs === null) return null;
  if (alarm.state === 'latched-acknowledged') return alarm.acknowledgedMs + latchedMinutes * 60_000;
  if (alarm.state !== 'acknowledged') return null;
  const minutes = ownMinutes > 0 ? ownMinutes : reAlarmMinutes[alarm.priority];
  return minutes === null ? null : alarm.acknowledgedMs + minutes * 60_000;
}
