import { z } from 'zod';
import { alarmStates, conditionIds, priorities } from '../alarms/alarm.ts';
import { idSchema, reasonSchema, timeMsSchema } from './common.ts';
import { longestShelvingMinutes } from './constants.ts';

export const evidenceSchema = z.object({
  label: z.string(),
  value: z.union([z.number(), z.string()]),
  unit: z.string().describe('C, C/h, %, h, d ... or empty; temperatures are always Celsius, screens convert'),
});

/** What a person may do to an alarm. Each is `POST /api/alarms/:alarmId/<action>`. */
export const alarmActions = [
  'acknowledge',
  'shelve',
  'unshelve',
  'take-out-of-service',
  'return-to-service',
  'reset',
] as const;
export type AlarmAction = (typeof alarmActions)[number];

export const alarmWordsSchema = z.object({
  what: z.string(),
  firstAction: z.string(),
  cautions: z.array(z.string()).readonly(),
});
export type AlarmWords = z.infer<typeof alarmWordsSchema>;

/** A likely cause with its chance and what speaks for and against it, in words. */
export const likelyCauseSchema = z.object({
  name: z.string(),
  chance: z.number().describe('0 to 1'),
  for: z.array(z.string()).readonly(),
  against: z.array(z.string()).readonly(),
});
export type LikelyCause = z.infer<typeof likelyCauseSchema>;

/** Why it may be so, and all of what to do about it. */
export const explanationSchema = z.object({
  summary: z.string(),
  /** Likeliest first; only those worth naming. */
  causes: z.array(likelyCauseSchema).readonly(),
  /** The one look that would best tell the causes apart. */
  nextCheck: z.string().nullable(),
  firstAction: z.string(),
  actions: z.array(z.object({ text: z.string(), source: z.string() })).readonly(),
  cautions: z.array(z.string()).readonly(),
});
export type ExplanationView = z.infer<typeof explanationSchema>;

/** One alarm as a list or page shows it. */
export const alarmSchema = z.object({
  id: idSchema,
  code: z.string(),
  subject: z.object({ kind: z.enum(['pile', 'probe', 'yard']), id: idSchema, name: z.string() }),
  condition: z.enum(conditionIds),
  /** The condition in words: "core too hot". */
  name: z.string(),
  state: z.enum(alarmStates),
  priority: z.enum(priorities),
  occurrence: z.int(),
  activeSinceMs: timeMsSchema.nullable(),
  returnedMs: timeMsSchema.nullable(),
  acknowledgedMs: timeMsSchema.nullable(),
  /** Name of the person. */
  acknowledgedBy: z.string().nullable(),
  shelvedUntilMs: timeMsSchema.nullable(),
  hiddenReason: z.string().nullable(),
  limitsVersion: z.int(),
  evidence: z.array(evidenceSchema).readonly(),
  /** What it is, what to do first and the cautions; null where the condition has no general words. */
  words: alarmWordsSchema.nullable(),
  /** Likely causes and what to do; null where the cause is not in question or the pile is not judged now. */
  explanation: explanationSchema.nullable(),
  /** What the asking person may do with it now; show a button for each. */
  actions: z.array(z.enum(alarmActions)).readonly(),
  version: z.int(),
});
export type AlarmView = z.infer<typeof alarmSchema>;

export const alarmTransitionSchema = z.object({
  alarmId: idSchema,
  condition: z.enum(conditionIds),
  name: z.string(),
  occurrence: z.int(),
  atMs: timeMsSchema,
  event: z.string(),
  from: z.enum(alarmStates),
  to: z.enum(alarmStates),
  by: z.string().nullable(),
  note: z.string().nullable(),
  limitsVersion: z.int(),
  evidence: z.array(evidenceSchema).readonly(),
});
export type AlarmTransitionView = z.infer<typeof alarmTransitionSchema>;

export const alarmListSchema = z.object({ nowMs: timeMsSchema, alarms: z.array(alarmSchema).readonly() });
export type AlarmList = z.infer<typeof alarmListSchema>;

/** What a press on an alarm was about, so that one sent late, or twice, does nothing to what came since. */
const pressedAt = {
  occurrence: z.int().min(0).optional().describe('The alarm as it was seen; another one since: refused'),
  pressedMs: timeMsSchema.optional().describe('When the button was pressed, where it is sent later'),
};
export const acknowledgeSchema = z.strictObject(pressedAt).nullish();
export type Acknowledge = z.infer<typeof acknowledgeSchema>;

export const shelveSchema = z.strictObject({
  ...pressedAt,
  minutes: z.int().min(5).max(longestShelvingMinutes),
  reason: reasonSchema,
});
export type Shelve = z.infer<typeof shelveSchema>;

export const outOfServiceSchema = z.strictObject({ reason: reasonSchema });
export type OutOfService = z.infer<typeof outOfServiceSchema>;
