import type { ZodType } from 'zod';
import { problemSchema } from '../../../shared/api/problem.ts';

const refusal = {
  description: 'Refused: why, in words and by code (RFC 9457)',
  content: { 'application/problem+json': { schema: problemSchema } },
} as const;

/** Response schemas of a route: what it answers when all is well, and the refusal every route shares. */
export function answers<S extends ZodType>(
  schema: S,
): { 200: S; '4xx': typeof refusal; '5xx': typeof refusal } {
  return { 200: schema, '4xx': refusal, '5xx': refusal };
}
