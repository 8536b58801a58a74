import { z } from 'zod';

/**
 * Any HTTP gateway that sends texts, described rather than programmed. `{{to}}`, `{{text}}`, `{{id}}` and `{{from}}` in the
 * URL, headers and body are filled in, escaped for where they stand (`body.kind`).
 */
export const smsGatewaySchema = z.strictObject({
  url: z
    .url({ protocol: /^https?$/ })
    .describe('Address of the gateway; may hold {{to}}, {{text}}, {{id}}, {{from}}'),
  method: z.enum(['POST', 'PUT', 'GET']).default('POST').describe('HTTP method'),
  headers: z
    .record(z.string(), z.string())
    .default({})
    .describe('Headers; values may hold the placeholders and are never logged'),
  body: z
    .strictObject({
      kind: z
        .enum(['json', 'form', 'text'])
        .describe('How placeholders are escaped and which content type is sent'),
      template: z.string().describe('Body with placeholders, e.g. {"to":"{{to}}","message":"{{text}}"}'),
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
  timeoutSeconds: z.number().min(1).max(120).default(15).describe('Longest wait for an answer, s'),
});

export type SmsGateway = z.infer<typeof smsGatewaySchema>;
