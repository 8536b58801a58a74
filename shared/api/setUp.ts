import { z } from 'zod';
import { pileMethods } from '../yard/method.ts';
import { timeMsSchema } from './common.ts';

/** What a method means for the limits a new pile starts with; null where the method knows no such limit. */
export const methodLimitsSchema = z.object({
  method: z.enum(pileMethods),
  ceilingCelsius: z.number(),
  fireCelsius: z.number(),
  tooLongDays: z.number().nullable(),
  neverHeatedDays: z.number().nullable(),
  neverHeatedCelsius: z.number().nullable(),
  dryBelowFraction: z.number(),
  wetAboveFraction: z.number(),
  keepFromCelsius: z.number().nullable(),
  keepToCelsius: z.number().nullable(),
  stalledBelowCelsius: z.number().nullable(),
});
export type MethodLimits = z.infer<typeof methodLimitsSchema>;

/** What of the configuration an owner should know without a shell; nothing secret, nothing to change here. */
export const settingsSchema = z.object({
  publicUrl: z.string(),
  /** Nobody but this machine reaches the screens or the broker. */
  screensOnThisMachineOnly: z.boolean(),
  brokerOnThisMachineOnly: z.boolean(),
  isHttps: z.boolean(),
  broker: z.object({ host: z.string(), port: z.int(), tls: z.boolean(), isOwn: z.boolean() }),
  heartbeat: z.object({
    isSet: z.boolean(),
    everyMinutes: z.number(),
    /** Last answered call; null: never since the start, or it is called by another process. */
    lastMs: timeMsSchema.nullable(),
  }),
  outageMinutes: z.number().nullable(),
  rawDays: z.number().nullable(),
});
export type SettingsView = z.infer<typeof settingsSchema>;
