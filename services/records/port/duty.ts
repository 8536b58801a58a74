import type { Priority } from '../../../shared/alarms/alarm.ts';
import type { DutyPlan } from '../../../shared/messages/dutyPlan.ts';
import type { WordingOverrides } from '../../../shared/messages/wordings.ts';
import type { YardId } from '../../../shared/yard/yard.ts';
import type { ChannelKind } from './messages.ts';

export interface DutyPlanVersion {
  readonly yardId: YardId;
  /** 0 = never changed: every default. */
  readonly version: number;
  readonly plan: DutyPlan;
  readonly by: string | null;
  readonly savedMs: number;
}

export interface DutyStore {
  /** The saved plan with the highest version, else version 0. */
  current(yardId: YardId): Promise<DutyPlanVersion>;
  /** Saves the next version; `expectedVersion` guards against two people changing it at once (VersionConflict). */
  save(
    change: Omit<DutyPlanVersion, 'version'> & { readonly expectedVersion: number },
  ): Promise<DutyPlanVersion>;
}

/** What a yard says in its own words. */
export interface WordingsVersion {
  readonly yardId: YardId;
  /** 0 = never changed: all words are ours. */
  readonly version: number;
  readonly overrides: WordingOverrides;
  readonly by: string | null;
  readonly savedMs: number;
}

export interface WordingStore {
  /** The saved wordings with the highest version, else version 0. */
  current(yardId: YardId): Promise<WordingsVersion>;
  /** Saves the next version; `expectedVersion` guards against two people changing it at once (VersionConflict). */
  save(
    change: Omit<WordingsVersion, 'version'> & { readonly expectedVersion: number },
  ): Promise<WordingsVersion>;
}

/** A further way to reach a person, beside the phone that stands with them. */
export interface ContactWay {
  readonly id: string;
  readonly personId: string;
  readonly channel: ChannelKind;
  /** E-mail address, web address, or a browser's push subscription as JSON. */
  readonly address: string;
  /** Least pressing priority told by this way. */
  readonly toldFrom: Priority;
  readonly createdMs: number;
  /** The other side said that it is no more; not used since. */
  readonly goneMs: number | null;
  readonly goneDetail: string | null;
}

export interface ContactWayStore {
  /** Of all people of a yard, also those that are gone; oldest first. */
  list(yardId: YardId): Promise<ContactWay[]>;
  /** Refuses (RecordsError on `address`) one the person has already on this channel. */
  create(way: Omit<ContactWay, 'id' | 'goneMs' | 'goneDetail'>): Promise<ContactWay>;
  remove(id: string): Promise<void>;
  /** Whoever has it: it is not used any more. Returns how many ways that were. */
  markGone(channel: ChannelKind, address: string, atMs: number, detail: string): Promise<number>;
}

/** A text that a known person sent. */
export interface InboundTextRecord {
  /** The same however often it is passed on. */
  readonly key: string;
  readonly personId: string;
  readonly address: string;
  readonly text: string;
  readonly receivedMs: number;
}

export interface InboundTextStore {
  /**
   * Keeps a text that came in, once per key. `done` when it was acted upon before; `receivedMs` is that of the first time
   * it came.
   */
  take(text: InboundTextRecord): Promise<{ readonly receivedMs: number; readonly done: boolean }>;
  /** It was acted upon; `outcome` says how, in words. */
  finish(key: string, atMs: number, outcome: string): Promise<void>;
}
