import { z } from 'zod';

export const webPushSchema = z.strictObject({
  contact: z
    .url({ protocol: /^(mailto|https)$/ })
    .describe('Whom a push service may turn to: mailto: or https: address (RFC 8292)'),
  keysFile: z
    .string()
    .min(1)
    .nullable()
    .default(null)
    .describe(
      'File that holds the signing keys, made when it is not there; null: in the data folder, or in the records where several processes share them',
    ),
  allowPrivateAddresses: z
    .boolean()
    .default(false)
    .describe('True lets pushes go to a push service inside this network, and over plain HTTP'),
  timeoutSeconds: z.number().min(1).max(60).default(20).describe('Longest wait for an answer, s'),
});

export type WebPushSettings = z.infer<typeof webPushSchema>;

/** A browser's subscription as JSON, which is the address of a web push message. */
export const subscriptionSchema = z.object({
  endpoint: z.url(),
  keys: z.object({ p256dh: z.base64url(), auth: z.base64url() }),
});
