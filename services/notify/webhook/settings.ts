import { z } from 'zod';

/** 24 to 64 bytes in base64, with or without the usual prefix. */
const secret = z
  .string()
  .refine((text) => /^[A-Za-z0-9+/]+={0,2}$/.test(text.replace(/^whsec_/, '')), 'allowed: base64')
  .refine((text) => {
    const { length } = keyBytes(text);
    return length >= 24 && length <= 64;
  }, 'allowed: 24 to 64 bytes in base64');

export const webhookSchema = z.strictObject({
  secrets: z
    .array(secret)
    .min(1)
    .max(3)
    .describe('Keys that sign, base64 of 24 to 64 bytes; two while a key is changed for another'),
  allowPrivateAddresses: z
    .boolean()
    .default(false)
    .describe('True lets messages go to addresses inside this network, and over plain HTTP'),
  timeoutSeconds: z.number().min(1).max(60).default(20).describe('Longest wait for an answer, s'),
});

export type WebhookSettings = z.infer<typeof webhookSchema>;

/** The key a secret stands for. */
export function keyBytes(secretText: string): Buffer {
  return Buffer.from(secretText.replace(/^whsec_/, ''), 'base64');
}
