import { type Alarm, type Priority, priorities } from '../alarms/alarm.ts';
import type { Person } from '../yard/people.ts';

/** A text that somebody is to get. */
export interface PlannedText {
  readonly person: Person & { readonly phone: string };
  /** The same however often the same step is planned. */
  readonly idempotencyKey: string;
}

/** Who is texted about a raised alarm: people of the yard with a phone who want texts of this priority. */
export function planTexts(alarm: Alarm, people: readonly Person[]): PlannedText[] {
  return people.filter(hasPhone).flatMap((person) => {
    if (!wantsText(person, alarm.priority)) return [];
    return [{ person, idempotencyKey: `${alarm.id}:${alarm.occurrence}:raised:${person.id}` }];
  });
}

function hasPhone(person: Person): person is Person & { readonly phone: string } {
  return person.phone !== null;
}

function wantsText(person: Person, priority: Priority): boolean {
  if (!person.receivesTexts || person.disabled) return false;
  return priorities.indexOf(priority) <= priorities.indexOf(person.textsFrom);
}
