import { z } from 'zod';

/** Numbers of the running service for a keeper to look at: `{ "ingest.stored": 12034 }`. */
export const serviceSchema = z.object({
  uptimeSeconds: z.number(),
  openScreens: z.int(),
  statistics: z.record(z.string(), z.union([z.number(), z.string(), z.null()])),
});
export type ServiceView = z.infer<typeof serviceSchema>;
