import { z } from 'zod';
import { conditionIds, priorities } from '../alarms/alarm.ts';
import { evidenceSchema } from './alarms.ts';
import { timeMsSchema } from './common.ts';
import { limitOverridesSchema } from './limits.ts';

/** Longest stretch replayed at once, and how much of it is read reading by reading. */
export const longestReplayDays = 400;

const conditionSchema = z.enum(conditionIds);

/** Something a person remembers having gone wrong. */
const markedTroubleSchema = z.strictObject({
  name: z.string().trim().min(1).max(80),
  startMs: timeMsSchema,
  endMs: timeMsSchema,
  warnedBy: z.array(conditionSchema).min(1).describe('Alarms that count as a warning of it'),
});

/** `POST /api/piles/:pileId/replay`: changes nothing. */
export const replayRequestSchema = z
  .strictObject({
    fromMs: timeMsSchema.describe('Alarms and texts are counted from here'),
    toMs: timeMsSchema,
    warmUpDays: z
      .int()
      .min(0)
      .max(60)
      .default(4)
      .describe('Read reading by reading before fromMs, so that timers stand right'),
    overrides: limitOverridesSchema.nullable().default(null).describe('Limits on trial; null: none'),
    textsFrom: z.enum(priorities).default('medium').describe('Least pressing priority that is texted'),
    troubles: z
      .array(markedTroubleSchema)
      .max(100)
      .nullable()
      .default(null)
      .describe('Null: found by plain rules, such as the core above 71 C for an hour'),
    suggest: z.array(conditionSchema).max(6).default([]).describe('Search better limits for these'),
  })
  .refine(({ fromMs, toMs }) => toMs > fromMs && toMs - fromMs <= longestReplayDays * 86_400_000, {
    path: ['toMs'],
    message: `later than fromMs, by at most ${longestReplayDays} days`,
  });
export type ReplayRequest = z.input<typeof replayRequestSchema>;

/** `GET /api/piles/:pileId/past?fromMs=..&toMs=..`: bytes, see `past.ts`. */
export const pastQuerySchema = z
  .strictObject({
    fromMs: z.coerce.number().pipe(timeMsSchema),
    toMs: z.coerce.number().pipe(timeMsSchema),
  })
  .refine(({ fromMs, toMs }) => toMs > fromMs && toMs - fromMs <= longestReplayDays * 86_400_000, {
    path: ['toMs'],
    message: `later than fromMs, by at most ${longestReplayDays} days`,
  });

const troubleSchema = z.object({
  name: z.string(),
  startMs: timeMsSchema,
  endMs: timeMsSchema,
  warnedBy: z.array(conditionSchema).readonly(),
});

export const replayAlarmSchema = z.object({
  condition: conditionSchema,
  startMs: timeMsSchema,
  endMs: timeMsSchema.nullable().describe('Null: it still stood at the end'),
  priority: z.enum(priorities),
  shown: z.boolean(),
  evidence: z.array(evidenceSchema).readonly(),
});

export const replayReportSchema = z.object({
  limitsVersion: z.int(),
  alarms: z.array(replayAlarmSchema).readonly(),
  texts: z
    .array(
      z.object({
        condition: conditionSchema,
        occurrence: z.int(),
        atMs: timeMsSchema,
        priority: z.enum(priorities),
      }),
    )
    .readonly(),
  textsPerWeek: z.number(),
  conditions: z
    .array(
      z.object({
        condition: conditionSchema,
        alarms: z.int(),
        texts: z.int(),
        longestMinutes: z.number(),
        totalMinutes: z.number(),
      }),
    )
    .readonly(),
  warnings: z
    .array(
      z.object({
        trouble: troubleSchema,
        minutesBefore: z.number().nullable().describe('Negative: it came after; null: never'),
        by: conditionSchema.nullable(),
      }),
    )
    .readonly(),
  missed: z.int().describe('Troubles nothing warned of'),
});
export type ReplayReportView = z.infer<typeof replayReportSchema>;

const troubles = z.array(troubleSchema).readonly();

export const replayComparisonSchema = z.object({
  textsMore: z.int(),
  alarmsMore: z.int(),
  come: z.array(replayAlarmSchema).readonly(),
  gone: z.array(replayAlarmSchema).readonly(),
  warningMinutesWon: z.array(z.object({ trouble: troubleSchema, minutes: z.number() })).readonly(),
  newlyMissed: troubles,
  newlyCaught: troubles,
});
export type ReplayComparisonView = z.infer<typeof replayComparisonSchema>;

export const suggestionSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('none'),
    condition: conditionSchema,
    why: z.enum(['too-short', 'never-suggested', 'nothing-to-gain', 'not-judged']),
    says: z.string(),
  }),
  z.object({
    kind: z.literal('change'),
    condition: conditionSchema,
    change: z.record(z.string(), z.number()),
    overrides: z.record(z.string(), z.union([z.number(), z.boolean(), z.null()])),
    before: z.int(),
    after: z.int(),
    counts: z.enum(['texts', 'notices']),
    warningLostMinutes: z.number(),
    says: z.string().describe('In plain words and the yard’s unit'),
  }),
]);
export type SuggestionView = z.infer<typeof suggestionSchema>;

export const replaySchema = z.object({
  fromMs: timeMsSchema,
  toMs: timeMsSchema,
  currentVersion: z.int(),
  readings: z.int(),
  troubles,
  current: replayReportSchema,
  defaults: replayReportSchema,
  candidate: replayReportSchema.nullable(),
  againstCurrent: replayComparisonSchema.nullable(),
  againstDefaults: replayComparisonSchema.nullable(),
  suggestions: z.array(suggestionSchema).readonly(),
});
export type ReplayView = z.infer<typeof replaySchema>;
