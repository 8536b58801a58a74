import type { Person } from '../yard/people.ts';
import { minuteOfDay } from './clockMinutes.ts';
import type { DutyPlan, DutyShift } from './dutyPlan.ts';
import { dayAfter, instantOf, localMoment, weekdayOf } from './localInstant.ts';

/** Rounds of people to be told, first round first; each round is told together. */
export type Rounds = readonly (readonly string[])[];

/**
 * Ids of the people on duty at an instant, by the order of their turns. A person with two turns is in the earlier round.
 * Turns begin and end at instants, so that no hour of a day with a clock change is without duty or has it twice.
 */
export function onDuty(plan: DutyPlan, timeZone: string, atMs: number): Rounds {
  const today = localMoment(timeZone, atMs).day;
  const rounds = new Map<number, Set<string>>();
  const placed = new Set<string>();
  const shifts = plan.shifts
    .filter(({ personId }) => !isAway(plan, personId, today))
    .filter((shift) => covers(shift, plan, timeZone, today, atMs))
    .sort((a, b) => a.order - b.order);
  for (const { personId, order } of shifts) {
    if (placed.has(personId)) continue;
    placed.add(personId);
    rounds.set(order, (rounds.get(order) ?? new Set()).add(personId));
  }
  return [...rounds.values()].map((ids) => [...ids]);
}

/**
 * Who is told first, and who after them. Without turns of duty, everybody at once. With turns but nobody on duty, or
 * nobody of them reachable, everybody too: a gap in a plan must not swallow an alarm.
 * @param people those who may and want to be told of this priority
 */
export function roundsOf(
  plan: DutyPlan,
  timeZone: string,
  atMs: number,
  people: readonly Pick<Person, 'id'>[],
): Rounds {
  const able = new Set(people.map(({ id }) => id));
  const rounds = onDuty(plan, timeZone, atMs)
    .map((round) => round.filter((id) => able.has(id)))
    .filter((round) => round.length > 0);
  return rounds.length > 0 ? rounds : able.size > 0 ? [[...able]] : [];
}

function covers(shift: DutyShift, plan: DutyPlan, timeZone: string, today: string, atMs: number): boolean {
  // One that began yesterday may run into today; by clock changes no turn is longer than a day and a few hours.
  return [today, dayAfter(today, -1)].some((day) => {
    if (!beginsOn(shift, plan, day)) return false;
    const [from, to] = [minuteOfDay(shift.from), minuteOfDay(shift.to)];
    const endDay = to > from ? day : dayAfter(day);
    return instantOf(timeZone, day, from) <= atMs && atMs < instantOf(timeZone, endDay, to);
  });
}

function beginsOn({ weekdays, holidays }: DutyShift, plan: DutyPlan, day: string): boolean {
  const isHoliday = plan.holidays.includes(day);
  if (holidays === 'only') return isHoliday;
  return weekdays.includes(weekdayOf(day)) && !(isHoliday && holidays === 'not');
}

function isAway({ away }: DutyPlan, personId: string, day: string): boolean {
  return away.some((one) => one.personId === personId && one.fromDay <= day && day <= one.toDay);
}
