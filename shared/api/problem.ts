import { z } from 'zod';

/** One thing wrong with what was sent: which field (JSON Pointer, RFC 6901), what it held and what is allowed. */
export const problemFieldSchema = z.object({
  detail: z.string(),
  pointer: z
    .string()
    .describe('JSON Pointer into the body, e.g. #/name; query and path fields as #/name too'),
});
export type ProblemField = z.infer<typeof problemFieldSchema>;

/** Every code the API answers with when it refuses; stable, for programs. `title` says the same in words. */
export const problemCodes = [
  'bad-request',
  'not-signed-in',
  'wrong-sign-in',
  'wrong-password',
  'confirm-first',
  'wrong-link',
  'not-allowed',
  'cross-site',
  'not-found',
  'conflict',
  'changed-meanwhile',
  'too-large',
  'too-many-tries',
  'too-many-screens',
  'unsupported-media-type',
  'not-ready',
  'failed',
] as const;
export type ProblemCode = (typeof problemCodes)[number];

/** Body of every refusal: `application/problem+json` (RFC 9457), with `code` and `errors` as extension members. */
export const problemSchema = z.object({
  type: z.string().describe('about:blank: title and code say it all'),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  code: z.enum(problemCodes),
  errors: z.array(problemFieldSchema).readonly().optional(),
  retryAfterSeconds: z.int().optional(),
});
export type Problem = z.infer<typeof problemSchema>;
