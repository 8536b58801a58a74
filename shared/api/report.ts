import { z } from 'zod';
import { conditionIds, priorities } from '../alarms/alarm.ts';
import { alarmSchema } from './alarms.ts';
import { idSchema, timeMsSchema } from './common.ts';
import { longestReportDays } from './constants.ts';

const dayMs = 86_400_000;
const epochMs = z.coerce.number().pipe(timeMsSchema);

/** The span of a report; usually a month. */
export const reportQuerySchema = z
  .strictObject({ fromMs: epochMs, toMs: epochMs.describe('exclusive') })
  .superRefine(({ fromMs, toMs }, context) => {
    const isAllowed = toMs > fromMs && toMs - fromMs <= longestReportDays * dayMs;
    const message = `after fromMs, and at most ${longestReportDays} days after it`;
    if (!isAllowed) context.addIssue({ code: 'custom', path: ['toMs'], message, input: toMs });
  });

const count = z.int().min(0);
const personLoadSchema = z.object({
  personId: idSchema,
  name: z.string(),
  texts: count,
  perDay: z.number(),
  atNight: count.describe("22:00 to 06:00 by the yard's clock"),
  busiestDay: z.object({ day: z.string().describe('2026-06-01'), texts: count }).nullable(),
  mostInTenMinutes: count,
});

const alarmLoadSchema = z.object({
  alarmId: idSchema,
  subject: z.object({ kind: z.enum(['pile', 'probe', 'yard']), id: idSchema, name: z.string() }),
  condition: z.enum(conditionIds),
  /** The condition in words. */
  name: z.string(),
  activations: count,
  texts: count,
  hoursStanding: z.number(),
  chattered: count,
});

export const reportFigureSchema = z.object({
  id: z.string(),
  name: z.string(),
  value: z.number().nullable(),
  unit: z.string().describe('"share" is 0..1; empty is a count'),
  aim: z.number(),
  atLeast: z.boolean().describe('the aim is the least that is wanted, not the most'),
  isMet: z.boolean().nullable(),
  source: z.string().describe('where the aim comes from'),
});

/** Alarms of a yard over a span, seen from the people who get them. */
export const alarmReportSchema = z.object({
  fromMs: timeMsSchema,
  toMs: timeMsSchema,
  nowMs: timeMsSchema,
  timeZone: z.string(),
  texts: count,
  groupedTexts: count,
  textsByPriority: z.object(
    Object.fromEntries(priorities.map((one) => [one, count])) as Record<
      (typeof priorities)[number],
      typeof count
    >,
  ),
  people: z.array(personLoadSchema).readonly(),
  texted: count.describe('occurrences people were texted about'),
  acted: count.describe('of those, answered or worked on within 12 h'),
  activations: count,
  worst: z.array(alarmLoadSchema).readonly(),
  chattering: z.array(alarmLoadSchema).readonly(),
  staleNow: z
    .array(alarmSchema)
    .readonly()
    .describe('alarms that have stood for more than 24 h, longest first'),
  staleInSpan: count,
  hidden: z.object({ shelved: count, suppressed: count, outOfService: count }),
  figures: z.array(reportFigureSchema).readonly(),
});
export type AlarmReportView = z.infer<typeof alarmReportSchema>;
