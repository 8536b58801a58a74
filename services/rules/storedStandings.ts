import type { Alarm, AlarmSubject } from '../../shared/alarms/alarm.ts';
import type { YardId } from '../../shared/yard/yard.ts';
import type { Records } from '../records/port.ts';
import { stateMarkOf } from './desk.ts';

/** What is stored of where judgement stands, for all of a yard's subjects, read in two queries. */
export interface StoredStandings {
  readonly alarms: readonly Alarm[];
  readonly alarmsOf: (subject: AlarmSubject) => readonly Alarm[];
  readonly stateOf: (subject: AlarmSubject) => string | null;
}

export async function readStandings(records: Records, yardId: YardId): Promise<StoredStandings> {
  const [alarms, states] = await Promise.all([
    records.alarms.list(yardId),
    records.marks.withPrefix('rules:state:'),
  ]);
  const bySubject = Map.groupBy(alarms, ({ subject }) => stateMarkOf(subject));
  return {
    alarms,
    alarmsOf: (subject) => bySubject.get(stateMarkOf(subject)) ?? [],
    stateOf: (subject) => states.get(stateMarkOf(subject)) ?? null,
  };
}
