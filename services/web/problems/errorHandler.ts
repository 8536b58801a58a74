import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import type { Problem, ProblemCode } from '../../../shared/api/types.ts';
import { isDatabaseAway, RecordsError, VersionConflict } from '../../records/port.ts';
import { ApiProblem, problemCatalogue } from './apiProblem.ts';
import { describeIssue, type Issue } from './describeIssue.ts';

/** Turns whatever was thrown into problem+json (RFC 9457). Faults of ours are logged and not told in detail. */
export function handleError(error: unknown, request: FastifyRequest, reply: FastifyReply): void {
  const problem = asProblem(error, request);
  const isOurs = problem.code === 'failed';
  if (isOurs) request.log.error({ err: error }, 'request failed');
  const { status, title } = problemCatalogue[problem.code];
  const body: Problem = {
    type: 'about:blank',
    title,
    status,
    detail: isOurs ? `${problem.message} It is about request ${request.id}.` : problem.message,
    code: problem.code,
    ...(problem.errors.length > 0 ? { errors: problem.errors } : {}),
    ...(problem.retryAfterSeconds === null ? {} : { retryAfterSeconds: problem.retryAfterSeconds }),
  };
  if (problem.retryAfterSeconds !== null) reply.header('retry-after', String(problem.retryAfterSeconds));
  reply
    .code(status)
    .type('application/problem+json')
    .serializer((value: unknown) => JSON.stringify(value))
    .send(body);
}

function asProblem(error: unknown, request: FastifyRequest): ApiProblem {
  if (error instanceof ApiProblem) return error;
  if (hasZodFastifySchemaValidationErrors(error)) return asValidationProblem(error, request);
  // By name, because a record store may run behind another copy of the module.
  if (error instanceof VersionConflict || nameOf(error) === 'VersionConflict') {
    return new ApiProblem('changed-meanwhile', 'Fetch it again, look at what is new, and repeat the change.');
  }
  if (error instanceof RecordsError || nameOf(error) === 'RecordsError') {
    const { field, message } = error as RecordsError;
    return new ApiProblem('conflict', message, { errors: [{ detail: message, pointer: `#/${field}` }] });
  }
  if (['JudgementAway', 'SendersAway'].includes(nameOf(error) ?? ''))
    return new ApiProblem('not-ready', (error as Error).message, { retryAfterSeconds: 15 });
  // InfluxDB is asked for what is no longer here and cannot answer: half the past would look like all of it.
  if (nameOf(error) === 'ArchiveFault') return new ApiProblem('not-ready', (error as Error).message);
  if (isDatabaseAway(error)) {
    request.log.warn({ err: error }, 'the database does not answer');
    return new ApiProblem('not-ready', databaseAwayText, { retryAfterSeconds: 15 });
  }
  return asFrameworkProblem(error as FastifyError);
}

const databaseAwayText =
  'The database of this yard does not answer just now. Try again in a minute; npm run doctor says what is wrong.';

function asValidationProblem(
  error: { readonly validation: readonly unknown[]; readonly validationContext?: string | undefined },
  request: FastifyRequest,
): ApiProblem {
  const input = partOf(request, error.validationContext);
  const errors = (error.validation as Issue[]).map((issue) => describeIssue(issue, input));
  return new ApiProblem('bad-request', errors.map((one) => one.detail).join('. '), { errors });
}

function partOf(request: FastifyRequest, context: string | undefined): unknown {
  if (context === 'querystring') return request.query;
  if (context === 'params') return request.params;
  return request.body;
}

const codeOfStatus: Readonly<Record<number, ProblemCode>> = {
  400: 'bad-request',
  404: 'not-found',
  413: 'too-large',
  415: 'unsupported-media-type',
  429: 'too-many-tries',
  503: 'not-ready',
};

/** Fastify's and its plugins' own refusals: a body that is no JSON, too large, too many calls. */
function asFrameworkProblem(error: FastifyError): ApiProblem {
  const code = codeOfStatus[error.statusCode ?? 500];
  if (code === undefined) return new ApiProblem('failed', 'Look into the log of the service for the cause.');
  return code === 'too-many-tries'
    ? new ApiProblem(code, error.message, { retryAfterSeconds: 60 })
    : new ApiProblem(code, error.message);
}

function nameOf(error: unknown): string | undefined {
  return error instanceof Error ? error.name : undefined;
}
