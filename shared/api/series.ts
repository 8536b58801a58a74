import { z } from 'zod';
import { positions, quantities } from '../yard/yard.ts';
import { channelNameSchema, idSchema, timeMsSchema } from './common.ts';

export const seriesSteps = ['raw', 'hour', 'day'] as const;
export type SeriesStep = (typeof seriesSteps)[number];

/** `GET /api/piles/:pileId/series?...`; `step=auto` takes raw up to 7 days, hours up to 120 days, then days. */
export const seriesQuerySchema = z
  .strictObject({
    fromMs: z.coerce.number().pipe(timeMsSchema),
    toMs: z.coerce.number().pipe(timeMsSchema),
    step: z.enum(['auto', ...seriesSteps]).default('auto'),
    maxPoints: z.coerce.number().int().min(10).max(20_000).default(2000),
    quality: z.enum(['good', 'all']).default('all'),
    channel: channelNameSchema.optional().describe('Only this one of the pile’s channels'),
  })
  .refine((query) => query.toMs > query.fromMs, { path: ['toMs'], message: 'later than fromMs' });
export type SeriesQuery = z.input<typeof seriesQuerySchema>;

const numbers = z.array(z.number()).readonly();

/** Readings as columns of equal length; values as measured (Celsius, fraction, volt). */
export const rawColumnsSchema = z.object({
  timesMs: numbers,
  values: numbers,
  quality: numbers.describe('0 good, 1 suspect, 2 bad'),
});
export type RawColumns = z.infer<typeof rawColumnsSchema>;

/** Clock hours or UTC days as columns; good readings only. */
export const rollupColumnsSchema = z.object({
  startsMs: numbers,
  minimums: numbers,
  means: numbers,
  maximums: numbers,
  counts: numbers,
  /** Hours or days in which there were readings and none of them was good: not silent, but not believed. */
  doubtfulStartsMs: numbers,
});
export type RollupColumns = z.infer<typeof rollupColumnsSchema>;

/** One placement's stretch of a channel; a probe that was moved appears in each pile only while it stood there. */
export const seriesChannelSchema = z.object({
  placementId: idSchema,
  channel: z.string(),
  quantity: z.enum(quantities),
  position: z.enum(positions),
  depthMetres: z.number().nullable(),
  /** Exactly one of the two is not null, as `step` says. */
  raw: rawColumnsSchema.nullable(),
  rollups: rollupColumnsSchema.nullable(),
});
export type SeriesChannel = z.infer<typeof seriesChannelSchema>;

export const seriesSchema = z.object({
  fromMs: timeMsSchema,
  toMs: timeMsSchema,
  step: z.enum(seriesSteps),
  /** The pile's channels, then the yard's air (position `air`). */
  channels: z.array(seriesChannelSchema).readonly(),
});
export type SeriesView = z.infer<typeof seriesSchema>;
