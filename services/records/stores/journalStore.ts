import type { JournalEntry } from '../../../shared/yard/journal.ts';
import { newId } from '../newId.ts';
import type { JournalStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function journalStore(db: Database): JournalStore {
  return {
    list(pileId, { fromMs, toMs } = {}) {
      let entries = db.selectFrom('journalEntries').selectAll().where('pileId', '=', pileId);
      if (fromMs !== undefined) entries = entries.where('timeMs', '>=', fromMs);
      if (toMs !== undefined) entries = entries.where('timeMs', '<', toMs);
      return entries.orderBy('timeMs').orderBy('recordedAtMs').orderBy('id').execute();
    },
    forYard(yardId, { fromMs, recordedFromMs, kinds } = {}) {
      let entries = db
        .selectFrom('journalEntries')
        .innerJoin('piles', 'piles.id', 'journalEntries.pileId')
        .selectAll('journalEntries')
        .where('piles.yardId', '=', yardId);
      if (fromMs !== undefined) entries = entries.where('timeMs', '>=', fromMs);
      if (recordedFromMs !== undefined) entries = entries.where('recordedAtMs', '>=', recordedFromMs);
      if (kinds !== undefined) entries = entries.where('kind', 'in', kinds);
      return entries.orderBy('timeMs').orderBy('recordedAtMs').orderBy('journalEntries.id').execute();
    },
    add({ pileId, timeMs, kind, value, note, by, recordedAtMs }) {
      const row = { id: newId(), pileId, timeMs, kind, value, note, by, recordedAtMs };
      const insert = db.insertInto('journalEntries').values(row).returningAll().executeTakeFirstOrThrow();
      return refusing(insert, { reference: 'pileId' });
    },
  };
}

/** Writes what the system notes down in the same transaction as the step that caused it. */
export async function writeJournal(
  db: Database,
  entries: readonly Omit<JournalEntry, 'id'>[],
): Promise<void> {
  if (entries.length === 0) return;
  const rows = entries.map(({ pileId, timeMs, kind, value, note, by, recordedAtMs }) => {
    return { id: newId(), pileId, timeMs, kind, value, note, by, recordedAtMs };
  });
  await db.insertInto('journalEntries').values(rows).execute();
}
