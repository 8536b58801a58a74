import { z } from 'zod';
import { priorities } from '../alarms/alarm.ts';
import { idSchema, timeMsSchema } from './common.ts';
import { messageChannels } from './messages.ts';

/** A way messages leave by, as the set-up screen shows it. */
export const channelSchema = z.object({
  channel: z.enum(messageChannels),
  /** Null: it was neither looked at nor used yet. */
  standing: z
    .object({
      ready: z.boolean(),
      detail: z.string().describe('Plain words: "signal -85 dBm", "gateway answered 401"'),
      tellOwner: z.boolean().describe('Somebody has to put it right'),
      atMs: timeMsSchema,
    })
    .nullable(),
  /** Of messages of this yard that took the outbox; tests are in `standing`. */
  lastSent: z.object({ atMs: timeMsSchema, detail: z.string() }).nullable(),
  lastFailed: z.object({ atMs: timeMsSchema, detail: z.string() }).nullable(),
});
export type ChannelView = z.infer<typeof channelSchema>;

export const channelListSchema = z.object({
  /** Those that are set up, in the order of the configuration; empty: no text can leave. */
  channels: z.array(channelSchema).readonly(),
  /** What phones are texted by. */
  textChannel: z.enum(messageChannels),
  /** False: no process that sends messages has told of itself yet. */
  isKnown: z.boolean(),
});
export type ChannelList = z.infer<typeof channelListSchema>;

/** Whom a test goes to: one of the yard's people by their own number or address, or any address an owner types. */
export const testChannelSchema = z
  .strictObject({ personId: idSchema.optional(), address: z.string().trim().min(3).max(2000).optional() })
  .refine(({ personId, address }) => (personId === undefined) !== (address === undefined), {
    message: 'allowed: either personId or address',
    path: ['personId'],
  });
export type TestChannel = z.infer<typeof testChannelSchema>;

export const channelTestSchema = z.object({
  outcome: z.enum(['sent', 'retry', 'gave-up']).describe('sent: the other side took it'),
  detail: z.string(),
  tellOwner: z.boolean(),
});
export type ChannelTest = z.infer<typeof channelTestSchema>;

const base64url = z.string().regex(/^[A-Za-z0-9_-]+={0,2}$/, 'base64url, as the browser gives it');

/** What `PushSubscription.toJSON()` gives (W3C Push API), and from which urgency on. */
export const newPushSchema = z.strictObject({
  subscription: z.object({
    endpoint: z.url({ protocol: /^https?$/ }).max(1500),
    keys: z.object({ p256dh: base64url.max(120), auth: base64url.max(40) }),
  }),
  toldFrom: z.enum(priorities).default('high'),
  replaces: z
    .url({ protocol: /^https?$/ })
    .max(1500)
    .optional()
    .describe(
      'Endpoint the browser gave up for this one: it is told from the same urgency on, and the old one ends',
    ),
});
export type NewPush = z.input<typeof newPushSchema>;

/** Browsers the asker had subscribe. */
export const pushListSchema = z.object({
  /** For `applicationServerKey` (RFC 8292); null: web push is not set up here. */
  publicKey: z.string().nullable(),
  subscriptions: z
    .array(
      z.object({
        id: idSchema,
        /** Host of its push service. */
        service: z.string(),
        /** To find the one of this very browser again. */
        endpoint: z.string(),
        toldFrom: z.enum(priorities),
        createdMs: timeMsSchema,
        goneMs: timeMsSchema.nullable(),
      }),
    )
    .readonly(),
});
export type PushList = z.infer<typeof pushListSchema>;
