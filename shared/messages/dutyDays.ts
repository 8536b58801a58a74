import { minuteOfDay } from './clockMinutes.ts';
import type { DutyPlan } from './dutyPlan.ts';
import { dayAfter, instantOf, localMoment, weekdayOf } from './localInstant.ts';
import { onDuty, type Rounds } from './roster.ts';

/** A stretch of one day in which the same people are on duty. */
export interface DutySpan {
  readonly fromMinute: number;
  /** 1440 at the day's end. */
  readonly toMinute: number;
  /** Ids, first round first; empty when nobody has a turn: then everybody who wants texts is told. */
  readonly rounds: Rounds;
}

export interface DutyDay {
  /** `2026-12-25` by the yard's calendar. */
  readonly day: string;
  readonly weekday: number;
  readonly isHoliday: boolean;
  readonly spans: readonly DutySpan[];
}

const dayMinutes = 1440;

/**
 * Who is on duty hour by hour on the days from today on, as a roster is read: real days, so that holidays, people who are
 * away and turns that run past midnight show as they will be.
 */
export function dutyDays(plan: DutyPlan, timeZone: string, nowMs: number, days: number): DutyDay[] {
  const today = localMoment(timeZone, nowMs).day;
  return Array.from({ length: days }, (_, later) => {
    const day = dayAfter(today, later);
    return {
      day,
      weekday: weekdayOf(day),
      isHoliday: plan.holidays.includes(day),
      spans: spansOf(plan, timeZone, day),
    };
  });
}

function spansOf(plan: DutyPlan, timeZone: string, day: string): DutySpan[] {
  const turns = plan.shifts.flatMap(({ from, to }) => [minuteOfDay(from), minuteOfDay(to)]);
  const edges = [...new Set([0, ...turns, dayMinutes])].sort((one, other) => one - other);
  const spans: DutySpan[] = [];
  for (const [index, fromMinute] of edges.slice(0, -1).entries()) {
    const toMinute = edges[index + 1]!;
    const rounds = onDuty(plan, timeZone, instantOf(timeZone, day, fromMinute));
    const last = spans.at(-1);
    if (last !== undefined && isSame(last.rounds, rounds)) spans[spans.length - 1] = { ...last, toMinute };
    else spans.push({ fromMinute, toMinute, rounds });
  }
  return spans;
}

const isSame = (one: Rounds, other: Rounds) => JSON.stringify(one) === JSON.stringify(other);
