import { type Alarm, type Priority, priorities } from '../alarms/alarm.ts';
import type { Person } from '../yard/people.ts';
import type { DutyPlan } from './dutyPlan.ts';
import { type Rounds, roundsOf } from './roster.ts';

/** A further way to reach a person, as far as planning needs it. */
export interface Way<Channel extends string = string> {
  readonly id: string;
  readonly personId: string;
  readonly channel: Channel;
  readonly address: string;
  /** Least pressing priority told by it. */
  readonly toldFrom: Priority;
  /** Not used any more since then. */
  readonly goneMs: number | null;
}

/** Everything that decides who is told, and how. */
export interface Telling<Channel extends string> {
  readonly people: readonly Person[];
  readonly ways: readonly Way<Channel>[];
  readonly plan: DutyPlan;
  readonly timeZone: string;
  readonly nowMs: number;
  /** What phones are reached by. */
  readonly textChannel: Channel;
}

/** A message that somebody is to get. */
export interface PlannedText<Channel extends string = string> {
  readonly person: Person;
  readonly channel: Channel;
  readonly address: string;
  /** The same however often the same step is planned. */
  readonly idempotencyKey: string;
}

/**
 * Who is told of a raised alarm, and by which of their ways: the first round of those on duty, everybody on duty of fire
 * danger, everybody who wants it where nobody is on duty.
 */
export function planTexts<Channel extends string>(
  alarm: Alarm,
  telling: Telling<Channel>,
): PlannedText<Channel>[] {
  const rounds = roundsFor(alarm.priority, telling);
  const told = alarm.priority === 'highest' ? rounds.flat() : (rounds[0] ?? []);
  return told.flatMap((personId) => planFor(alarm, personId, 'raised', telling));
}

/** Everybody who is told of this priority, in the order in which they are. */
export function roundsFor(priority: Priority, telling: Telling<string>): Rounds {
  const able = telling.people.filter((person) => waysTo(person, priority, telling).length > 0);
  return roundsOf(telling.plan, telling.timeZone, telling.nowMs, able);
}

/** One person's messages of a step of an alarm: one by each way that this priority goes by. */
export function planFor<Channel extends string>(
  { id, occurrence, priority }: Pick<Alarm, 'id' | 'occurrence' | 'priority'>,
  personId: string,
  step: string,
  telling: Telling<Channel>,
): PlannedText<Channel>[] {
  const person = telling.people.find((one) => one.id === personId);
  if (person === undefined) return [];
  return waysTo(person, priority, telling).map(({ channel, address, key }) => ({
    ...{ person, channel, address },
    idempotencyKey: `${id}:${occurrence}:${step}:${person.id}${key}`,
  }));
}

function waysTo<Channel extends string>(person: Person, priority: Priority, telling: Telling<Channel>) {
  if (person.disabled) return [];
  const { phone, receivesTexts, textsFrom } = person;
  const byPhone =
    phone !== null && receivesTexts && reaches(priority, textsFrom)
      ? [{ channel: telling.textChannel, address: phone, key: '' }]
      : [];
  const others = telling.ways
    .filter(
      ({ personId, goneMs, toldFrom }) =>
        personId === person.id && goneMs === null && reaches(priority, toldFrom),
    )
    .map(({ id, channel, address }) => ({ channel, address, key: `:${id}` }));
  return [...byPhone, ...others];
}

const reaches = (priority: Priority, from: Priority): boolean =>
  priorities.indexOf(priority) <= priorities.indexOf(from);
