import { requestHeaderName } from '../../shared/api/constants.ts';
import type { Problem } from '../../shared/api/types.ts';
import { words } from './words.ts';

/** A refusal by the service, ready to be shown: `message` is its detail in plain words. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.detail);
    this.problem = problem;
  }
  /** What is wrong with one field of what was sent, for showing beside it. */
  field(name: string): string | null {
    return this.problem.errors?.find(({ pointer }) => pointer === `#/${name}`)?.detail ?? null;
  }
}

/** Asks the person for their password and shows it to the service; false when they would rather not. */
let askToConfirm: () => Promise<boolean> = async () => false;

/** The screen that can ask for a password says so once; the wall has none and changes nothing. */
export function confirmWith(ask: () => Promise<boolean>): void {
  askToConfirm = ask;
}

/** One call; where the service wants to see first that it is still the same person, that is asked and the call repeated. */
async function request<T>(
  method: string,
  path: string,
  body?: unknown,
  /** Goes on when the page is closed meanwhile. */
  keepalive = false,
): Promise<T> {
  try {
    return await requestOnce<T>(method, path, body, keepalive);
  } catch (error) {
    const wants = error instanceof Refusal && error.problem.code === 'confirm-first';
    if (!wants || !(await askToConfirm())) throw error;
    return requestOnce<T>(method, path, body, keepalive);
  }
}

async function requestOnce<T>(method: string, path: string, body: unknown, keepalive: boolean): Promise<T> {
  const headers: Record<string, string> = { accept: 'application/json' };
  if (method !== 'GET') headers[requestHeaderName] = '1';
  const isBlob = body instanceof Blob;
  if (body !== undefined) headers['content-type'] = isBlob ? body.type : 'application/json';
  let answer: Response;
  try {
    answer = await fetch(path, {
      method,
      headers,
      keepalive,
      ...(body === undefined ? {} : { body: isBlob ? body : JSON.stringify(body) }),
    });
  } catch {
    throw new Refusal(problemOf(0, words.noServiceHint));
  }
  const parsed: unknown = await answer.json().catch(() => null);
  if (answer.ok) return parsed as T;
  const known = typeof parsed === 'object' && parsed !== null && 'detail' in parsed;
  throw new Refusal(known ? (parsed as Problem) : problemOf(answer.status, words.answered(answer.status)));
}

function problemOf(status: number, detail: string): Problem {
  return { type: 'about:blank', title: 'failed', status, detail, code: 'failed' };
}

export const api = {
  get: <T>(path: string) => request<T>('GET', path),
  post: <T>(path: string, body?: unknown, keepalive = false) => request<T>('POST', path, body, keepalive),
  put: <T>(path: string, body: unknown) => request<T>('PUT', path, body),
  patch: <T>(path: string, body: unknown) => request<T>('PATCH', path, body),
  remove: <T>(path: string) => request<T>('DELETE', path),
};
