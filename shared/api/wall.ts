import { z } from 'zod';
import { alarmStates, conditionIds, priorities } from '../alarms/alarm.ts';
import { pileMethods } from '../yard/method.ts';
import { positions, stages } from '../yard/yard.ts';
import { idSchema, timeMsSchema } from './common.ts';
import { mapPlaceSchema } from './yardMap.ts';

/** A good value and when it was measured, so that nothing is shown without its age. */
export const measuredCelsiusSchema = z.object({ celsius: z.number(), timeMs: timeMsSchema });
export type MeasuredCelsius = z.infer<typeof measuredCelsiusSchema>;

export const wallAlarmSchema = z.object({
  id: idSchema,
  condition: z.enum(conditionIds),
  /** The condition in words: "core too hot". */
  name: z.string(),
  state: z.enum(alarmStates),
  priority: z.enum(priorities),
  sinceMs: timeMsSchema.nullable(),
  code: z.string(),
});
export type WallAlarm = z.infer<typeof wallAlarmSchema>;

/** One clock hour of the sparkline, good readings only; hours without any are left out, never bridged. */
export const sparkHourSchema = z.object({
  startMs: timeMsSchema,
  min: z.number(),
  max: z.number(),
  mean: z.number(),
  /** Which of the pile's core channels: a line drawn across two would show a step the pile never made. */
  source: z.int(),
});
export type SparkHour = z.infer<typeof sparkHourSchema>;

/** One point of the section picture: where a temperature is measured in the pile and its last good value. */
export const sectionPointSchema = z.object({
  position: z.enum(positions),
  depthMetres: z.number().nullable(),
  celsius: z.number().nullable(),
  timeMs: timeMsSchema.nullable(),
});
export type SectionPoint = z.infer<typeof sectionPointSchema>;

export const wallPileSchema = z.object({
  id: idSchema,
  name: z.string(),
  place: z.string(),
  method: z.enum(pileMethods),
  startedMs: timeMsSchema,
  stage: z.enum(stages).nullable(),
  core: measuredCelsiusSchema.nullable(),
  trendCelsiusPerHour: z.number().nullable(),
  moisture: z.object({ fraction: z.number(), timeMs: timeMsSchema.nullable() }).nullable(),
  sanitisationProgress: z.number().nullable(),
  /** When rules last judged this pile; null when they never have. */
  assessedMs: timeMsSchema.nullable(),
  points: z.array(sectionPointSchema).readonly(),
  /** Standing alarms, most pressing first. */
  alarms: z.array(wallAlarmSchema).readonly(),
  /** Core, hourly, last 48 h, oldest first. */
  spark: z.array(sparkHourSchema).readonly(),
});
export type WallPile = z.infer<typeof wallPileSchema>;

/** Most piles asked for at once; a screen that wants more asks for all. */
const mostPilesAsked = 50;

/** `?piles=id,id`: only these piles, so that one new reading does not fetch the whole yard. Left out: all. */
export const wallQuerySchema = z.strictObject({
  piles: z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(idSchema).min(1).max(mostPilesAsked))
    .optional()
    .describe(`Ids with commas between, ${mostPilesAsked} at most`),
});
export type WallQuery = z.infer<typeof wallQuerySchema>;

/** Everything the wall shows, in one answer: `GET /api/wall`. Piles come worst first, see `wallOrder.ts`. */
export const wallSchema = z.object({
  yard: z.object({
    id: idSchema,
    name: z.string(),
    timeZone: z.string(),
    temperatureUnit: z.enum(['C', 'F']),
    air: measuredCelsiusSchema.nullable(),
    /** Rain of the last 24 hours; null where the yard has no gauge or it has said nothing in that time. */
    rain: z.object({ millimetres: z.number(), timeMs: timeMsSchema }).nullable(),
    /** Where each place is; left out when nobody drew a map. */
    map: z.array(mapPlaceSchema).readonly().optional(),
  }),
  /** Server time when this answer was made. */
  nowMs: timeMsSchema,
  /** Time of the newest good reading in the yard; null when there has been none. */
  dataMs: timeMsSchema.nullable(),
  /** Alarms of piles, probes and yard nobody has acknowledged. */
  unacknowledgedCount: z.int(),
  /** Alarms about the yard itself or its probes (a dead broker, silent probes). */
  yardAlarms: z.array(wallAlarmSchema).readonly(),
  piles: z.array(wallPileSchema).readonly(),
});
export type WallView = z.infer<typeof wallSchema>;
