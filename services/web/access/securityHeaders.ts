import type { FastifyInstance } from 'fastify';
import type { House } from '../house.ts';

/**
 * Only our own files, nothing inline, nothing framed. Screens set styles through the element's style object, which
 * this policy allows; charts draw on canvas.
 */
export const screensPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Headers every answer carries; a handler may set a stricter policy or longer caching before. */
export function sendSecurityHeaders(app: FastifyInstance, house: House): void {
  const overTls = house.secureCookies;
  app.addHook('onSend', async (request, reply) => {
    reply.header('x-request-id', request.id);
    setUnlessSet('content-security-policy', screensPolicy);
    setUnlessSet('cache-control', 'no-store');
    reply.header('x-content-type-options', 'nosniff');
    reply.header('referrer-policy', 'no-referrer');
    reply.header('x-frame-options', 'DENY');
    reply.header('cross-origin-opener-policy', 'same-origin');
    reply.header('cross-origin-resource-policy', 'same-origin');
    reply.header('permissions-policy', 'camera=(self), geolocation=(), microphone=()');
    if (overTls) reply.header('strict-transport-security', 'max-age=31536000');

    function setUnlessSet(name: string, value: string): void {
      if (!reply.hasHeader(name)) reply.header(name, value);
    }
  });
}
