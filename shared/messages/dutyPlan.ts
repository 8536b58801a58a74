import { z } from 'zod';
import { priorities } from '../alarms/alarm.ts';

const clockTime = z
  .string()
  .regex(/^(?:[01]\d|2[0-3]):[0-5]\d$/, 'allowed: a time of day such as 06:30')
  .describe("Time of day by the yard's clock, e.g. 06:30");
const day = z.iso.date().describe("A day by the yard's calendar, e.g. 2026-12-25");
const weekday = z.int().min(1).max(7).describe('1 is Monday, 7 is Sunday');
const minutes = z.int().min(1).max(10_080).nullable();

/** One turn of duty: who, on which weekdays, from when to when. */
export const dutyShiftSchema = z.strictObject({
  personId: z.string().min(1).max(80),
  order: z.int().min(1).max(9).default(1).describe('1 is told first, 2 when nobody answered, and so on'),
  weekdays: z.array(weekday).min(1).max(7).default([1, 2, 3, 4, 5, 6, 7]).describe('Days on which it begins'),
  from: clockTime,
  to: clockTime.describe('Its end; not later than its start: on the next day. The same: a whole day'),
  holidays: z
    .enum(['as-any-day', 'not', 'only'])
    .default('as-any-day')
    .describe('Whether it also begins on holidays, does not, or begins on holidays alone, whatever weekday'),
});
export type DutyShift = z.infer<typeof dutyShiftSchema>;

/** Who is told of alarms, when, and how it goes on when nobody answers. The empty plan is every default. */
export const dutyPlanSchema = z.strictObject({
  shifts: z
    .array(dutyShiftSchema)
    .max(200)
    .default([])
    .describe('Turns of duty; none: everybody who wants texts gets them'),
  holidays: z.array(day).max(400).default([]),
  away: z
    .array(z.strictObject({ personId: z.string().min(1).max(80), fromDay: day, toDay: day }))
    .max(400)
    .default([])
    .describe('People who are away, both days included'),
  quiet: z
    .strictObject({
      from: clockTime,
      to: clockTime,
      wakes: z.enum(priorities).describe('Least pressing priority that is sent at once all the same'),
    })
    .nullable()
    .default({ from: '22:00', to: '06:30', wakes: 'high' })
    .describe('Hours in which what can wait is kept for one summary in the morning; null: none'),
  escalateMinutes: z
    .strictObject({ highest: minutes, high: minutes, medium: minutes, low: minutes })
    .default({ highest: 10, high: 30, medium: 480, low: null })
    .describe('Minutes without an answer after which the next person is told; null: never'),
  textsPerHour: z
    .int()
    .min(2)
    .max(60)
    .default(6)
    .describe(
      'Most texts a person gets in an hour, half of them about what can wait; fire danger is not counted and always sent',
    ),
  groupSeconds: z
    .int()
    .min(0)
    .max(600)
    .default(60)
    .describe(
      'Time after a text within which further ones wait, to be told together, s; fire danger never waits; 0: none wait',
    ),
  digest: z
    .strictObject({ weekday, at: clockTime })
    .nullable()
    .default(null)
    .describe('Weekly summary by text to owners; null: none'),
  monthReport: z
    .strictObject({ at: clockTime })
    .nullable()
    .default(null)
    .describe('Alarm report of the month before, to owners on the first of each month; null: none'),
  allWell: z
    .strictObject({ at: clockTime })
    .nullable()
    .default(null)
    .describe('Daily text that all is well, or what is not, to whoever is on duty; null: none'),
});
export type DutyPlan = z.infer<typeof dutyPlanSchema>;

/**
 * What holds where nobody has set anything. Six texts an hour is the mean load ISA-18.2 calls acceptable (reference pack
 * 5.4); quiet hours and minutes to the next person are our choice, no source.
 */
export const defaultDutyPlan: DutyPlan = dutyPlanSchema.parse({});
