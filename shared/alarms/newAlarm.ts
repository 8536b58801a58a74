import type { YardId } from '../yard/yard.ts';
import type { Alarm, AlarmSubject, ConditionId } from './alarm.ts';
import { restingTimer } from './timing.ts';

/** Longest id the API takes. */
const longestId = 80;

/** Id of the one alarm row of a condition on a subject: derived, so that a retry after a crash meets the same row. */
export function alarmIdOf(subject: AlarmSubject, condition: ConditionId): string {
  const id = `${subject.kind}.${subject.id}.${condition}`;
  if (id.length <= longestId) return id;
  return `${subject.kind}.${subject.id.slice(-24)}~${fingerprint(subject.id)}.${condition}`;
}

/** Tells long probe names with the same ending apart; 35 bits are plenty for the probes of one yard. */
function fingerprint(text: string): string {
  let value = 17;
  for (const character of text) value = (value * 257 + character.codePointAt(0)!) % 34_359_738_337;
  return value.toString(36);
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
