import { z } from 'zod';
import { conditionIds } from '../alarms/alarm.ts';
import { quantities } from '../yard/yard.ts';
import { timeMsSchema } from './common.ts';
import { quarantineItemSchema } from './quarantine.ts';

/** A sign-in the broker turned down. */
const refusedSignInSchema = z.object({ name: z.string(), atMs: timeMsSchema, count: z.int() });

/** Whether a probe gets through to us, asked again and again while it is being set up. */
export const probeContactSchema = z.object({
  nowMs: timeMsSchema,
  /** Signed in just now; null where the broker is one of the yard's own and does not say. */
  connected: z.boolean().nullable(),
  /** Its last message since the service started. */
  receivedMs: timeMsSchema.nullable(),
  clockAheadMs: z.int().nullable(),
  /** It tried to sign in and showed another password than its own, or had none any more. */
  refusedSignIn: refusedSignInSchema.nullable(),
  /** Lately refused under names that are no probe of any yard here: perhaps a slip in its name. */
  strangers: z.array(refusedSignInSchema).readonly(),
  /** Messages of it that could not be taken in, newest first. */
  setAside: z.array(quarantineItemSchema).readonly(),
});
export type ProbeContactView = z.infer<typeof probeContactSchema>;

/** `?minutes=`: how far back; `?probeId=` for one probe only. */
export const recentQuerySchema = z.strictObject({
  minutes: z.coerce.number().int().min(1).max(720).default(15),
  probeId: z.string().min(1).max(200).optional(),
});

/** What the channels of the yard's probes said lately, raw and calibrated, for trying them out. */
export const recentSchema = z.object({
  nowMs: timeMsSchema,
  channels: z
    .array(
      z.object({
        channel: z.string(),
        probeId: z.string(),
        quantity: z.enum(quantities),
        /** Oldest first; at most some hundreds. */
        points: z
          .array(
            z.object({
              timeMs: timeMsSchema,
              value: z.number(),
              rawValue: z.number(),
              quality: z.enum(['good', 'suspect', 'bad']),
              reason: z.string().nullable(),
            }),
          )
          .readonly(),
      }),
    )
    .readonly(),
});
export type RecentView = z.infer<typeof recentSchema>;

/** What to do next about a probe; `alarm` brings its own words. */
export const probeNextSteps = [
  'alarm',
  'wait-first-message',
  'place',
  'calibrate',
  'revoked',
  'nothing',
] as const;

export const probeHealthSchema = z.object({
  id: z.string(),
  label: z.string(),
  revokedMs: timeMsSchema.nullable(),
  /** Names of the piles it stands in; empty when none of its channels is placed. */
  piles: z.array(z.string()).readonly(),
  /** Newest reading of any channel and quality. */
  heardMs: timeMsSchema.nullable(),
  connected: z.boolean().nullable(),
  expectedIntervalSeconds: z.number().nullable(),
  battery: z.object({ value: z.number(), unit: z.enum(['fraction', 'V']), timeMs: timeMsSchema }).nullable(),
  /** Received signal strength, dBm, where it sends one. */
  signalDbm: z.number().nullable(),
  /** Above 0: its clock is ahead; null before its first message since the service started. */
  clockAheadMs: z.int().nullable(),
  /** Readings of the last day, and how many of them are not believed. */
  readingsLastDay: z.int(),
  doubtedLastDay: z.int(),
  /** Earliest date a calibration of it is due. */
  calibrationDueMs: timeMsSchema.nullable(),
  /** Temperature channels that were never checked against a known temperature. */
  uncalibrated: z.int(),
  alarms: z
    .array(
      z.object({ condition: z.enum(conditionIds), name: z.string(), firstAction: z.string().nullable() }),
    )
    .readonly(),
  next: z.enum(probeNextSteps),
});
export type ProbeHealthView = z.infer<typeof probeHealthSchema>;
