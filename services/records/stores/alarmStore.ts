import type { AlarmStore } from '../port.ts';
import { priorityRank } from '../priorityRank.ts';
import { refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';
import { commitStep } from './alarmCommit.ts';
import { alarmFromRow, transitionFromRow } from './alarmRows.ts';

export function alarmStore(db: Database): AlarmStore {
  const alarms = db.selectFrom('alarms').selectAll();
  const worstFirst = alarms
    .orderBy((alarm) => priorityRank(alarm.ref('priority')))
    .orderBy('activeSinceMs')
    .orderBy('id');
  return {
    async get(id) {
      const row = await alarms.where('id', '=', id).executeTakeFirst();
      return row ? alarmFromRow(row) : null;
    },
    async list(yardId, { standingOnly = false } = {}) {
      const all = worstFirst.where('yardId', '=', yardId);
      const asked = standingOnly ? all.where('state', '<>', 'normal') : all;
      return (await asked.execute()).map(alarmFromRow);
    },
    async counts() {
      const rows = await db
        .selectFrom('alarms')
        .select((alarm) => ['state', 'priority', alarm.fn.countAll<number>().as('count')])
        .groupBy(['state', 'priority'])
        .orderBy('state')
        .orderBy('priority')
        .execute();
      return rows.map((row) => ({ ...row, count: Number(row.count) }));
    },
    async forPile(pileId) {
      const rows = worstFirst.where('subjectKind', '=', 'pile').where('subjectId', '=', pileId);
      return (await rows.execute()).map(alarmFromRow);
    },
    async find(yardId, subjectKind, subjectId, condition) {
      const row = await alarms
        .where('yardId', '=', yardId)
        .where('subjectKind', '=', subjectKind as 'pile')
        .where('subjectId', '=', subjectId)
        .where('condition', '=', condition)
        .executeTakeFirst();
      return row ? alarmFromRow(row) : null;
    },
    commit: (step) => commitStep(db, step),
    ...historySide(db),
    ...answerLinkSide(db),
  };
}

function historySide(db: Database): Pick<AlarmStore, 'transitions' | 'history' | 'transitionsBetween'> {
  return {
    async transitions(alarmId) {
      const rows = db.selectFrom('alarmTransitions').selectAll().where('alarmId', '=', alarmId);
      return (await rows.orderBy('sequence').execute()).map(transitionFromRow);
    },
    async history(pileId, limit) {
      const rows = await db
        .selectFrom('alarmTransitions')
        .innerJoin('alarms', 'alarms.id', 'alarmTransitions.alarmId')
        .selectAll('alarmTransitions')
        .select('alarms.condition')
        .where('alarms.subjectKind', '=', 'pile')
        .where('alarms.subjectId', '=', pileId)
        .orderBy('alarmTransitions.atMs', 'desc')
        .orderBy('alarmTransitions.sequence', 'desc')
        .limit(limit)
        .execute();
      return rows.map((row) => ({ ...transitionFromRow(row), condition: row.condition }));
    },
    async transitionsBetween(yardId, fromMs, toMs) {
      const rows = await db
        .selectFrom('alarmTransitions')
        .innerJoin('alarms', 'alarms.id', 'alarmTransitions.alarmId')
        .selectAll('alarmTransitions')
        .select(['alarms.condition', 'alarms.subjectKind', 'alarms.subjectId'])
        .where('alarms.yardId', '=', yardId)
        .where('alarmTransitions.atMs', '>=', fromMs)
        .where('alarmTransitions.atMs', '<', toMs)
        .orderBy('alarmTransitions.sequence')
        .execute();
      return rows.map((row) => ({
        ...transitionFromRow(row),
        condition: row.condition,
        subject: { kind: row.subjectKind, id: row.subjectId },
      }));
    },
  };
}

function answerLinkSide(db: Database): Pick<AlarmStore, 'saveAnswerLink' | 'findAnswerLink'> {
  return {
    async saveAnswerLink({ tokenHash, alarmId, occurrence, personId, expiresMs }) {
      const row = { tokenHash, alarmId, occurrence, personId, expiresMs };
      await refusing(db.insertInto('answerLinks').values(row).execute(), { reference: 'alarmId' });
    },
    async findAnswerLink(tokenHash) {
      const link = db.selectFrom('answerLinks').selectAll().where('tokenHash', '=', tokenHash);
      return (await link.executeTakeFirst()) ?? null;
    },
  };
}
