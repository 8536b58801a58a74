import { z } from 'zod';
import { priorities } from '../alarms/alarm.ts';
import { idSchema, timeMsSchema } from './common.ts';

/** Standing of a message; the records service uses the same words. */
export const messageStates = [
  'waiting',
  'sending',
  'sent',
  'delivered',
  'failed',
  'expired',
  'told-together',
  'not-needed',
] as const;
export const messageChannels = ['sms-http', 'sms-modem', 'email', 'web-push', 'webhook'] as const;

export const messageAttemptSchema = z.object({
  attempt: z.int(),
  startedMs: timeMsSchema,
  finishedMs: timeMsSchema,
  outcome: z.enum(['sent', 'retry', 'gave-up']),
  detail: z.string(),
  maybeSent: z.boolean().describe('It may have gone out: the answer was never seen'),
});
export type MessageAttemptView = z.infer<typeof messageAttemptSchema>;

export const messageSchema = z.object({
  id: idSchema,
  pileId: idSchema.nullable(),
  alarmId: idSchema.nullable(),
  person: z.string().describe('Name'),
  channel: z.enum(messageChannels),
  /** Where to, with the middle hidden: "+44 ... 123". */
  address: z.string(),
  /** As sent, with the secret part of the answer link hidden. */
  text: z.string(),
  priority: z.enum(priorities),
  state: z.enum(messageStates),
  /** Why it waited or did not go: quiet hours, hourly cap, told with others; over, or overtaken by a more pressing one. */
  heldFor: z.enum(['quiet', 'cap', 'group', 'over', 'overtaken']).nullable(),
  /** It went out after an attempt that may have gone out as well, or two such attempts were made. */
  maybeTwice: z.boolean(),
  createdMs: timeMsSchema,
  finishedMs: timeMsSchema.nullable(),
  nextAttemptMs: timeMsSchema.nullable(),
  attempts: z.array(messageAttemptSchema).readonly(),
});
export type MessageView = z.infer<typeof messageSchema>;

export const testTextSchema = z.strictObject({ personId: idSchema });
export type TestText = z.infer<typeof testTextSchema>;
