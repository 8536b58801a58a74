import type { Alarm } from '../../../shared/alarms/alarm.ts';
import type { Records } from '../../records/port.ts';

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
