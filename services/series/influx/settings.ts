import { z } from 'zod';

const name = z.string().min(1).max(200);

/** How InfluxDB is reached and what is kept beside it; field names are those of the configuration file. */
export const influxSettingsSchema = z
  .strictObject({
    url: z
      .url({ protocol: /^https?$/, error: 'allowed: an address such as http://192.0.2.20:8086' })
      .refine((url) => !URL.canParse(url) || new URL(url).username === '', {
        error: 'must not hold a user or password: use the fields user and password, or token',
      })
      .describe('Address of InfluxDB, e.g. http://192.0.2.20:8086'),
    version: z
      .enum(['1', '2', '3'])
      .default('2')
      .describe('1 writes to /write?db=, 2 and 3 to /api/v2/write; all are asked in InfluxQL over /query'),
    database: name.default('tilthwatch').describe('Database (1 and 3) or bucket (2); it must exist'),
    retentionPolicy: name
      .nullable()
      .default(null)
      .describe('Retention policy of version 1 to write to and read from; null uses the default one'),
    org: name.nullable().default(null).describe('Organisation, needed by version 2'),
    token: z
      .string()
      .min(1)
      .nullable()
      .default(null)
      .describe('API token (2 and 3); it must be allowed to read and write the bucket'),
    user: name.nullable().default(null).describe('User name (1)'),
    password: z.string().min(1).nullable().default(null).describe('Password (1)'),
    writePath: z
      .string()
      .startsWith('/')
      .nullable()
      .default(null)
      .describe('Path and query readings are written to, where a proxy wants another; null goes by version'),
    timeoutSeconds: z
      .number()
      .min(0.1)
      .max(300)
      .default(15)
      .describe(
        'How long one answer may take, s; a batch not answered in time is sent again, in smaller parts',
      ),
    localDays: z
      .int()
      .min(30)
      .max(36_500)
      .nullable()
      .default(null)
      .describe(
        'Days raw readings stay in the local store once InfluxDB has them; older ones are then asked of InfluxDB, and a reading that arrives later than this is not taken. Null: as long as series.rawDays says',
      ),
    localGigabytes: z
      .number()
      .min(0.1)
      .max(100_000)
      .nullable()
      .default(null)
      .describe(
        'Space the local store may use, GB. From 80 % on it warns and lets go of what InfluxDB has, older than 7 days at most; what InfluxDB has not got is never removed, and readings are taken all the same. Null: no bound but the disk',
      ),
  })
  .superRefine((settings, context) => {
    if (settings.version !== '2' || settings.org !== null || settings.writePath !== null) return;
    context.addIssue({
      code: 'custom',
      path: ['org'],
      message: 'version 2 needs the name of the organisation',
    });
  });

export type InfluxSettings = z.infer<typeof influxSettingsSchema>;
