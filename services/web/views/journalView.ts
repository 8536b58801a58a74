import { takeBackHours } from '../../../shared/api/constants.ts';
import type { JournalEntryView } from '../../../shared/api/types.ts';
import type { JournalEntry } from '../../../shared/yard/journal.ts';
import type { Person } from '../../../shared/yard/people.ts';

/** Prepares names once, then shows any number of entries to one person (null: to a wall, which may change nothing). */
export function journalViewer(
  nameOfPerson: (by: string | null) => string | null,
  person: Person | null,
): (entry: JournalEntry) => JournalEntryView {
  return (entry) => ({
    ...entry,
    by: nameOfPerson(entry.by),
    depthMetres: entry.depthMetres ?? null,
    photo: entry.photo ?? null,
    takeBackUntilMs: mayTakeBack(entry, person) ? entry.recordedAtMs + takeBackHours * 3_600_000 : null,
  });
}

/** Whoever pressed it, never a viewer; that a pile began or ended is changed on the pile itself. */
export function mayTakeBack({ by, kind }: JournalEntry, person: Person | null): boolean {
  if (person === null || person.role === 'viewer' || by === null) return false;
  return kind !== 'built' && kind !== 'finished' && by === person.id;
}
