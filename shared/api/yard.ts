import { z } from 'zod';
import { idSchema, nameSchema } from './common.ts';

/** IANA zone name; that it exists is checked where a time zone table is at hand. */
export const timeZoneSchema = z
  .string()
  .max(64)
  .refine(isTimeZone, 'a time zone name such as Europe/London or America/Chicago');

export const yardFieldsSchema = z.strictObject({
  name: nameSchema,
  timeZone: timeZoneSchema,
  temperatureUnit: z.enum(['C', 'F']),
  altitudeMetres: z.number().min(-430).max(6000),
});

export const yardSchema = z.object({
  id: idSchema,
  name: z.string(),
  timeZone: z.string(),
  temperatureUnit: z.enum(['C', 'F']),
  altitudeMetres: z.number(),
});
export type YardView = z.infer<typeof yardSchema>;

export const yardChangeSchema = yardFieldsSchema.partial();
export type YardChange = z.infer<typeof yardChangeSchema>;

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
