import type { Alarm, ConditionId } from '../alarms/alarm.ts';

/**
 * Hours after which a text about a condition says what may no longer be so: a forecast ages fastest. Left out: as the
 * yard's rules have it for all (our choice, no source).
 */
const hoursByCondition: Partial<Readonly<Record<ConditionId, number>>> = {
  'too-hot-heading-there': 2,
  'too-hot-early-notice': 4,
};

/** Each of these says more than the ones before it: what waits about an earlier one is overtaken by a later one. */
const heatLadder: readonly ConditionId[] = [
  'too-hot-early-notice',
  'too-hot-heading-there',
  'too-hot-ceiling',
  'too-hot-fire-danger',
];

/** Hours for which a text about this condition is worth sending. */
export function goodForHours(condition: ConditionId, usualHours: number): number {
  return Math.min(usualHours, hoursByCondition[condition] ?? usualHours);
}

/** Ids of the alarms on the same subject that this one goes beyond. */
export function overtakenBy(alarm: Pick<Alarm, 'condition'>, onSameSubject: Iterable<Alarm>): string[] {
  const rung = heatLadder.indexOf(alarm.condition);
  const lower = heatLadder.slice(0, Math.max(0, rung));
  return [...onSameSubject].filter(({ condition }) => lower.includes(condition)).map(({ id }) => id);
}
