import type { ChannelKind, Message } from '../records/port.ts';

/** Why something did not work. */
export interface Trouble {
  /** Shown to people in the delivery history; plain words, never a secret. */
  readonly detail: string;
  /**
   * Every message will meet this until a person puts it right (wrong password, no credit, no SIM card), so the owner is
   * told, by another way if there is one.
   */
  readonly tellOwner?: true;
}

/** Worth trying again: no answer, trouble on the other side, too many requests. */
export interface RetryOutcome extends Trouble {
  readonly kind: 'retry';
  readonly notBeforeMs?: number;
  /** It may have been taken before the line broke, so that the next attempt can double it. */
  readonly maybeSent?: true;
}

/** Trying again cannot help: this message, or its address, is refused. */
export interface GaveUpOutcome extends Trouble {
  readonly kind: 'gave-up';
  /** The address is no more (a push subscription ended, a receiver says it is gone) and should be forgotten. */
  readonly addressGone?: true;
}

/** Handed over; `reference` is what the other side calls it in a delivery report. */
export interface SentOutcome {
  readonly kind: 'sent';
  readonly detail: string;
  readonly reference: string | null;
}

export type SendOutcome = SentOutcome | RetryOutcome | GaveUpOutcome;

/** What the start-up check found; `detail` says what is ready ("signal -85 dBm") or what is wrong. */
export interface ChannelCheck extends Trouble {
  readonly ready: boolean;
}

/** A text somebody sent to us. */
export interface InboundText {
  /** As the network gives it: mostly E.164, sometimes a short code or a name. */
  readonly from: string;
  readonly text: string;
  readonly receivedMs: number;
  /** What the gateway calls it, to recognise a repetition; null when it gives none. */
  readonly reference: string | null;
}

/** What became of a message that had been handed over. */
export interface DeliveryReport {
  readonly reference: string;
  readonly state: 'delivered' | 'failed' | 'underway';
  /** The other side's own word for it. */
  readonly detail: string;
  readonly atMs: number;
}

/** Who hears what comes back. A text is taken off the modem only after `onText` resolved. */
export interface InboundSink {
  onText(text: InboundText): Promise<void>;
  onReport(report: DeliveryReport): Promise<void>;
}

/** A way to reach a person. One folder per kind, all of this shape, all held by one contract suite. */
export interface MessageChannel {
  readonly kind: ChannelKind;
  /** Longest `send` takes, waiting included: a message must stay claimed for longer. */
  readonly longestSendMs: number;
  /** What a browser needs to subscribe, where browsers do. */
  readonly publicKey?: string;
  /** Hands over one message. Never throws for trouble on the other side: that is an outcome. */
  send(message: Message): Promise<SendOutcome>;
  /** Whether a message would go out now, as far as can be told without sending one. Never throws. */
  check(): Promise<ChannelCheck>;
  /** Closes what is open. Sending afterwards ends in `retry`. */
  stop(): Promise<void>;
}
