import type { AlarmEvent } from '../../../shared/alarms/alarm.ts';
import type { YardId } from '../../../shared/yard/yard.ts';
import type { ChannelKind } from './messages.ts';

/** The right of one holder to one piece of work. The fence grows with every taking, so an older right is told from it. */
export interface LeaseGrant {
  readonly name: string;
  readonly holder: string;
  readonly fence: number;
}

/** A lease as it stands. Nobody's clock decides when it ends: who sees the same `beat` for long enough may take it. */
export interface LeaseRow {
  readonly name: string;
  /** Null: handed back. */
  readonly holder: string | null;
  readonly fence: number;
  readonly beat: number;
}

export interface LeaseStore {
  /** Makes those that do not exist yet, held by nobody. */
  ensure(names: readonly string[]): Promise<void>;
  list(): Promise<LeaseRow[]>;
  /** Takes a lease that still stands as it was seen; null when it does not. */
  take(seen: Pick<LeaseRow, 'name' | 'fence' | 'beat'>, holder: string): Promise<LeaseGrant | null>;
  /** A sign of life; gives back the names of those that are still held under these very grants. */
  renew(grants: readonly LeaseGrant[]): Promise<string[]>;
  release(grant: LeaseGrant): Promise<void>;
}

/** A process of the yard, as it last told of itself. */
export interface ProcessRow {
  readonly id: string;
  /** JSON of whoever wrote it. */
  readonly standing: string;
  readonly beat: number;
}

export interface ProcessStore {
  /** A sign of life. */
  beat(id: string, standing: string): Promise<void>;
  list(): Promise<ProcessRow[]>;
  /** Strikes off one that still stands as it was seen. */
  forget(seen: Pick<ProcessRow, 'id' | 'beat'>): Promise<void>;
}

/** A person's action on an alarm that waits for whoever judges the yard. */
export interface Deed {
  readonly id: string;
  readonly yardId: YardId;
  readonly alarmId: string;
  readonly event: AlarmEvent;
  readonly createdMs: number;
}

/** What came of a deed; a refusal names the field and says why. */
export type DeedAnswer =
  | { readonly kind: 'done' }
  | { readonly kind: 'refused'; readonly field: string; readonly message: string };

export interface DeedStore {
  /** Throws RecordsError on `alarmId` when there is no such alarm. */
  add(deed: Deed): Promise<void>;
  /** Those that wait for an answer, oldest first. */
  waiting(yardIds: readonly YardId[]): Promise<Deed[]>;
  /** Nothing happens when it is answered already, or was taken back. Being done is written by `AlarmCommit.deedId`. */
  refuse(id: string, answer: Extract<DeedAnswer, { kind: 'refused' }>): Promise<void>;
  /** The answer, which is then forgotten; null while there is none. */
  takeAnswer(id: string): Promise<DeedAnswer | null>;
  /** True when it had not been answered and never will be. */
  takeBack(id: string): Promise<boolean>;
  /** Forgets what nobody came back for. */
  sweep(beforeMs: number): Promise<void>;
}

/** Something asked of a channel by a person whose process sends nothing. */
export interface ChannelErrand {
  readonly id: string;
  readonly channel: ChannelKind;
  /** Whom a test goes to; null: only look whether it would work. */
  readonly address: string | null;
  readonly createdMs: number;
}

export interface ErrandStore {
  add(errand: ChannelErrand): Promise<void>;
  /** Takes those of these channels that nobody has taken, oldest first: each is then this caller's alone to do. */
  take(channels: readonly ChannelKind[]): Promise<ChannelErrand[]>;
  /** What came of it, as JSON. */
  answer(id: string, answer: string): Promise<void>;
  /** The answer, which is then forgotten; null while there is none. */
  takeAnswer(id: string): Promise<string | null>;
  /** True when nobody had taken it and nobody ever will. */
  takeBack(id: string): Promise<boolean>;
  /** Forgets what nobody came back for. */
  sweep(beforeMs: number): Promise<void>;
}

/** The step was not stored: what it was about is another process's now. */
export class LeaseLost extends Error {
  override readonly name = 'LeaseLost';
  readonly leaseName: string;
  constructor(leaseName: string) {
    super(`the lease ${leaseName} is held by another process`);
    this.leaseName = leaseName;
  }
}

/** The deed was taken back, or done before, while its step was on the way: nothing of the step was stored. */
export class DeedGone extends Error {
  override readonly name = 'DeedGone';
}
