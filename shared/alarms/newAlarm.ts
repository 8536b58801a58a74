import type { YardId } from '../yard/yard.ts';
import type { Alarm, AlarmSubject, ConditionId } from './alarm.ts';
import { restingTimer } from './timing.ts';

/** Id of the one alarm row of a condition on a subject: derived, so that a retry after a crash meets the same row. */
export function alarmIdOf(subject: AlarmSubject, condition: ConditionId): string {
  return `${subject.kind}.${subject.id}.${condition}`;
}

/** A condition that has never been raised on its subject; version 0 is not stored yet. */
export function newAlarm(yardId: YardId, subject: AlarmSubject, condition: ConditionId): Alarm {
  return {
    id: alarmIdOf(subject, condition),
    yardId,
    subject,
    condition,
    state: 'normal',
    priority: 'low',
    timing: restingTimer,
    occurrence: 0,
    code: '',
    activeSinceMs: null,
    returnedMs: null,
    acknowledgedMs: null,
    acknowledgedBy: null,
    shelvedUntilMs: null,
    hiddenReason: null,
    limitsVersion: 0,
    evidence: [],
    version: 0,
  };
}
