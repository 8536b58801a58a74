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
  readonly changes: StepChanges;
  /** Whether there are any, without making room for them. */
  readonly hasChanges: boolean;
  /** They are stored. */
  readonly forgetChanges: () => void;
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
  return new SubjectDesk(subject, where);
}

/** A class and not closures, because a large yard has tens of thousands. */
class SubjectDesk<View, S extends { readonly timeMs: number }> implements Desk {
  readonly stored = new Map<ConditionId, Alarm>();
  readonly where: Desk['where'];
  readonly #subject: Subject<View, S>;
  #changes: StepChanges | null = null;
  constructor(subject: Subject<View, S>, where: Desk['where']) {
    this.#subject = subject;
    this.where = where;
  }
  get yardId(): YardId {
    return this.#subject.yardId;
  }
  get subject(): AlarmSubject {
    return this.#subject.subject;
  }
  get standing(): Standing {
    return this.#subject;
  }
  get changes(): StepChanges {
    this.#changes ??= noChanges();
    return this.#changes;
  }
  get hasChanges(): boolean {
    return this.#changes?.stateChanged ?? false;
  }
  forgetChanges(): void {
    this.#changes = null;
  }
  say(condition: ConditionId): Said | null {
    const rule = this.#ruleOf(condition);
    if (rule === undefined) return null;
    const view = this.#viewNow();
    return {
      words: rule.condition.words(view, rule.parameters),
      findings: rule.condition.findings(view, rule.parameters),
    };
  }
  explain(_condition: ConditionId, _unit: TemperatureUnit): Explanation | null {
    return null;
  }
  act(condition: ConditionId, event: AlarmEvent): string | null {
    const rule = this.#ruleOf(condition);
    if (rule === undefined) return 'this condition is no longer judged';
    return apply(this.#subject, rule, this.#viewNow(), event, this.changes);
  }
  nextTickMs(): number {
    return nextTickMs(this.#subject);
  }
  #viewNow(): View {
    const { judged, lastInstantMs, toldUntilMs } = this.#subject;
    return judged.view(Math.max(lastInstantMs, toldUntilMs));
  }
  #ruleOf(condition: ConditionId) {
    return this.#subject.rules.find((rule) => rule.condition.id === condition);
  }
}

/** Adds what one more call of `advance` changed to what is still to be stored. */
export function addChanges(desk: Desk, more: StepChanges): void {
  if (!more.stateChanged) return;
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
