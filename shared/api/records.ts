import { z } from 'zod';
import { conditionIds } from '../alarms/alarm.ts';
import { sanitisationOutcomes } from '../compost/sanitisation/result.ts';
import { pileMethods } from '../yard/method.ts';
import { positions } from '../yard/yard.ts';
import { idSchema, timeMsSchema } from './common.ts';
import { journalEntrySchema } from './journal.ts';
import { pileSchema } from './piles.ts';
import { placementSchema } from './placements.ts';
import { calibrationSchema } from './probes.ts';
import { yardSchema } from './yard.ts';

const partSchema = z.object({
  name: z.enum(['hours', 'turnings', 'hotter-hours', 'average', 'turns-after-hold']),
  have: z.number(),
  need: z.number(),
  enough: z.boolean(),
});

const totalsSchema = z.object({
  pathId: z.string(),
  totalHours: z.number(),
  bestPeriodHours: z.number(),
  satisfiedAtMs: timeMsSchema.nullable(),
});

/** How a pile's readings stand against one published rule; never more than "record consistent with". */
export const heatRecordResultSchema = z.object({
  ruleId: z.string(),
  title: z.string(),
  source: z.string(),
  statusWords: z.string().describe('How sure we are of the figures of the rule'),
  outcome: z.enum(sanitisationOutcomes),
  progress: z.number(),
  satisfiedAtMs: timeMsSchema.nullable(),
  coreRecordAtMs: timeMsSchema.nullable(),
  parts: z.array(partSchema).readonly(),
  missing: z.array(z.string()).readonly(),
  cautions: z.array(z.string()).readonly(),
  preconditions: z
    .array(z.object({ words: z.string(), state: z.enum(['met', 'failed', 'not-recorded']) }))
    .readonly(),
  moisture: z.enum(['not-asked', 'wet-enough', 'too-dry', 'not-recorded']),
  zonesCounted: z.array(z.enum(positions)).readonly(),
  plain: totalsSchema,
  guarded: totalsSchema.describe('With the tolerance of the probe kept back'),
  evidence: z
    .array(
      z.object({
        fromMs: timeMsSchema,
        toMs: timeMsSchema,
        hours: z.number(),
        minimumCelsius: z.number(),
        coverageFraction: z.number(),
      }),
    )
    .readonly(),
  coverage: z
    .array(
      z.object({
        position: z.enum(positions),
        channel: z.string(),
        watchedHours: z.number(),
        longestHoleHours: z.number(),
        coverageFraction: z.number(),
      }),
    )
    .readonly(),
  clearedAtMs: timeMsSchema.nullable(),
});
export type HeatRecordResult = z.infer<typeof heatRecordResultSchema>;

/** One time an alarm stood. */
export const recordAlarmSchema = z.object({
  condition: z.enum(conditionIds),
  fromMs: timeMsSchema,
  toMs: timeMsSchema.nullable().describe('Null: it still stands'),
  seenBy: z.string().nullable(),
});
export type RecordAlarm = z.infer<typeof recordAlarmSchema>;

/** `GET /api/piles/:pileId/record`: all an inspector asks for about one pile. */
export const heatRecordSchema = z.object({
  yard: yardSchema,
  pile: pileSchema,
  nowMs: timeMsSchema.describe('The record is read up to here: now, or when the pile ended'),
  madeMs: timeMsSchema,
  chosenRuleId: z.string().nullable().describe('The rule this yard goes by for piles of this method'),
  /** One for every rule that may apply to the method. */
  results: z.array(heatRecordResultSchema).readonly(),
  placements: z.array(placementSchema).readonly(),
  /** Hourly means of good readings in Celsius, by placement; null where nothing good was heard. */
  hours: z.object({
    startsMs: z.array(timeMsSchema).readonly(),
    means: z.record(z.string(), z.array(z.number().nullable()).readonly()),
  }),
  gaps: z
    .array(
      z.object({
        placementId: idSchema,
        position: z.enum(positions),
        fromMs: timeMsSchema,
        toMs: timeMsSchema,
      }),
    )
    .readonly(),
  journal: z.array(journalEntrySchema).readonly(),
  alarms: z.array(recordAlarmSchema).readonly(),
  calibrations: z.array(calibrationSchema).readonly(),
});
export type HeatRecordView = z.infer<typeof heatRecordSchema>;

/** Where one pile's record stands by the rule the yard goes by. */
export const recordStandingSchema = z.object({
  pile: pileSchema,
  /** Null where nothing is asked of the heat. */
  standing: heatRecordResultSchema
    .pick({
      ...{ ruleId: true, title: true, outcome: true, progress: true },
      ...{ satisfiedAtMs: true, coreRecordAtMs: true, missing: true },
    })
    .nullable(),
});
export type RecordStanding = z.infer<typeof recordStandingSchema>;

/** Most piles in one answer: each is read hour by hour over its whole life. */
export const mostRecordsAtOnce = 20;

/** `GET /api/records?piles=id,id`. */
export const recordsQuerySchema = z.strictObject({
  piles: z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(idSchema).min(1).max(mostRecordsAtOnce))
    .describe(`Ids with commas between, ${mostRecordsAtOnce} at most`),
});

/** `PUT /api/records/rule`: the rule this yard goes by for piles of a method. */
export const chooseRuleSchema = z.strictObject({ method: z.enum(pileMethods), ruleId: z.string() });
export type ChooseRule = z.infer<typeof chooseRuleSchema>;
