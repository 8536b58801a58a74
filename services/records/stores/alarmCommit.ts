import type { Alarm } from '../../../shared/alarms/alarm.ts';
import { breaksRule, isDeadlock, isReferenceBroken, isUniqueBroken } from '../dialects/constraint.ts';
import { type AlarmCommit, RecordsError, VersionConflict } from '../port.ts';
import type { Database, Step } from '../schema.ts';
import { alarmToRow, transitionToRow } from './alarmRows.ts';
import { answerDeed } from './deedStore.ts';
import { writeJournal } from './journalStore.ts';
import { checkLease } from './leaseStore.ts';
import { writeMarks } from './markStore.ts';
import { writeMessages } from './messageWrite.ts';
import { writeStatuses } from './statusStore.ts';

/** Rows of one insert: well under the number of parameters either database takes in one statement. */
const rowsAtOnce = 500;

/** The rule that a code names one standing alarm of a yard, as each database reports it broken. */
const standingCode = { index: 'alarms_standing_code', columns: 'alarms.yard_id, alarms.code' };

/** Writes one step of the alarms, with all that it causes, in one transaction. */
export async function commitStep(db: Database, commit: AlarmCommit): Promise<void> {
  try {
    await db.transaction().execute(async (step) => {
      if (commit.lease != null) await checkLease(step, commit.lease);
      if (commit.deedId !== undefined) await answerDeed(step, commit.deedId);
      await writeAlarms(step, commit.alarms);
      await writeTransitions(step, commit);
      await writeMessages(step, commit.messages);
      await writeStatuses(step, commit.statuses);
      await writeJournal(step, commit.journal ?? []);
      await writeMarks(step, commit.marks);
    });
  } catch (error) {
    throw refusalOf(error);
  }
}

function refusalOf(error: unknown): unknown {
  if (breaksRule(error, standingCode))
    return new RecordsError('code', 'the code is in use by another standing alarm of this yard');
  // Two writers made the same new alarm, or waited for each other's rows: whoever lost reads again.
  if (isUniqueBroken(error) || isDeadlock(error))
    return new VersionConflict('the alarms changed meanwhile: read them again');
  if (isReferenceBroken(error))
    return new RecordsError('reference', 'the step names a yard, pile, alarm or person that does not exist');
  return error;
}

async function writeAlarms(step: Step, alarms: readonly Alarm[]): Promise<void> {
  const stored = await lockStored(step, alarms);
  for (const alarm of codesFreedFirst(alarms)) {
    const storedVersion = stored.get(alarm.id) ?? 0;
    if (alarm.version !== storedVersion + 1)
      throw new VersionConflict(
        `alarm ${alarm.id} is at version ${storedVersion}, cannot be stored as ${alarm.version}`,
      );
    await writeAlarm(step, alarm);
    stored.set(alarm.id, alarm.version);
  }
}

async function writeAlarm(step: Step, alarm: Alarm): Promise<void> {
  const row = alarmToRow(alarm);
  if (alarm.version === 1) await step.insertInto('alarms').values(row).execute();
  else await step.updateTable('alarms').set(row).where('id', '=', alarm.id).execute();
}

/** Stored versions; the rows stay locked, taken in one order everywhere so that two steps never wait for each other. */
async function lockStored(step: Step, alarms: readonly Alarm[]): Promise<Map<string, number>> {
  const versions = new Map<string, number>();
  for (const some of chunks(alarms)) {
    const ids = some.map(({ id }) => id);
    const rows = step.selectFrom('alarms').select(['id', 'version']).where('id', 'in', ids);
    for (const { id, version } of await rows.orderBy('id').forUpdate().execute()) versions.set(id, version);
  }
  return versions;
}

/** Alarms that return to normal go first: the code one gives up may be taken by another in the same step. */
const codesFreedFirst = (alarms: readonly Alarm[]): Alarm[] =>
  [...alarms].sort((a, b) => Number(b.state === 'normal') - Number(a.state === 'normal'));

async function writeTransitions(step: Step, { transitions }: AlarmCommit): Promise<void> {
  for (const some of chunks(transitions))
    await step.insertInto('alarmTransitions').values(some.map(transitionToRow)).execute();
}

function* chunks<Item>(items: readonly Item[]): Iterable<readonly Item[]> {
  for (let at = 0; at < items.length; at += rowsAtOnce) yield items.slice(at, at + rowsAtOnce);
}
