import type { ProblemCode, ProblemField } from '../../../shared/api/types.ts';

/** Status and title of every code the API refuses with. Titles never change with the case; `detail` does. */
export const problemCatalogue: Readonly<
  Record<ProblemCode, { readonly status: number; readonly title: string }>
> = {
  'bad-request': { status: 400, title: 'Something in the request is not as it should be' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'wrong-sign-in': { status: 401, title: 'Name or password is not right' },
  'wrong-password': { status: 403, title: 'The current password is not right' },
  'confirm-first': { status: 403, title: 'Show first that it is you' },
  'wrong-link': { status: 410, title: 'This link is unknown, used or too old' },
  'not-allowed': { status: 403, title: 'Your role does not allow this' },
  'cross-site': { status: 403, title: 'The request did not come from this program’s own pages' },
  'not-found': { status: 404, title: 'There is no such thing' },
  conflict: { status: 409, title: 'It does not fit with what is there' },
  'changed-meanwhile': { status: 409, title: 'Somebody changed it meanwhile' },
  'too-large': { status: 413, title: 'The request is too large' },
  'unsupported-media-type': { status: 415, title: 'The request must be JSON' },
  'too-many-tries': { status: 429, title: 'Too many tries: wait a little' },
  'too-many-screens': { status: 429, title: 'Too many screens are open' },
  'not-ready': { status: 503, title: 'Not ready just now' },
  failed: { status: 500, title: 'The service failed; nothing was changed unless it says so' },
};

/** A refusal with a code of the catalogue; the error handler turns it into problem+json. */
export class ApiProblem extends Error {
  override readonly name = 'ApiProblem';
  readonly code: ProblemCode;
  readonly errors: readonly ProblemField[];
  readonly retryAfterSeconds: number | null;

  constructor(
    code: ProblemCode,
    detail: string,
    more: { readonly errors?: readonly ProblemField[]; readonly retryAfterSeconds?: number } = {},
  ) {
    super(detail);
    this.code = code;
    this.errors = more.errors ?? [];
    this.retryAfterSeconds = more.retryAfterSeconds ?? null;
  }
}

/** "No such pile", naming the id that was asked for. */
export function notFound(what: string, field: string, id: string): ApiProblem {
  const detail = `There is no ${what} with the id "${id}" in this yard.`;
  return new ApiProblem('not-found', detail, { errors: [{ detail, pointer: `#/${field}` }] });
}

/** One field is wrong: names it, its value and what is allowed. */
export function badField(field: string, value: unknown, allowed: string): ApiProblem {
  const detail = `${field} is ${JSON.stringify(value)}; allowed: ${allowed}`;
  return new ApiProblem('bad-request', detail, {
    errors: [{ detail, pointer: `#/${field.replaceAll('.', '/')}` }],
  });
}
