import type { Alarm, AlarmTransition } from '../../shared/alarms/alarm.ts';
import type { PileStatus } from '../../shared/rules/status.ts';
import { saveState } from '../../shared/rules/subjectState.ts';
import type { JournalEntry } from '../../shared/yard/journal.ts';
import type { YardId } from '../../shared/yard/yard.ts';
import type { AlarmCommit, NewMessage } from '../records/port.ts';
import type { LiveChange } from '../web/port.ts';
import type { StandingCodes } from './codes.ts';
import { type Desk, stateMarkOf } from './desk.ts';
import { dueMessages, type TextContext } from './texts.ts';

/** Everything one pass wants stored, gathered desk by desk. */
export interface Step {
  readonly yardId: YardId;
  readonly alarms: Alarm[];
  readonly transitions: AlarmTransition[];
  readonly messages: NewMessage[];
  readonly statuses: PileStatus[];
  readonly journal: Omit<JournalEntry, 'id'>[];
  readonly marks: [string, string][];
  readonly desks: Set<Desk>;
}

export function emptyStep(yardId: YardId): Step {
  return {
    yardId,
    alarms: [],
    transitions: [],
    messages: [],
    statuses: [],
    journal: [],
    marks: [],
    desks: new Set(),
  };
}

/** Adds what a desk has changed, and the texts that have come due, to the step. */
export function gather(step: Step, desk: Desk, codes: StandingCodes, context: TextContext): void {
  if (!desk.hasChanges && desk.standing.textsDue.size === 0) return;
  giveCodes(desk, codes);
  step.messages.push(...dueMessages(desk, context));
  const { alarms, transitions, stateChanged } = desk.changes;
  if (!stateChanged) return;
  for (const alarm of alarms.values())
    step.alarms.push({ ...alarm, version: (desk.stored.get(alarm.condition)?.version ?? 0) + 1 });
  step.transitions.push(...transitions);
  step.marks.push([stateMarkOf(desk.subject), saveState(desk.standing)]);
  step.desks.add(desk);
}

export function isEmpty(step: Step): boolean {
  const { desks, statuses, messages, marks } = step;
  return desks.size + statuses.length + messages.length + marks.length === 0;
}

/** Statuses written in one go: the database holds the event loop up meanwhile. */
const statusesAtOnce = 50;

/**
 * The step as the records take it. The first part holds everything that must be stored together, with the marks that
 * move with it; statuses only repeat what readings tell, so many of them follow in parts of their own.
 */
export function commitsOf(step: Step, marks: readonly (readonly [string, string])[]): AlarmCommit[] {
  const { alarms, transitions, messages, statuses, journal } = step;
  const nothing = { alarms: [], transitions: [], messages: [], marks: [] };
  const first = {
    ...{ alarms, transitions, messages, journal, marks: [...step.marks, ...marks] },
    statuses: statuses.slice(0, statusesAtOnce),
  };
  const parts: AlarmCommit[] = [first];
  for (let at = statusesAtOnce; at < statuses.length; at += statusesAtOnce)
    parts.push({ ...nothing, statuses: statuses.slice(at, at + statusesAtOnce) });
  return parts;
}

/** The step is stored: what was changed is now what stands. */
export function settled(step: Step): void {
  for (const desk of step.desks) {
    desk.forgetChanges();
  }
  const byId = new Map(step.alarms.map((alarm) => [alarm.id, alarm]));
  for (const desk of step.desks)
    for (const alarm of desk.standing.alarms.values()) {
      const stored = byId.get(alarm.id);
      if (stored === undefined) continue;
      desk.stored.set(stored.condition, stored);
      desk.standing.alarms.set(stored.condition, stored);
    }
}

/** What screens of the yard should look at again. */
export function liveChangesOf(step: Step): LiveChange[] {
  const { yardId } = step;
  const piles = new Set(step.statuses.map((status) => status.pileId));
  for (const { subject } of step.alarms) if (subject.kind === 'pile') piles.add(subject.id);
  return [
    ...[...piles].map((pileId) => ({ kind: 'pile', pileId, yardId }) as const),
    ...step.alarms.map((alarm) => ({ kind: 'alarm', alarmId: alarm.id, yardId }) as const),
  ];
}

/** Codes of what goes back to normal are free for what comes up in the same step, so those go first. */
function giveCodes(desk: Desk, codes: StandingCodes): void {
  const changed = [...desk.changes.alarms.values()];
  const normalFirst = changed.sort((a, b) => Number(b.state === 'normal') - Number(a.state === 'normal'));
  for (const alarm of normalFirst) {
    const coded = codes.withCode(alarm);
    desk.changes.alarms.set(alarm.condition, coded);
    desk.standing.alarms.set(alarm.condition, coded);
  }
}
