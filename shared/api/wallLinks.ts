import { z } from 'zod';
import { idSchema, nameSchema, timeMsSchema } from './common.ts';

export const wallLinkSchema = z.object({
  id: idSchema,
  label: z.string(),
  createdMs: timeMsSchema,
  createdBy: z.string(),
  revokedMs: timeMsSchema.nullable(),
});
export type WallLinkView = z.infer<typeof wallLinkSchema>;

export const newWallLinkSchema = z.strictObject({ label: nameSchema });
export type NewWallLink = z.infer<typeof newWallLinkSchema>;

/** The only time the address with its key is shown. */
export const createdWallLinkSchema = z.object({ link: wallLinkSchema, url: z.string() });
export type CreatedWallLink = z.infer<typeof createdWallLinkSchema>;
