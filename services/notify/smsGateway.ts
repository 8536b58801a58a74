import { z } from 'zod';
import { gatewayCallbacksSchema } from './gatewayCallbacks/settings.ts';

/** Text with placeholders, of which only ours have a value. */
const template = z.string().refine((text) => !/\{\{(?!(?:to|digits|text|id|from)\}\})\w*\}\}/.test(text), {
  message: 'allowed placeholders: {{to}}, {{digits}}, {{text}}, {{id}}, {{from}}',
});

/**
 * Any HTTP gateway that sends texts, described rather than programmed. `{{to}}` (+441632960123), `{{digits}}` (without the plus),
 * `{{text}}`, `{{id}}` and `{{from}}` in the
 * URL, headers and body are filled in, escaped for where they stand (`body.kind`).
 */
export const smsGatewaySchema = z.strictObject({
  url: z
    .url({ protocol: /^https?$/ })
    .pipe(template)
    .describe('Address of the gateway; may hold {{to}}, {{digits}}, {{text}}, {{id}}, {{from}}'),
  method: z.enum(['POST', 'PUT', 'GET']).default('POST').describe('HTTP method'),
  headers: z
    .record(z.string(), template)
    .default({})
    .describe('Headers; values may hold the placeholders and are never logged'),
  body: z
    .strictObject({
      kind: z
        .enum(['json', 'form', 'text'])
        .describe('How placeholders are escaped and which content type is sent'),
      template: template.describe('Body with placeholders, e.g. {"to":"{{to}}","message":"{{text}}"}'),
    })
    .nullable()
    .default({ kind: 'json', template: '{"to":"{{to}}","text":"{{text}}","id":"{{id}}"}' }),
  from: z.string().default('').describe('Sender name or number for {{from}}'),
  success: z
    .strictObject({
      statusFrom: z.int().min(100).max(599).default(200).describe('Lowest HTTP status that counts as taken'),
      statusTo: z.int().min(100).max(599).default(299).describe('Highest HTTP status that counts as taken'),
      bodyContains: z
        .string()
        .nullable()
        .default(null)
        .describe('Text the answer must contain to count as taken'),
      referencePointer: z
        .string()
        .regex(/^(\/.*)?$/)
        .nullable()
        .default(null)
        .describe("JSON Pointer to the gateway's own message id in the answer"),
    })
    .prefault({}),
  refusal: z
    .strictObject({
      message: z
        .array(z.string().min(1))
        .default([])
        .describe('Texts in an answer that mean this message or number will never be taken'),
      account: z
        .array(z.string().min(1))
        .default([])
        .describe('Texts in an answer that the owner has to put right: no credit, account closed'),
    })
    .prefault({}),
  checkUrl: z
    .url({ protocol: /^https?$/ })
    .nullable()
    .default(null)
    .describe(
      'Address that shows without sending whether the account works, e.g. its balance; asked by GET with the same headers. Null: it is only seen whether the gateway answers',
    ),
  callbacks: gatewayCallbacksSchema
    .nullable()
    .default(null)
    .describe('Delivery reports and texts the gateway passes on to us; null takes none'),
  timeoutSeconds: z.number().min(1).max(120).default(15).describe('Longest wait for an answer, s'),
});

export type SmsGateway = z.infer<typeof smsGatewaySchema>;
