import { z } from 'zod';
import { channelKinds } from '../../records/port.ts';
import type { ChannelStanding } from '../port.ts';

/** How a channel stood, as one process tells another. */
export const standingSchema: z.ZodType<ChannelStanding> = z.object({
  channel: z.enum(channelKinds),
  ready: z.boolean(),
  detail: z.string(),
  tellOwner: z.boolean(),
  atMs: z.number(),
});

/** What a process that sends tells the others of its channels, with each sign of life. */
export const channelsToldSchema = z.object({
  kinds: z.array(z.enum(channelKinds)),
  pushKey: z.string().nullable(),
  standings: z.array(standingSchema),
});
export type ChannelsTold = z.infer<typeof channelsToldSchema>;

/** What came of looking at a channel. */
export const checkAnswerSchema = standingSchema.nullable();

/** What came of a test. */
export const testAnswerSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('sent'), detail: z.string(), reference: z.string().nullable() }),
  z.object({ kind: z.literal('retry'), detail: z.string(), tellOwner: z.boolean().default(false) }),
  z.object({ kind: z.literal('gave-up'), detail: z.string(), tellOwner: z.boolean().default(false) }),
]);
