import { z } from 'zod';
import { timeMsSchema } from './common.ts';

/** What could not be taken in. The payload is somebody's bytes: always shown as text, never as markup. */
export const quarantineItemSchema = z.object({
  id: z.int(),
  receivedMs: timeMsSchema,
  topic: z.string(),
  probe: z.string().nullable(),
  reason: z.string(),
  payloadBytes: z.int(),
  /** Start of the payload in hexadecimal, two digits a byte. */
  payloadHex: z.string(),
  /** The same as text when it is printable UTF-8, else null; control characters shown as escapes. */
  payloadText: z.string().nullable(),
});
export type QuarantineItemView = z.infer<typeof quarantineItemSchema>;

export const quarantineSchema = z.object({
  /** How many there have ever been, not only those still kept. */
  total: z.int(),
  items: z.array(quarantineItemSchema).readonly(),
});
export type QuarantineView = z.infer<typeof quarantineSchema>;
