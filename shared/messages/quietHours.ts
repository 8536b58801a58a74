import { type Priority, priorities } from '../alarms/alarm.ts';
import { minuteOfDay } from './clockMinutes.ts';
import type { DutyPlan } from './dutyPlan.ts';
import { dayAfter, instantOf, localMoment } from './localInstant.ts';

/** When a text of this priority may go: null at once, else the instant at which the quiet hours end. */
export function quietUntilMs(
  { quiet }: Pick<DutyPlan, 'quiet'>,
  timeZone: string,
  priority: Priority,
  atMs: number,
): number | null {
  if (quiet === null || priorities.indexOf(priority) <= priorities.indexOf(quiet.wakes)) return null;
  const [from, to] = [minuteOfDay(quiet.from), minuteOfDay(quiet.to)];
  if (from === to) return null;
  const { day } = localMoment(timeZone, atMs);
  for (const start of [dayAfter(day, -1), day]) {
    const endMs = instantOf(timeZone, to > from ? start : dayAfter(start), to);
    if (instantOf(timeZone, start, from) <= atMs && atMs < endMs) return endMs;
  }
  return null;
}
