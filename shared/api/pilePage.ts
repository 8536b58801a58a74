import { z } from 'zod';
import { alarmSchema, alarmTransitionSchema } from './alarms.ts';
import { idSchema, timeMsSchema } from './common.ts';
import { journalEntrySchema } from './journal.ts';
import { limitsSchema } from './limits.ts';
import { messageSchema } from './messages.ts';
import { pileSchema, pileStatusSchema } from './piles.ts';
import { placementSchema } from './placements.ts';
import { latestReadingSchema } from './probes.ts';
import { measuredCelsiusSchema } from './wall.ts';
import { yardSchema } from './yard.ts';

/** One placement now standing in the pile (or the yard's air), with its latest reading and latest good one. */
export const pileChannelSchema = placementSchema.extend({
  last: latestReadingSchema.nullable(),
  lastGood: latestReadingSchema.nullable(),
});
export type PileChannel = z.infer<typeof pileChannelSchema>;

/** Everything a pile's page shows but its curves: `GET /api/piles/:pileId/page`. */
export const pilePageSchema = z.object({
  yard: yardSchema,
  nowMs: timeMsSchema,
  pile: pileSchema,
  status: pileStatusSchema.nullable(),
  air: measuredCelsiusSchema.nullable(),
  channels: z.array(pileChannelSchema).readonly(),
  placements: z.array(placementSchema).readonly(),
  /** Standing alarms of this pile and of the probes in it, most pressing first. */
  alarms: z.array(alarmSchema).readonly(),
  /** What happened to its alarms, newest first. */
  history: z.array(alarmTransitionSchema).readonly(),
  messages: z.array(messageSchema).readonly(),
  /** Newest first. */
  journal: z.array(journalEntrySchema).readonly(),
  limits: limitsSchema,
  /** For people who may do more than look. */
  mayWrite: z.boolean(),
});
export type PilePage = z.infer<typeof pilePageSchema>;

export const pileParamsSchema = z.object({ pileId: idSchema });
