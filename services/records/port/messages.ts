import type { Priority } from '../../../shared/alarms/alarm.ts';
import type { PileId, YardId } from '../../../shared/yard/yard.ts';
import type { AnswerLink } from './alarms.ts';

export const channelKinds = ['sms-http', 'sms-modem', 'email', 'web-push', 'webhook'] as const;
export type ChannelKind = (typeof channelKinds)[number];

/**
 * What a message is: of one alarm, of several at once, told to the next person, that nobody answers; a morning summary,
 * a weekly or daily one, a milestone of a pile, about the service itself; an answer to a text; a try of a channel.
 */
export const messageKinds = [
  'alarm',
  'several',
  'next-person',
  'nobody-answers',
  'morning',
  'digest',
  'all-well',
  'milestone',
  'service',
  'answer',
  'test',
] as const;
export type MessageKind = (typeof messageKinds)[number];

/**
 * Why a message did not go out when it was written: quiet hours, the hourly cap, told with what comes in the same minute;
 * or at all: over, or overtaken.
 */
export const heldReasons = ['quiet', 'cap', 'group', 'over', 'overtaken'] as const;
export type HeldFor = (typeof heldReasons)[number];

/** A message to be written in the same transaction as the alarm step that caused it. */
export interface NewMessage {
  readonly yardId: YardId;
  readonly pileId: PileId | null;
  readonly alarmId: string | null;
  readonly occurrence: number | null;
  /** Same for every retry; unique: a second row with the same key is silently the first one. */
  readonly idempotencyKey: string;
  readonly personId: string;
  readonly channel: ChannelKind;
  /** Where to: phone number in E.164, address or URL. */
  readonly address: string;
  readonly text: string;
  readonly priority: Priority;
  readonly createdMs: number;
  readonly notBeforeMs: number;
  /** Not sent after this; its row says `expired`. */
  readonly expiresMs: number;
  /** Link put in the text, stored with it. */
  readonly answerLink: AnswerLink | null;
  /** `alarm` when left out. */
  readonly kind?: MessageKind;
  /** What to do first, in English as the condition says it: for a text that tells this one with others. */
  readonly firstAction?: string;
  /** Alarms this one goes beyond: what still waits about them for this person is not sent any more. */
  readonly overtakes?: readonly string[];
}

export const messageStates = [
  'waiting',
  'sending',
  'sent',
  'delivered',
  'failed',
  'expired',
  'told-together',
  'not-needed',
] as const;
export type MessageState = (typeof messageStates)[number];

export interface Message extends Omit<NewMessage, 'answerLink' | 'kind' | 'overtakes' | 'firstAction'> {
  readonly id: string;
  readonly kind: MessageKind;
  readonly state: MessageState;
  readonly attempts: number;
  readonly nextAttemptMs: number;
  /** What the gateway called it, for delivery reports. */
  readonly gatewayReference: string | null;
  readonly finishedMs: number | null;
  /** Attempts that may have gone out without our knowing. With another one that did, it may have arrived twice. */
  readonly maybeSent: number;
  readonly heldFor: HeldFor | null;
  /** The message in which it was told together with others. */
  readonly toldIn: string | null;
  readonly firstAction: string | null;
}

export interface MessageAttempt {
  readonly messageId: string;
  readonly attempt: number;
  readonly startedMs: number;
  readonly finishedMs: number;
  readonly outcome: 'sent' | 'retry' | 'gave-up';
  /** Plain words, no secrets: "gateway answered 503". */
  readonly detail: string;
  /** It may have gone out: the line broke, or the program stopped, before the answer was known. */
  readonly maybeSent: boolean;
}

/** How the outbox stands, over all yards. */
export interface OutboxStanding {
  readonly counts: Readonly<Record<MessageState, number>>;
  /** Since when the one that waits longest could have gone out (its `notBeforeMs`); null when none waits. */
  readonly oldestWaitingMs: number | null;
  /** Messages that went out after an attempt that may have gone out as well. */
  readonly maybeTwice: number;
}

