import type { JournalEntryView } from '../../../shared/api/types.ts';
import type { JournalEntry } from '../../../shared/yard/journal.ts';

export function journalView(
  entry: JournalEntry,
  nameOfPerson: (by: string | null) => string | null,
): JournalEntryView {
  return { ...entry, by: nameOfPerson(entry.by) };
}
