import { z } from 'zod';
import { parseDeviceUrn } from '../senml/deviceUrn.ts';
import { channelNameSchema, nameSchema, timeMsSchema } from './common.ts';

/** Device URN (RFC 9039): `urn:dev:mac:...`, `urn:dev:ow:...`, `urn:dev:os:...`; also the MQTT user name. */
export const probeIdSchema = z
  .string()
  .max(120)
  .transform((text, context) => {
    const parsed = parseDeviceUrn(text);
    if (parsed.ok && parsed.urn.components.length === 0) return parsed.urn.device;
    context.addIssue({
      code: 'custom',
      message: 'a device name such as urn:dev:mac:0024befffe804ff1 or urn:dev:ow:28139bbb0b00001f',
      input: text,
    });
    return z.NEVER;
  });

export const latestReadingSchema = z.object({
  timeMs: timeMsSchema,
  value: z.number(),
  quality: z.enum(['good', 'suspect', 'bad']),
  reason: z.string().nullable(),
});
export type LatestReading = z.infer<typeof latestReadingSchema>;

export const probeChannelSchema = z.object({
  channel: z.string(),
  latest: latestReadingSchema.nullable(),
});

export const probeSchema = z.object({
  id: z.string(),
  label: z.string(),
  createdMs: timeMsSchema,
  revokedMs: timeMsSchema.nullable(),
  expectedIntervalSeconds: z.number().nullable(),
  topic: z.string(),
  /** Channels it has sent so far, with the latest reading of each. */
  channels: z.array(probeChannelSchema).readonly(),
});
export type ProbeView = z.infer<typeof probeSchema>;

export const newProbeSchema = z.strictObject({
  /** Left out: the service makes one up (`urn:dev:os:...`). */
  id: probeIdSchema.optional(),
  label: nameSchema,
  expectedIntervalSeconds: z
    .int()
    .min(1)
    .max(7 * 86_400)
    .nullable()
    .default(null),
});
export type NewProbe = z.input<typeof newProbeSchema>;

/** The only time the secret is shown. */
export const probeCredentialSchema = z.object({
  probe: probeSchema,
  secret: z.string(),
  mqtt: z.object({
    host: z.string(),
    port: z.int(),
    tls: z.boolean(),
    user: z.string(),
    topic: z.string(),
    /** A stock command-line publish that works as it stands. */
    exampleCommand: z.string(),
  }),
});
export type ProbeCredential = z.infer<typeof probeCredentialSchema>;

export const calibrationSchema = z.object({
  channel: z.string(),
  gain: z.number(),
  offset: z.number(),
  calibratedMs: timeMsSchema,
  dueMs: timeMsSchema.nullable(),
});
export type CalibrationView = z.infer<typeof calibrationSchema>;

export const saveCalibrationSchema = z.strictObject({
  channel: channelNameSchema,
  gain: z.number().min(0.5).max(2),
  offset: z.number().min(-20).max(20),
  calibratedMs: timeMsSchema,
  dueMs: timeMsSchema.nullable(),
});
export type SaveCalibration = z.infer<typeof saveCalibrationSchema>;
