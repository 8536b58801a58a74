import { z } from 'zod';
import { timeMsSchema } from './common.ts';

/**
 * Events of `GET /api/live` (server-sent events, `EventSource('/api/live')`):
 * - `change`: something is different, fetch it again. Carries an id, so a lost link resumes where it stopped.
 * - `reset`: too much was missed (or the service restarted): fetch everything again.
 * - `tick`: every few seconds, the server's time and the time of its newest good reading. No tick for 15 s = not live.
 * - `end`: this session is over (signed out, disabled, link revoked): stop and show the sign-in page.
 */
export const liveEventNames = ['change', 'reset', 'tick', 'end'] as const;
export type LiveEventName = (typeof liveEventNames)[number];

export const liveChangeKinds = [
  'pile',
  'alarm',
  'yard',
  'probe',
  'people',
  'messages',
  'quarantine',
] as const;

export const liveChangeSchema = z.object({
  kind: z.enum(liveChangeKinds),
  /** Pile, alarm or probe; null for the kinds that have one of a yard. */
  id: z.string().nullable(),
});
export type LiveChangeEvent = z.infer<typeof liveChangeSchema>;

export const liveTickSchema = z.object({ nowMs: timeMsSchema, dataMs: timeMsSchema.nullable() });
export type LiveTick = z.infer<typeof liveTickSchema>;
