import type { Alarm, AlarmEvent, AlarmTransition, ConditionId, Evidence } from '../alarms/alarm.ts';
import { heldEvidence } from '../alarms/chattering.ts';
import { transition } from '../alarms/lifecycle.ts';
import { newAlarm } from '../alarms/newAlarm.ts';
import { reAlarmDueMs } from '../alarms/reAlarm.ts';
import type { Rule } from './condition.ts';
import type { Standing, Subject } from './subject.ts';
import { latestTimers, timerOf } from './timerTrail.ts';

/** What judgement changed and has still to be stored. */
export interface StepChanges {
  readonly alarms: Map<ConditionId, Alarm>;
  readonly transitions: AlarmTransition[];
  /** The trail, or what is known of texts, changed. */
  stateChanged: boolean;
}

export function noChanges(): StepChanges {
  return { alarms: new Map(), transitions: [], stateChanged: false };
}

/** Tells an alarm that its condition became active or returned, hiding it first when that is by design just now. */
export function tellChange<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  rule: Rule<View>,
  view: View,
  change: { readonly kind: 'became-active' | 'returned-to-normal'; readonly atMs: number },
  changes: StepChanges,
): void {
  const reason = change.kind === 'became-active' ? rule.condition.suppression(view, rule.parameters) : null;
  if (reason !== null) apply(subject, rule, view, { kind: 'suppress', atMs: change.atMs, reason }, changes);
  apply(subject, rule, view, change, changes);
}

/** Hides and shows by design what stands now: runs at every instant people have not been told about yet. */
export function syncSuppression<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  view: View,
  atMs: number,
  changes: StepChanges,
): void {
  const open = hidingOpen(subject.alarms);
  if (open === null) return;
  for (const rule of subject.rules) {
    if (open !== 'several' && open !== rule.condition.id) continue;
    const alarm = subject.alarms.get(rule.condition.id);
    if (alarm === undefined || !mayChangeHiding(alarm)) continue;
    const reason = rule.condition.suppression(view, rule.parameters);
    if (alarm.state === 'suppressed') {
      if (reason === null) apply(subject, rule, view, { kind: 'unsuppress', atMs }, changes);
    } else if (reason !== null) apply(subject, rule, view, { kind: 'suppress', atMs, reason }, changes);
  }
}

/** Ends shelving whose time is over. Shelving is people's time, so this takes the clock's. */
export function endShelving<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  view: View,
  nowMs: number,
  changes: StepChanges,
): void {
  for (const rule of subject.rules) {
    const alarm = subject.alarms.get(rule.condition.id);
    if (alarm?.state !== 'shelved' || alarm.shelvedUntilMs === null || alarm.shelvedUntilMs > nowMs) continue;
    apply(subject, rule, view, { kind: 'unshelve', atMs: alarm.shelvedUntilMs, by: null }, changes);
  }
}

/** Acknowledged long ago and still so: it asks again. Counted from a person's deed, so this takes the clock's time. */
export function askAgain<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  view: View,
  nowMs: number,
  changes: StepChanges,
): void {
  for (const rule of subject.rules) {
    const alarm = subject.alarms.get(rule.condition.id);
    const dueMs = alarm === undefined ? null : reAlarmDueMs(alarm, rule.parameters.reAlarmMinutes);
    if (dueMs === null || dueMs > nowMs || isGoingBack(subject, rule)) continue;
    apply(subject, rule, view, { kind: 're-alarm', atMs: dueMs }, changes);
  }
}

/** Its off-delay is counting: nobody need be asked again about what is about to be over. */
function isGoingBack<View>(subject: Standing, { condition }: Rule<View>): boolean {
  return timerOf(latestTimers(subject.trail), condition.id).backSinceMs !== null;
}

/** The one alarm whose hiding may change: mostly none or one, which is seen faster than by asking for every rule's. */
function hidingOpen(alarms: ReadonlyMap<ConditionId, Alarm>): ConditionId | 'several' | null {
  let open: ConditionId | null = null;
  for (const alarm of alarms.values()) {
    if (!mayChangeHiding(alarm)) continue;
    if (open !== null) return 'several';
    open = alarm.condition;
  }
  return open;
}

/** Only what is active needs hiding, and only what the design hid needs showing. */
function mayChangeHiding(alarm: Alarm): boolean {
  return alarm.state === 'suppressed' || alarm.state === 'unacknowledged' || alarm.state === 'acknowledged';
}

/** Applies one event, a person's or judgement's, to the alarm of a rule. Returns the refusal in words, else null. */
export function apply<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  rule: Rule<View>,
  view: View,
  event: AlarmEvent,
  changes: StepChanges,
): string | null {
  const { condition, parameters } = rule;
  const before = subject.alarms.get(condition.id) ?? newAlarm(subject.yardId, subject.subject, condition.id);
  const result = transition(before, event, {
    options: {
      latching: condition.latching,
      returnNeedsAcknowledging: true,
      sameOccurrenceMinutes: parameters.minimumMinutesBetweenTexts,
    },
    timing: timerOf(latestTimers(subject.trail), condition.id),
    evidence: evidenceOf(subject, rule, view),
    priority: condition.priority(view, parameters),
    limitsVersion: subject.limitsVersion,
  });
  if ('refused' in result) return result.refused;
  if (result.transition === null) return null;
  subject.alarms.set(condition.id, result.alarm);
  changes.alarms.set(condition.id, result.alarm);
  changes.transitions.push(result.transition);
  changes.stateChanged = true;
  noteText(subject, rule, view, before, result.alarm, event.atMs);
  return null;
}

/** What the verdict rests on, and why the alarm is held when it chatters. */
function evidenceOf<View>(subject: Standing, { condition, parameters }: Rule<View>, view: View): Evidence[] {
  const { evidence } = condition.findings(view, parameters);
  const { heldMinutes } = timerOf(latestTimers(subject.trail), condition.id);
  return heldMinutes === undefined ? [...evidence] : [...evidence, heldEvidence(heldMinutes)];
}

/** A new occurrence asks for a text, not sooner than the quiet time after the last one. */
function noteText<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  rule: Rule<View>,
  view: View,
  before: Alarm,
  after: Alarm,
  atMs: number,
): void {
  if (after.state !== 'unacknowledged' || after.occurrence === before.occurrence) return;
  const lastMs = subject.lastTextMs.get(after.condition) ?? Number.NEGATIVE_INFINITY;
  const dueMs = Math.max(atMs, lastMs + rule.parameters.minimumMinutesBetweenTexts * 60_000);
  const { measured } = rule.condition.findings(view, rule.parameters);
  subject.textsDue.set(after.condition, { occurrence: after.occurrence, dueMs, measured });
}
