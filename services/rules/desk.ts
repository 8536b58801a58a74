import type { Alarm, AlarmEvent, AlarmSubject, ConditionId } from '../../shared/alarms/alarm.ts';
import type { Explanation } from '../../shared/diagnosis/explain.ts';
import { apply, noChanges, type StepChanges } from '../../shared/rules/alarmSteps.ts';
import type { ConditionWords, Findings } from '../../shared/rules/condition.ts';
import { nextTickMs, type Standing, type Subject } from '../../shared/rules/subject.ts';
import { loadState, resumeFrom } from '../../shared/rules/subjectState.ts';
import type { PileId, TemperatureUnit, YardId } from '../../shared/yard/yard.ts';

/** What an alarm of this desk says to people, worked out now. */
export interface Said {
  readonly words: ConditionWords;
  readonly findings: Findings;
}

/** One subject at work: judgement's standing in memory and what of it is stored, whatever it judges. */
export interface Desk {
  readonly yardId: YardId;
  readonly subject: AlarmSubject;
  readonly standing: Standing;
  /** Alarm rows as stored, by condition. */
  readonly stored: Map<ConditionId, Alarm>;
  /** Changes made in memory and not yet stored. */
  changes: StepChanges;
  /** Name and place for texts; the pile whose page tells of them, null where there is none. */
  readonly where: () => { readonly name: string; readonly place: string; readonly pileId: PileId | null };
  readonly say: (condition: ConditionId) => Said | null;
  /** Likely causes and what to do about them; null where the cause is not in question. */
  readonly explain: (condition: ConditionId, unit: TemperatureUnit) => Explanation | null;
  /** Applies a person's event; returns the refusal in words, else null. */
  readonly act: (condition: ConditionId, event: AlarmEvent) => string | null;
  /** The next instant at which the passing of time alone may change something. */
  readonly nextTickMs: () => number;
}

/** Hides what a subject judges, so that piles, probes and yards are stored and texted by the same code. */
export function deskOf<View, S extends { readonly timeMs: number }>(
  subject: Subject<View, S>,
  where: Desk['where'],
): Desk {
  const viewNow = () => subject.judged.view(Math.max(subject.lastInstantMs, subject.toldUntilMs));
  const ruleOf = (condition: ConditionId) => subject.rules.find((rule) => rule.condition.id === condition);
  const desk: Desk = {
    yardId: subject.yardId,
    subject: subject.subject,
    standing: subject,
    stored: new Map(),
    changes: noChanges(),
    where,
    say(condition) {
      const rule = ruleOf(condition);
      if (rule === undefined) return null;
      const view = viewNow();
      return {
        words: rule.condition.words(view, rule.parameters),
        findings: rule.condition.findings(view, rule.parameters),
      };
    },
    explain: () => null,
    act(condition, event) {
      const rule = ruleOf(condition);
      if (rule === undefined) return 'this condition is no longer judged';
      return apply(subject, rule, viewNow(), event, desk.changes);
    },
    nextTickMs: () => nextTickMs(subject),
  };
  return desk;
}

/** Adds what one more call of `advance` changed to what is still to be stored. */
export function addChanges(desk: Desk, more: StepChanges): void {
  for (const [condition, alarm] of more.alarms) desk.changes.alarms.set(condition, alarm);
  desk.changes.transitions.push(...more.transitions);
  desk.changes.stateChanged ||= more.stateChanged;
}

/** Ends the alarms of a subject that is no longer watched: an ended pile, a revoked probe. */
export function closeAlarms(desk: Desk, atMs: number): void {
  const events: AlarmEvent[] = [
    { kind: 'unshelve', atMs, by: null },
    { kind: 'unsuppress', atMs },
    { kind: 'return-to-service', atMs, by: 'system' },
    { kind: 'returned-to-normal', atMs },
    { kind: 'acknowledge', atMs, by: 'system' },
    { kind: 'reset', atMs, by: 'system' },
  ];
  // What does not fit an alarm's state is refused by the table and changes nothing.
  for (const { condition } of [...desk.standing.alarms.values()].filter((alarm) => alarm.state !== 'normal'))
    for (const event of events) desk.act(condition, event);
}

/** Puts what is stored about a subject into its fresh desk. Judgement goes on from `lastSampleMs` or later. */
export function restoreDesk(
  desk: Desk,
  alarms: readonly Alarm[],
  state: string | null,
  lastSampleMs: number,
): void {
  for (const alarm of alarms) {
    desk.stored.set(alarm.condition, alarm);
    desk.standing.alarms.set(alarm.condition, alarm);
  }
  if (state !== null) loadState(desk.standing, state);
  resumeFrom(desk.standing, lastSampleMs);
}

/** Name of the mark that keeps a subject's standing. */
export function stateMarkOf(subject: AlarmSubject): string {
  return `rules:state:${subject.kind}:${subject.id}`;
}