export interface MessageStore {
  /**
   * Takes up to `limit` due messages and marks them `sending` until the lease ends, so that two notifiers never share
   * one; a message whose lease ended waits again. Expired ones are never taken (call `expireDue` first to mark them).
   *
   * Order for one recipient (channel and address): one message in flight at a time, so at most one per claim; among
   * those due the most pressing first, then the one written first. Texts of one alarm keep the order they were written
   * in: a later one waits while an earlier one is due or between attempts ("too hot" must not follow "normal"), until
   * that one is out, has failed or has expired. Another alarm's text never waits for a retry, and a message that is only
   * scheduled for later holds nothing back. Two claims at the very same moment on PostgreSQL may put two different
   * alarms' texts to one recipient in flight; never two of one alarm, and never one message twice.
   */
  claimDue(claim: {
    readonly nowMs: number;
    readonly limit: number;
    readonly leaseMs: number;
    readonly claimant: string;
  }): Promise<Message[]>;
  /**
   * Records an attempt and the message's new standing in one transaction. A message already sent stays so. With
   * `claimant`, a report that comes after the lease went to somebody else is recorded but changes the standing only if
   * the message went out.
   */
  finishAttempt(
    attempt: Omit<MessageAttempt, 'maybeSent'> & { readonly maybeSent?: boolean },
    next: {
      readonly state: MessageState;
      readonly nextAttemptMs: number;
      readonly gatewayReference: string | null;
      readonly claimant?: string;
    },
  ): Promise<void>;
  /**
   * The attempt begins: from now on the message may have gone out, whatever happens to us. False when it is not this
   * claimant's any more: then it must not be sent.
   */
  beginAttempt(messageId: string, claimant: string, atMs: number): Promise<boolean>;
  /**
   * Gives a claimed message back, untried, to be taken again at `untilMs`; `notBeforeMs` and `expiresMs` move on with it,
   * so that it does not look like one that cannot leave.
   */
  hold(
    messageId: string,
    held: {
      readonly claimant: string;
      readonly untilMs: number;
      readonly expiresMs: number;
      readonly heldFor: HeldFor;
    },
  ): Promise<void>;
  /** Ends messages that need not go out any more, if they wait or are this claimant's. */
  dismiss(
    messageIds: readonly string[],
    dismissed: { readonly claimant: string; readonly atMs: number; readonly heldFor: HeldFor },
  ): Promise<void>;
  /** Puts one message in the place of several that wait or are this claimant's, in one transaction. */
  tellTogether(
    messageIds: readonly string[],
    message: NewMessage,
    claimant: string,
    atMs: number,
  ): Promise<void>;
  /** Puts messages in the outbox that no alarm step caused. */
  add(messages: readonly NewMessage[]): Promise<void>;
  /** Marks as `expired` what waits past its time (a message in flight is left to finish); returns how many. */
  expireDue(nowMs: number): Promise<number>;
  /** A delivery report; false when no message that went out bears the reference. The latest one is meant. */
  markDelivered(gatewayReference: string, atMs: number): Promise<boolean>;
  /** A report that it will never arrive: kept as its last attempt. False as above. */
  markFailed(gatewayReference: string, atMs: number, detail: string): Promise<boolean>;
  get(id: string): Promise<Message | null>;
  list(yardId: YardId, limit: number): Promise<Message[]>;
  forPile(pileId: PileId, limit: number): Promise<Message[]>;
  /** Of a yard, written in [fromMs, toMs), oldest first. */
  between(yardId: YardId, fromMs: number, toMs: number): Promise<Message[]>;
  /** To one person: what waits or is under way, and what went out since; oldest first. */
  toPerson(personId: string, sinceMs: number): Promise<Message[]>;
  /**
   * Of a yard, oldest first: those that failed since, and those that still wait after `attempts` tries or more. Those that
   * somebody else's way may have to tell instead.
   */
  inTrouble(yardId: YardId, sinceMs: number, attempts: number): Promise<Message[]>;
  /** Which of these idempotency keys are there already. */
  knownKeys(keys: readonly string[]): Promise<ReadonlySet<string>>;
  /** About these alarms, oldest first. */
  aboutAlarms(alarmIds: readonly string[]): Promise<Message[]>;
  attempts(messageId: string): Promise<MessageAttempt[]>;
  /** Of a yard's messages by one channel: the last attempt that went out, and the last that did not. */
  lastAttempts(
    yardId: YardId,
    channel: ChannelKind,
  ): Promise<{ readonly sent: MessageAttempt | null; readonly failed: MessageAttempt | null }>;
  standing(): Promise<OutboxStanding>;
  /**
   * Earliest time a claim (or `expireDue`) may find something, for the notifier's clock: messages that wait for another
   * one are left out, leases count when they end. Null when the outbox is empty.
   */
  nextDueMs(): Promise<number | null>;
}
