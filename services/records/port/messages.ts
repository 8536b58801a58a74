import type { Priority } from '../../../shared/alarms/alarm.ts';
import type { PileId, YardId } from '../../../shared/yard/yard.ts';
import type { AnswerLink } from './alarms.ts';

export const channelKinds = ['sms-http', 'sms-modem', 'email', 'web-push', 'webhook'] as const;
export type ChannelKind = (typeof channelKinds)[number];

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
}

export const messageStates = ['waiting', 'sending', 'sent', 'delivered', 'failed', 'expired'] as const;
export type MessageState = (typeof messageStates)[number];

export interface Message extends Omit<NewMessage, 'answerLink'> {
  readonly id: string;
  readonly state: MessageState;
  readonly attempts: number;
  readonly nextAttemptMs: number;
  /** What the gateway called it, for delivery reports. */
  readonly gatewayReference: string | null;
  readonly finishedMs: number | null;
}

export interface MessageAttempt {
  readonly messageId: string;
  readonly attempt: number;
  readonly startedMs: number;
  readonly finishedMs: number;
  readonly outcome: 'sent' | 'retry' | 'gave-up';
  /** Plain words, no secrets: "gateway answered 503". */
  readonly detail: string;
}

/** How the outbox stands, over all yards. */
export interface OutboxStanding {
  readonly counts: Readonly<Record<MessageState, number>>;
  /** Since when the one that waits longest could have gone out (its `notBeforeMs`); null when none waits. */
  readonly oldestWaitingMs: number | null;
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
    attempt: MessageAttempt,
    next: {
      readonly state: MessageState;
      readonly nextAttemptMs: number;
      readonly gatewayReference: string | null;
      readonly claimant?: string;
    },
  ): Promise<void>;
  /** Marks as `expired` what waits past its time (a message in flight is left to finish); returns how many. */
  expireDue(nowMs: number): Promise<number>;
  /** A delivery report; false when no message that went out bears the reference. The latest one is meant. */
  markDelivered(gatewayReference: string, atMs: number): Promise<boolean>;
  get(id: string): Promise<Message | null>;
  list(yardId: YardId, limit: number): Promise<Message[]>;
  forPile(pileId: PileId, limit: number): Promise<Message[]>;
  /** Of a yard, written in [fromMs, toMs), oldest first. */
  between(yardId: YardId, fromMs: number, toMs: number): Promise<Message[]>;
  attempts(messageId: string): Promise<MessageAttempt[]>;
  standing(): Promise<OutboxStanding>;
  /**
   * Earliest time a claim (or `expireDue`) may find something, for the notifier's clock: messages that wait for another
   * one are left out, leases count when they end. Null when the outbox is empty.
   */
  nextDueMs(): Promise<number | null>;
}
