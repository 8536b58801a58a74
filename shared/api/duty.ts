import { z } from 'zod';
import { priorities } from '../alarms/alarm.ts';
import { dutyPlanSchema } from '../messages/dutyPlan.ts';
import { idSchema, timeMsSchema } from './common.ts';
import { messageChannels } from './messages.ts';

export const dutySchema = z.object({
  /** 0: never changed, every default holds. */
  version: z.int(),
  plan: dutyPlanSchema,
  /** Name of who saved it. */
  by: z.string().nullable(),
  savedMs: timeMsSchema,
  /** Names of those who would be told of a high alarm now, first round first. */
  onDuty: z.array(z.array(z.string()).readonly()).readonly(),
  /** Everybody who may have a turn. Who cannot be reached by anything is passed over when their turn comes. */
  people: z.array(z.object({ id: idSchema, name: z.string(), reachable: z.boolean() })).readonly(),
});
export type DutyView = z.infer<typeof dutySchema>;

export const saveDutySchema = z.strictObject({ expectedVersion: z.int().min(0), plan: dutyPlanSchema });
export type SaveDuty = z.input<typeof saveDutySchema>;

export const contactWaySchema = z.object({
  id: idSchema,
  personId: idSchema,
  channel: z.enum(messageChannels),
  address: z.string(),
  toldFrom: z.enum(priorities).describe('Least pressing priority told by this way'),
  createdMs: timeMsSchema,
  /** The other side said that it is no more; it is not used. */
  goneMs: timeMsSchema.nullable(),
  goneDetail: z.string().nullable(),
});
export type ContactWayView = z.infer<typeof contactWaySchema>;

const toldFrom = z.enum(priorities).default('high');

/** Web push comes with the browser that subscribes, not from a list. */
export const newContactWaySchema = z.discriminatedUnion('channel', [
  z.strictObject({ channel: z.literal('email'), address: z.email().max(254), toldFrom }),
  z.strictObject({
    channel: z.literal('webhook'),
    address: z.url({ protocol: /^https?$/ }).max(2000),
    toldFrom,
  }),
]);
export type NewContactWay = z.input<typeof newContactWaySchema>;
