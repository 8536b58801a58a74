import { minuteOfDay } from './clockMinutes.ts';
import type { DutyPlan } from './dutyPlan.ts';
import { dayAfter, instantOf, localMoment, weekdayOf } from './localInstant.ts';

/** Something that is to happen at a time of day, every day or on one weekday. */
export interface Regular {
  readonly at: string;
  readonly weekday: number | null;
}

/**
 * The latest instant in (lastRunMs, nowMs] at which a regular thing was due; null when there was none. However many
 * were missed, there is one to be made up for. At most eight days are looked back.
 */
export function dueSince(
  regular: Regular,
  timeZone: string,
  lastRunMs: number,
  nowMs: number,
): number | null {
  const today = localMoment(timeZone, nowMs).day;
  for (let back = 0; back <= 8; back += 1) {
    const day = dayAfter(today, -back);
    if (regular.weekday !== null && weekdayOf(day) !== regular.weekday) continue;
    const dueMs = instantOf(timeZone, day, minuteOfDay(regular.at));
    if (dueMs <= nowMs) return dueMs > lastRunMs ? dueMs : null;
  }
  return null;
}

export const digestOf = ({ digest }: DutyPlan): Regular | null => digest;
export const allWellOf = ({ allWell }: DutyPlan): Regular | null =>
  allWell === null ? null : { at: allWell.at, weekday: null };
