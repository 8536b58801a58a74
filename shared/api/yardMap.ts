import { z } from 'zod';
import { nameSchema } from './common.ts';
import { longestMapSide } from './constants.ts';

/** Where a place of the yard is on its map: columns from the left, rows from above, both from 1. */
export const mapPlaceSchema = z.strictObject({
  place: nameSchema,
  column: z.int().min(1).max(longestMapSide),
  row: z.int().min(1).max(longestMapSide),
});
export type MapPlace = z.infer<typeof mapPlaceSchema>;

/** `GET /api/yard/map`, `PUT`: a place that is not named here is drawn after all others. */
export const yardMapSchema = z.strictObject({ places: z.array(mapPlaceSchema).max(400).readonly() });
export type YardMap = z.infer<typeof yardMapSchema>;
