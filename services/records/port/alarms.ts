import type {
  Alarm,
  AlarmState,
  AlarmSubject,
  AlarmTransition,
  ConditionId,
  Priority,
} from '../../../shared/alarms/alarm.ts';
import type { PileStatus } from '../../../shared/rules/status.ts';
import type { JournalEntry } from '../../../shared/yard/journal.ts';
import type { PileId, YardId } from '../../../shared/yard/yard.ts';
import type { NewMessage } from './messages.ts';
import type { LeaseGrant } from './sharing.ts';

/** Everything one assessment or one person's action changes, written in one transaction or not at all. */
export interface AlarmCommit {
  /** New standing of each alarm; `version` must be the stored version + 1 (1 for a new row), else VersionConflict. */
  readonly alarms: readonly Alarm[];
  readonly transitions: readonly AlarmTransition[];
  readonly messages: readonly NewMessage[];
  readonly statuses: readonly PileStatus[];
  /** Notes the system writes about piles, e.g. of a milestone. */
  readonly journal?: readonly Omit<JournalEntry, 'id'>[];
  /** Marks moved together with the step, e.g. the rules cursor: `[name, value]`. */
  readonly marks: readonly (readonly [string, string])[];
  /** The right by which the step is made: when it is no longer held nothing is stored and LeaseLost is thrown. */
  readonly lease?: LeaseGrant | null;
  /** The deed that is done by it, answered with it; DeedGone when somebody took it back. */
  readonly deedId?: string;
}

/** One-time link in a text by which one person acknowledges one occurrence. The token itself is stored only as a hash. */
export interface AnswerLink {
  readonly tokenHash: string;
  readonly alarmId: string;
  readonly occurrence: number;
  readonly personId: string;
  readonly expiresMs: number;
}

/** A transition with what its alarm is about. */
export interface YardTransition extends AlarmTransition {
  readonly condition: ConditionId;
  readonly subject: AlarmSubject;
}

/** How many alarms of all yards stand alike. */
export interface AlarmCount {
  readonly state: AlarmState;
  readonly priority: Priority;
  readonly count: number;
}

export interface AlarmStore {
  get(id: string): Promise<Alarm | null>;
  /** Most pressing first, then longest standing; `standingOnly` leaves out those that are normal. */
  list(yardId: YardId, filter?: { readonly standingOnly?: boolean }): Promise<Alarm[]>;
  /** Of all yards; what there is none of is left out. */
  counts(): Promise<AlarmCount[]>;
  /** Alarms about the pile itself, in the same order; not those of the probes in it. */
  forPile(pileId: PileId): Promise<Alarm[]>;
  find(yardId: YardId, subjectKind: string, subjectId: string, condition: ConditionId): Promise<Alarm | null>;
  /** In the order they were written. */
  transitions(alarmId: string): Promise<AlarmTransition[]>;
  /** The newest `limit` transitions on a pile's alarms, newest first. */
  history(pileId: PileId, limit: number): Promise<(AlarmTransition & { readonly condition: ConditionId })[]>;
  /** Transitions of all alarms of a yard in [fromMs, toMs), in the order they were written. */
  transitionsBetween(yardId: YardId, fromMs: number, toMs: number): Promise<YardTransition[]>;
  /**
   * All or nothing. Throws VersionConflict when an alarm changed meanwhile, RecordsError on `code` when another standing
   * alarm of the yard has the code (one that returns to normal in the same step gives its code up), on `reference` when
   * a row names something that does not exist.
   */
  commit(step: AlarmCommit): Promise<void>;
  saveAnswerLink(link: AnswerLink): Promise<void>;
  /** Also an expired one: the caller compares `expiresMs`. */
  findAnswerLink(tokenHash: string): Promise<AnswerLink | null>;
}
