import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Records } from '../records/port.ts';
import { createEmail } from './email/createEmail.ts';
import type { InboundSink, MessageChannel } from './messageChannel.ts';
import { createSmsModem } from './modem/createSmsModem.ts';
import type { EmailSettings, ModemSettings, SmsGateway, WebhookSettings, WebPushSettings } from './port.ts';
import { createSmsHttp } from './smsHttp.ts';
import { createWebhook } from './webhook/createWebhook.ts';
import { createWebPush } from './webPush/createWebPush.ts';
import { openVapidKeys, sharedVapidKeys, type VapidKeys } from './webPush/vapidKeys.ts';

/** The part of the configuration that is about channels; null for each that is not set up. */
export interface ChannelSettings {
  readonly sms: SmsGateway | null;
  readonly modem: ModemSettings | null;
  readonly email: EmailSettings | null;
  readonly webPush: WebPushSettings | null;
  readonly webhook: WebhookSettings | null;
}

export interface OpenChannelsOptions {
  readonly configuration: ChannelSettings;
  /** Where the keys of web push are kept unless told otherwise. */
  readonly dataFolder: string;
  /** Where they are kept when several processes send; left out: in the folder. */
  readonly marks?: Pick<Records['marks'], 'setOnce'>;
  /** Who hears of texts and reports that come in by the modem. */
  readonly sink: InboundSink;
  readonly nowMs: () => number;
  readonly logger: Logger;
}

/**
 * Every channel that is set up. Nothing is sent or dialled yet.
 * @throws Error naming the file that cannot be used.
 */
export async function openChannels(options: OpenChannelsOptions): Promise<MessageChannel[]> {
  const { configuration, sink, nowMs, logger } = options;
  const { sms, modem, email, webPush, webhook } = configuration;
  const channels: MessageChannel[] = [];
  if (sms !== null) channels.push(createSmsHttp(sms, nowMs));
  if (modem !== null) channels.push(createSmsModem({ settings: modem, nowMs, sink, logger }));
  if (email !== null) channels.push(createEmail(email));
  if (webPush !== null) {
    const keys = await pushKeys(options, webPush);
    channels.push(createWebPush(webPush, keys, nowMs));
  }
  if (webhook !== null) channels.push(createWebhook(webhook, nowMs));
  return channels;
}

async function pushKeys(
  { dataFolder, marks }: OpenChannelsOptions,
  { keysFile }: WebPushSettings,
): Promise<VapidKeys> {
  if (keysFile !== null) return openVapidKeys(keysFile);
  const usualFile = join(dataFolder, 'web-push-keys.json');
  return marks === undefined ? openVapidKeys(usualFile) : sharedVapidKeys(marks, usualFile);
}
