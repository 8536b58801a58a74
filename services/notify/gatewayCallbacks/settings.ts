import { z } from 'zod';
import { isJsonPointer } from '../../../shared/readings/jsonPointer.ts';

const field = z
  .string()
  .min(1)
  .describe('Where it stands: a JSON Pointer (starts with "/"), or the name of a form or query field');
const place = z
  .enum(['json', 'form', 'query'])
  .default('json')
  .describe('What is read: a JSON body, a form body, or the query of the address');
const items = z
  .string()
  .refine(isJsonPointer, 'allowed: a JSON Pointer')
  .nullable()
  .default(null)
  .describe('JSON Pointer to a list when one call carries several; "" when the body is the list itself');

const tokenCheck = z.strictObject({
  kind: z.literal('token'),
  where: z.enum(['header', 'query']).default('header').describe('Where the gateway puts the secret'),
  name: z.string().min(1).describe('Name of that header or query field'),
  secret: z.string().min(16).describe('The secret itself, at least 16 characters'),
});

const signatureCheck = z
  .strictObject({
    kind: z.literal('signature'),
    header: z.string().min(1).describe('Header that holds the signature'),
    secret: z.string().min(16).describe('Key of the HMAC'),
    hash: z.enum(['sha256', 'sha512', 'sha1']).default('sha256').describe('Hash under the HMAC'),
    encoding: z.enum(['hex', 'base64']).default('hex').describe('How the signature is written'),
    prefix: z.string().default('').describe('What stands before it, e.g. "sha256="'),
    signed: z
      .string()
      .default('{{body}}')
      .describe('What is signed, made of {{body}}, {{url}} and {{timestamp}}'),
    timestampHeader: z
      .string()
      .min(1)
      .nullable()
      .default(null)
      .describe('Header of the time of signing, Unix s'),
    toleranceSeconds: z
      .int()
      .min(10)
      .max(86_400)
      .default(300)
      .describe('Oldest signature that is believed, s'),
  })
  .refine(({ signed, timestampHeader }) => signed.includes('{{timestamp}}') === (timestampHeader !== null), {
    message: 'allowed: {{timestamp}} in `signed` together with a `timestampHeader`, or neither',
    path: ['timestampHeader'],
  });

const deliveryReport = z.strictObject({
  from: place,
  items,
  reference: field,
  state: field,
  delivered: z
    .array(z.string().min(1))
    .min(1)
    .default(['delivered', 'DELIVRD'])
    .describe('Words that mean it reached the phone, in any case'),
  failed: z
    .array(z.string())
    .default(['failed', 'undelivered', 'rejected', 'expired', 'UNDELIV', 'REJECTD', 'DELETED'])
    .describe('Words that mean it never will; any other word means it is under way'),
});

const inbound = z.strictObject({
  from: place,
  items,
  sender: field,
  text: field,
  reference: field.nullable().default(null),
  senderPrefix: z
    .string()
    .default('')
    .describe('Put before a sender of eight digits or more, for gateways that leave out the "+"'),
});

/** What a gateway tells us by calling us: described rather than programmed. Nothing is believed without a check. */
export const gatewayCallbacksSchema = z.strictObject({
  check: z
    .discriminatedUnion('kind', [tokenCheck, signatureCheck])
    .describe('How a call proves that it comes from the gateway'),
  deliveryReport: deliveryReport.nullable().default(null),
  inbound: inbound.nullable().default(null),
  answer: z
    .strictObject({
      contentType: z.string().default('text/plain').describe('Content type of our answer'),
      body: z.string().default('').describe('Body of our answer'),
    })
    .prefault({}),
});

export type GatewayCallbacks = z.infer<typeof gatewayCallbacksSchema>;
