import { z } from 'zod';
import { timeMsSchema } from './common.ts';

/** One line of the trail: who changed what about limits, people or credentials. */
export const auditEntrySchema = z.object({
  atMs: timeMsSchema,
  /** Name of the person; null when the system did it. */
  by: z.string().nullable(),
  role: z.enum(['viewer', 'keeper', 'owner', 'system']),
  action: z.string(),
  target: z.string(),
  detail: z.string(),
});
export type AuditEntryView = z.infer<typeof auditEntrySchema>;
