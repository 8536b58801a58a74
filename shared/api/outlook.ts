import { z } from 'zod';
import { timeMsSchema } from './common.ts';

const numbers = z.array(z.number()).readonly();
const bandedSchema = z.object({ low: z.number(), middle: z.number(), high: z.number() });

/** Low and high enclose four in five; rows are `stepMs` apart, the first at `startMs`. Celsius. */
const timedBandSchema = z.object({
  startMs: timeMsSchema,
  stepMs: z.number(),
  low: numbers,
  middle: numbers,
  high: numbers,
});
export type TimedBandView = z.infer<typeof timedBandSchema>;

/** How likely within the horizon, and when among the futures where it happens. */
const eventSchema = z.object({ probability: z.number(), days: bandedSchema });

/** Why there is no forecast, in the order in which they are looked at. */
export const outlookStates = [
  'fitted',
  'ended',
  'not-modelled',
  'no-core',
  'too-early',
  'core-silent',
] as const;

/** `GET /api/piles/:pileId/outlook`: what is to be expected, from the pile's own readings. */
export const outlookSchema = z.object({
  state: z.enum(outlookStates),
  hoursRead: z.int().describe('Hours with a good core reading'),
  hoursNeeded: z.int(),
  lastCoreMs: timeMsSchema.nullable(),
  forecast: z
    .object({
      path: timedBandSchema,
      horizonDays: z.number(),
      ceilingCelsius: z.number(),
      ceiling: eventSchema,
      nearAir: eventSchema,
      dry: eventSchema,
      daysAbove55: bandedSchema,
      recentErrorKelvin: z.number().describe('How far one hour ahead it was off over the last three days'),
    })
    .nullable(),
});
export type OutlookView = z.infer<typeof outlookSchema>;

/** `GET /api/piles/:pileId/expected`: the course its plan, or a usual pile of its method, would take; null: none is known. */
export const expectedSchema = z.object({
  expected: z.object({ from: z.enum(['plan', 'method']), band: timedBandSchema }).nullable(),
});
export type ExpectedView = z.infer<typeof expectedSchema>;
