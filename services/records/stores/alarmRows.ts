import type { Alarm, AlarmSubject, AlarmTransition } from '../../../shared/alarms/alarm.ts';
import { evidenceColumn } from '../json.ts';
import type { AlarmRow, TransitionRow } from '../schema.ts';

export function alarmToRow({ subject, timing, evidence, ...alarm }: Alarm): AlarmRow {
  return {
    id: alarm.id,
    yardId: alarm.yardId,
    subjectKind: subject.kind,
    subjectId: subject.id,
    condition: alarm.condition,
    state: alarm.state,
    priority: alarm.priority,
    active: timing.active ? 1 : 0,
    beyondSinceMs: timing.beyondSinceMs,
    backSinceMs: timing.backSinceMs,
    occurrence: alarm.occurrence,
    code: alarm.code,
    activeSinceMs: alarm.activeSinceMs,
    returnedMs: alarm.returnedMs,
    acknowledgedMs: alarm.acknowledgedMs,
    acknowledgedBy: alarm.acknowledgedBy,
    shelvedUntilMs: alarm.shelvedUntilMs,
    hiddenReason: alarm.hiddenReason,
    limitsVersion: alarm.limitsVersion,
    evidence: evidenceColumn.write(evidence, 'evidence'),
    version: alarm.version,
  };
}

export function alarmFromRow(row: AlarmRow): Alarm {
  const { subjectKind, subjectId, active, beyondSinceMs, backSinceMs, evidence, ...alarm } = row;
  return {
    ...alarm,
    subject: { kind: subjectKind, id: subjectId } satisfies AlarmSubject,
    timing: { active: active === 1, beyondSinceMs, backSinceMs },
    evidence: evidenceColumn.read(evidence),
  };
}

export function transitionToRow(step: AlarmTransition): Omit<TransitionRow, 'sequence'> {
  return {
    alarmId: step.alarmId,
    occurrence: step.occurrence,
    atMs: step.atMs,
    event: step.event,
    fromState: step.from,
    toState: step.to,
    by: step.by,
    note: step.note,
    limitsVersion: step.limitsVersion,
    evidence: evidenceColumn.write(step.evidence, 'evidence'),
  };
}

export function transitionFromRow(row: Omit<TransitionRow, 'sequence'>): AlarmTransition {
  return {
    alarmId: row.alarmId,
    occurrence: row.occurrence,
    atMs: row.atMs,
    event: row.event,
    from: row.fromState,
    to: row.toState,
    by: row.by,
    note: row.note,
    limitsVersion: row.limitsVersion,
    evidence: evidenceColumn.read(row.evidence),
  };
}
