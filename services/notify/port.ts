export { type SmsGateway, smsGatewaySchema } from './smsGateway.ts';

/** What other services may ask of notify in the same process. */
export interface NotifyPort {
  /** The outbox has new rows: look soon. */
  nudge(): void;
}
