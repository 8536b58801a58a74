import type { FastifyRequest } from 'fastify';
import { requestHeaderName } from '../../../shared/api/constants.ts';
import { ApiProblem } from '../problems/apiProblem.ts';

const readingMethods = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Cross-site request forgery defence for calls that change something, three independent layers (OWASP CSRF sheet):
 * our own header, which another site's page cannot set without a preflight we never answer; the browser's own word on
 * where the call comes from (`Sec-Fetch-Site`); and the Origin. SameSite cookies are the fourth.
 * The answer page of a text (`/a/...`) is outside: no cookie gives it any power, only the secret in its address.
 */
export function refuseCrossSite(request: FastifyRequest, publicUrl: string): void {
  if (readingMethods.has(request.method) || !request.url.startsWith('/api/')) return;
  if (request.headers[requestHeaderName] === undefined) {
    throw new ApiProblem('cross-site', `The header ${requestHeaderName} is missing.`);
  }
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin') {
    throw new ApiProblem('cross-site', `The browser says the call comes from elsewhere (${String(site)}).`);
  }
  const { origin } = request.headers;
  if (origin !== undefined && !isOwnOrigin(origin, request.headers.host, publicUrl)) {
    throw new ApiProblem('cross-site', 'The page this call comes from is not one of this program’s.');
  }
}

/** The address people are told, or the very host the call went to (a phone on the yard's network by its number). */
function isOwnOrigin(origin: string, host: string | undefined, publicUrl: string): boolean {
  const parsed = URL.parse(origin);
  if (parsed === null) return false;
  return parsed.origin === URL.parse(publicUrl)?.origin || (host !== undefined && parsed.host === host);
}
