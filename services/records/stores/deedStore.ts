import { deedAnswerColumn, deedEventColumn } from '../json.ts';
import { DeedGone, type DeedStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database, Step } from '../schema.ts';

export function deedStore(db: Database): DeedStore {
  const unanswered = (id: string) => db.deleteFrom('deeds').where('id', '=', id).where('answer', 'is', null);
  return {
    async add({ event, ...deed }) {
      const row = { ...deed, event: deedEventColumn.write(event, 'event'), answer: null };
      await refusing(db.insertInto('deeds').values(row).execute(), { reference: 'alarmId' });
    },
    async waiting(yardIds) {
      if (yardIds.length === 0) return [];
      const rows = await db
        .selectFrom('deeds')
        .select(['id', 'yardId', 'alarmId', 'event', 'createdMs'])
        .where('answer', 'is', null)
        .where('yardId', 'in', yardIds)
        .orderBy('createdMs')
        .orderBy('id')
        .execute();
      return rows.map((row) => ({ ...row, event: deedEventColumn.read(row.event) }));
    },
    async refuse(id, answer) {
      await db
        .updateTable('deeds')
        .set({ answer: deedAnswerColumn.write(answer, 'answer') })
        .where('id', '=', id)
        .where('answer', 'is', null)
        .execute();
    },
    async takeAnswer(id) {
      const gone = db.deleteFrom('deeds').where('id', '=', id).where('answer', 'is not', null);
      const row = await gone.returning('answer').executeTakeFirst();
      return row?.answer == null ? null : deedAnswerColumn.read(row.answer);
    },
    takeBack: async (id) => (await unanswered(id).returning('id').executeTakeFirst()) !== undefined,
    async sweep(beforeMs) {
      await db.deleteFrom('deeds').where('createdMs', '<', beforeMs).execute();
    },
  };
}

/** Part of the step that does it: done and answered together, or neither. */
export async function answerDeed(step: Step, id: string): Promise<void> {
  const answered = await step
    .updateTable('deeds')
    .set({ answer: deedAnswerColumn.write({ kind: 'done' }, 'answer') })
    .where('id', '=', id)
    .where('answer', 'is', null)
    .returning('id')
    .executeTakeFirst();
  if (answered === undefined) throw new DeedGone(`deed ${id} was taken back or is done`);
}
