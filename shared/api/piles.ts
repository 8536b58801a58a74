import { z } from 'zod';
import { sanitisationOutcomes } from '../compost/sanitisation/result.ts';
import { pileBuildSchema } from '../yard/build.ts';
import { pileMethods } from '../yard/method.ts';
import { stages } from '../yard/yard.ts';
import { idSchema, nameSchema, timeMsSchema } from './common.ts';

export const pileSchema = z.object({
  id: idSchema,
  name: z.string(),
  place: z.string(),
  method: z.enum(pileMethods),
  startedMs: timeMsSchema,
  endedMs: timeMsSchema.nullable(),
  build: pileBuildSchema.nullish(),
});
export type PileView = z.infer<typeof pileSchema>;

export const newPileSchema = z.strictObject({
  name: nameSchema,
  place: nameSchema,
  method: z.enum(pileMethods),
  startedMs: timeMsSchema,
  build: pileBuildSchema.nullish(),
});
export type NewPile = z.infer<typeof newPileSchema>;

export const pileChangeSchema = newPileSchema.partial();
export type PileChange = z.infer<typeof pileChangeSchema>;

export const endPileSchema = z.strictObject({ endedMs: timeMsSchema });
export type EndPile = z.infer<typeof endPileSchema>;

/** What the last assessment found; null means "not known", never zero. */
export const pileStatusSchema = z.object({
  assessedMs: timeMsSchema,
  stage: z.enum(stages).nullable(),
  coreCelsius: z.number().nullable(),
  coreTimeMs: timeMsSchema.nullable(),
  trendCelsiusPerHour: z.number().nullable(),
  airCelsius: z.number().nullable(),
  moistureFraction: z.number().nullable().describe('Wet basis, 0 to 1'),
  moistureTimeMs: timeMsSchema.nullable(),
  hoursAbove55: z.number(),
  sanitisationProgress: z.number().nullable().describe('0 to 1; null where no rule applies'),
  sanitisationOutcome: z
    .enum(sanitisationOutcomes)
    .nullable()
    .describe('"core-record-only": the core alone met it, in a pile nobody turns'),
  peakCelsius: z.number().nullable(),
});
export type PileStatusView = z.infer<typeof pileStatusSchema>;
