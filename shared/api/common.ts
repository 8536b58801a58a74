import { z } from 'zod';

/** Latest instant accepted anywhere: the end of year 9999 is a mistake, the end of year 2199 is not yet one. */
export const latestTimeMs = 7_258_118_399_999;

/** Integer epoch milliseconds. */
export const timeMsSchema = z.int().min(0).max(latestTimeMs).describe('Epoch milliseconds, UTC');
/** Identifier made by the service; opaque. */
export const idSchema = z.string().min(1).max(80).describe('Opaque identifier');
/** One line a person typed: trimmed, not empty. */
export const nameSchema = z.string().trim().min(1).max(80);
/** Free text a person typed; may be empty. */
export const noteSchema = z.string().trim().max(2000);
/** Why something is done; must say something. */
export const reasonSchema = z.string().trim().min(3).max(500);
/** Full SenML name of one series (RFC 8428 section 4.5.1). */
export const channelNameSchema = z
  .string()
  .max(200)
  .regex(/^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/, 'letters, digits and - : . / _, starting with a letter or digit')
  .describe('SenML name, e.g. urn:dev:ow:28139bbb0b00001f_core');
/** Random secret out of a link: 256 bits in base64url is 43 characters. */
export const tokenSchema = z
  .string()
  .min(22)
  .max(200)
  .regex(/^[A-Za-z0-9_-]+$/, 'the letters, digits, - and _ of the link');
/** Made at random for one press of a button: however often it is sent, it counts once. */
export const pressKeySchema = z
  .string()
  .regex(/^[A-Za-z0-9_-]{16,64}$/, '16 to 64 letters, digits, - and _')
  .describe('Idempotency key: the same key for the same pile is the same press');
/** E.164 telephone number. */
export const phoneSchema = z
  .string()
  .regex(/^\+[1-9][0-9]{6,14}$/, 'an international number such as +441632960123: + and 7 to 15 digits');

/** Answer of calls that only say "done". */
export const doneSchema = z.object({ done: z.literal(true) });
export type Done = z.infer<typeof doneSchema>;

/** `?limit=` of lists that grow. */
export const limitQuerySchema = z.strictObject({
  limit: z.coerce.number().int().min(1).max(1000).default(100),
});
