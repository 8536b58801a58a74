import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import type { House } from '../house.ts';

/** Names of people by id. What is not an id of this yard (an old name, a service) is shown as it stands. */
export async function peopleNames(
  house: House,
  yardId: string,
): Promise<(by: string | null) => string | null> {
  const people = new Map((await house.records.people.list(yardId)).map((person) => [person.id, person.name]));
  return (by) => (by === null ? null : (people.get(by) ?? by));
}

/** A condition in words, e.g. "core too hot". */
export function conditionName(house: Pick<House, 'conditions'>, id: ConditionId): string {
  return house.conditions.find((condition) => condition.id === id)?.name ?? id.replaceAll('-', ' ');
}
