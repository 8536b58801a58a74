import { minuteOfDay } from './clockMinutes.ts';
import type { DutyPlan } from './dutyPlan.ts';
import { dayAfter, instantOf, localMoment, weekdayOf } from './localInstant.ts';

/** Something that is to happen at a time of day, every day, on one weekday or on one day of the month. */
export interface Regular {
  readonly at: string;
  readonly weekday: number | null;
  /** Day of the month; left out: any. */
  readonly dayOfMonth?: number;
}

/**
 * The latest instant in (lastRunMs, nowMs] at which a regular thing was due; null when there was none. However many
 * were missed, there is one to be made up for. At most eight days are looked
 * back, of what comes once a month at most thirty-two.
 */
export function dueSince(
  regular: Regular,
  timeZone: string,
  lastRunMs: number,
  nowMs: number,
): number | null {
  const today = localMoment(timeZone, nowMs).day;
  const lookBackDays = regular.dayOfMonth === undefined ? 8 : 32;
  for (let back = 0; back <= lookBackDays; back += 1) {
    const day = dayAfter(today, -back);
    if (regular.dayOfMonth !== undefined && Number(day.slice(8)) !== regular.dayOfMonth) continue;
    if (regular.weekday !== null && weekdayOf(day) !== regular.weekday) continue;
    const dueMs = instantOf(timeZone, day, minuteOfDay(regular.at));
    if (dueMs <= nowMs) return dueMs > lastRunMs ? dueMs : null;
  }
  return null;
}

export const digestOf = ({ digest }: DutyPlan): Regular | null => digest;
export const monthReportOf = ({ monthReport }: DutyPlan): Regular | null =>
  monthReport === null ? null : { at: monthReport.at, weekday: null, dayOfMonth: 1 };
export const allWellOf = ({ allWell }: DutyPlan): Regular | null =>
  allWell === null ? null : { at: allWell.at, weekday: null };
