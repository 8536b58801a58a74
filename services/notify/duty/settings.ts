import { z } from 'zod';

/** Who watches the watcher. */
export const watchSchema = z.strictObject({
  heartbeatUrl: z
    .url({ protocol: /^https?$/ })
    .nullable()
    .default(null)
    .describe(
      'Address called as long as this yard is watched, of a service outside that raises an alarm when the calls stop; null calls none',
    ),
  heartbeatMinutes: z
    .number()
    .min(0.5)
    .max(1440)
    .default(5)
    .describe('Time between two calls of heartbeatUrl, minutes'),
  outageMinutes: z
    .int()
    .min(2)
    .max(10_080)
    .nullable()
    .default(10)
    .describe('Time without watching after which people are told what was missed, minutes; null never tells'),
});

export type WatchSettings = z.infer<typeof watchSchema>;
