import type { JournalEntry } from '../../../shared/yard/journal.ts';
import { newId } from '../newId.ts';
import { type JournalStore, RecordsError } from '../port.ts';
import { found, refusing } from '../refusals.ts';
import type { Database, JournalRow } from '../schema.ts';

export function journalStore(db: Database): JournalStore {
  const get = async (id: string) => (await entries(db).where('journalEntries.id', '=', id).execute())[0];
  return {
    async list(pileId, { fromMs, toMs } = {}) {
      let asked = entries(db).where('pileId', '=', pileId);
      if (fromMs !== undefined) asked = asked.where('timeMs', '>=', fromMs);
      if (toMs !== undefined) asked = asked.where('timeMs', '<', toMs);
      return (await inOrder(asked).execute()).map(entryOf);
    },
    async forYard(yardId, { fromMs, recordedFromMs, kinds } = {}) {
      let asked = entries(db)
        .innerJoin('piles', 'piles.id', 'journalEntries.pileId')
        .where('piles.yardId', '=', yardId);
      if (fromMs !== undefined) asked = asked.where('timeMs', '>=', fromMs);
      if (recordedFromMs !== undefined) asked = asked.where('recordedAtMs', '>=', recordedFromMs);
      if (kinds !== undefined) asked = asked.where('kind', 'in', kinds);
      return (await inOrder(asked).execute()).map(entryOf);
    },
    async get(id) {
      const row = await get(id);
      return row === undefined ? null : entryOf(row);
    },
    async add(entry) {
      const row = rowOf(entry);
      const insert = db
        .insertInto('journalEntries')
        .values(row)
        .onConflict((conflict) => conflict.columns(['pileId', 'pressKey']).doNothing())
        .returningAll()
        .executeTakeFirst();
      const added = await refusing(insert, { reference: 'pileId' });
      return entryOf(added ?? (await pressed(db, entry.pileId, entry.pressKey ?? '')));
    },
    async takeBack(id, takenBackMs) {
      const taken = await db
        .updateTable('journalEntries')
        .set({ takenBackMs })
        .where('id', '=', id)
        .where('takenBackMs', 'is', null)
        .returningAll()
        .executeTakeFirst();
      return entryOf(found(taken, 'entryId', id));
    },
    async savePhoto(entryId, { widthPixels, heightPixels, jpeg }) {
      const row = { entryId, widthPixels, heightPixels, jpeg: Buffer.from(jpeg) };
      const insert = db
        .insertInto('journalPhotos')
        .values(row)
        .onConflict((conflict) => conflict.column('entryId').doNothing())
        .execute();
      await refusing(insert, { reference: 'entryId' });
      return entryOf(found(await get(entryId), 'entryId', entryId));
    },
    async photo(entryId) {
      const row = await db
        .selectFrom('journalPhotos')
        .select('jpeg')
        .where('entryId', '=', entryId)
        .executeTakeFirst();
      return row === undefined ? null : Uint8Array.from(row.jpeg);
    },
  };
}

/** Entries that stand, each with the size of its photo. What was taken back stays in the table and is shown to nobody. */
function entries(db: Database) {
  return db
    .selectFrom('journalEntries')
    .leftJoin('journalPhotos', 'journalPhotos.entryId', 'journalEntries.id')
    .selectAll('journalEntries')
    .select(['journalPhotos.widthPixels', 'journalPhotos.heightPixels'])
    .where('journalEntries.takenBackMs', 'is', null);
}

function inOrder(asked: ReturnType<typeof entries>): ReturnType<typeof entries> {
  return asked.orderBy('timeMs').orderBy('recordedAtMs').orderBy('journalEntries.id');
}

/** The entry an earlier sending of the same press made, also when it has been taken back since. */
async function pressed(db: Database, pileId: string, pressKey: string): Promise<JournalRow> {
  const row = await db
    .selectFrom('journalEntries')
    .selectAll()
    .where('pileId', '=', pileId)
    .where('pressKey', '=', pressKey)
    .executeTakeFirst();
  if (row === undefined) throw new RecordsError('pressKey', `pressKey ${pressKey} is taken`);
  return row;
}

interface ShownRow extends JournalRow {
  readonly widthPixels?: number | null;
  readonly heightPixels?: number | null;
}

function entryOf(row: ShownRow): JournalEntry {
  const { id, pileId, timeMs, kind, value, note, by, recordedAtMs, depthMetres } = row;
  const { widthPixels, heightPixels } = row;
  const photo = widthPixels == null || heightPixels == null ? {} : { photo: { widthPixels, heightPixels } };
  const depth = depthMetres === null ? {} : { depthMetres };
  return { id, pileId, timeMs, kind, value, note, by, recordedAtMs, ...depth, ...photo };
}

function rowOf(entry: Parameters<JournalStore['add']>[0]): JournalRow {
  const { pileId, timeMs, kind, value, note, by, recordedAtMs } = entry;
  const { depthMetres = null, pressKey = null } = entry;
  const row = { pileId, timeMs, kind, value, note, by, recordedAtMs, depthMetres, pressKey };
  return { ...row, id: newId(), takenBackMs: null };
}

/** Writes what the system notes down in the same transaction as the step that caused it. */
export async function writeJournal(
  db: Database,
  written: readonly Omit<JournalEntry, 'id'>[],
): Promise<void> {
  if (written.length > 0) await db.insertInto('journalEntries').values(written.map(rowOf)).execute();
}
