import { z } from 'zod';
import { positions, quantities } from '../yard/yard.ts';
import { channelNameSchema, idSchema, timeMsSchema } from './common.ts';

export const placementSchema = z.object({
  id: idSchema,
  /** Null for a sensor of the yard itself (its air). */
  pileId: idSchema.nullable(),
  channel: z.string(),
  quantity: z.enum(quantities),
  position: z.enum(positions),
  depthMetres: z.number().nullable(),
  fromMs: timeMsSchema,
  toMs: timeMsSchema.nullable(),
});
export type PlacementView = z.infer<typeof placementSchema>;

export const newPlacementSchema = z.strictObject({
  pileId: idSchema.nullable(),
  channel: channelNameSchema,
  quantity: z.enum(quantities),
  position: z.enum(positions),
  depthMetres: z.number().min(0).max(10).nullable().default(null),
  fromMs: timeMsSchema,
});
export type NewPlacement = z.input<typeof newPlacementSchema>;

export const endPlacementSchema = z.strictObject({ toMs: timeMsSchema });
export type EndPlacement = z.infer<typeof endPlacementSchema>;
