import type { ChannelKind } from '../records/port.ts';
import type { SendOutcome } from './messageChannel.ts';

export { readReportInput } from './duty/readReportInput.ts';
export { type WatchSettings, watchSchema } from './duty/settings.ts';
export { type EmailSettings, emailSchema } from './email/settings.ts';
export { type ChannelsTold, channelsToldSchema } from './errands/answers.ts';
export type { DeliveryReport, InboundSink, InboundText, SendOutcome } from './messageChannel.ts';
export { type ModemSettings, modemSchema } from './modem/settings.ts';
export { type SmsGateway, smsGatewaySchema } from './smsGateway.ts';
export { type WebhookSettings, webhookSchema } from './webhook/settings.ts';
export { type WebPushSettings, webPushSchema } from './webPush/settings.ts';

/** What other services may ask of notify in the same process. */
export interface NotifyPort {
  /** The outbox has new rows: look soon. */
  nudge(): void;
}

/** How a channel stood when it was last looked at or used. */
export interface ChannelStanding {
  readonly channel: ChannelKind;
  readonly ready: boolean;
  readonly detail: string;
  /** Somebody has to put it right. */
  readonly tellOwner: boolean;
  readonly atMs: number;
}

/** Something of a channel that only a person can put right. */
export interface ChannelTrouble {
  readonly channel: ChannelKind;
  readonly detail: string;
  readonly atMs: number;
}

/** What the set-up screens may ask of the channels. */
export interface ChannelDeskPort {
  /** False while no process that sends messages has told of itself. */
  isKnown(): boolean;
  /** Every channel that is set up, in the order of the configuration. */
  kinds(): ChannelKind[];
  /** What a browser needs to subscribe to web push; null when that is not set up. */
  pushKey(): string | null;
  /** One per channel that was checked or used, in the order they were set up. */
  standings(): ChannelStanding[];
  /** Looks whether a channel would work, without sending; null when it is not set up. */
  check(kind: ChannelKind): Promise<ChannelStanding | null>;
  /** The test button: one message at once, past the outbox. */
  test(kind: ChannelKind, address: string): Promise<SendOutcome>;
}

/** Whoever sends messages did not answer; the message says what that means for what was asked. */
export class SendersAway extends Error {
  override readonly name = 'SendersAway';
  constructor(meaning: string) {
    super(`The process that sends messages did not answer in time: ${meaning}. Look whether it runs.`);
  }
}

/** A call from a gateway, as the web service got it. */
export interface CallbackRequest {
  /** The whole address the gateway called, query included. */
  readonly url: string;
  /** Names in lower case. */
  readonly headers: Readonly<Record<string, string | undefined>>;
  /** Raw, because signatures are over bytes; empty for a GET. */
  readonly body: Uint8Array;
}

export interface CallbackAnswer {
  readonly status: number;
  readonly contentType: string;
  readonly body: string;
}

/** Handlers the web service routes a gateway's calls to. They check the proof themselves and never throw. */
export interface GatewayCallbackPort {
  deliveryReport(request: CallbackRequest): Promise<CallbackAnswer>;
  inbound(request: CallbackRequest): Promise<CallbackAnswer>;
}
