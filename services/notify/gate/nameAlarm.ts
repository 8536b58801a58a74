import type { Alarm, ConditionId } from '../../../shared/alarms/alarm.ts';
import { allConditions } from '../../../shared/rules/allConditions.ts';
import type { Records } from '../../records/port.ts';

const names = new Map<ConditionId, string>(
  allConditions.map(({ id, name }) => [id, name.charAt(0).toLowerCase() + name.slice(1)]),
);

/** "too hot: ceiling" */
export function conditionInWords(condition: ConditionId): string {
  return names.get(condition) ?? condition.replaceAll('-', ' ');
}

/** What an alarm is about: pile, probe or yard by name, the place of a pile, and the pile whose page tells of it. */
export async function aboutWhat(
  records: Records,
  { subject: { kind, id } }: Pick<Alarm, 'subject'>,
): Promise<{ readonly name: string; readonly place: string; readonly pileId: string | null }> {
  if (kind === 'pile') {
    const pile = await records.piles.get(id);
    return { name: pile?.name ?? 'a pile', place: pile?.place ?? '', pileId: pile?.id ?? null };
  }
  if (kind === 'probe') {
    const probe = await records.probes.get(id);
    return { name: probe?.label ?? 'a probe', place: '', pileId: null };
  }
  return { name: (await records.yards.get(id))?.name ?? 'the yard', place: '', pileId: null };
}
