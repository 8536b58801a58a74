import type { FastifyReply, FastifyRequest } from 'fastify';

/**
 * Over HTTPS cookies are named `__Host-...`, which browsers accept only with Secure, Path=/ and no Domain: a neighbour
 * host or a plain-HTTP page cannot plant them. Over plain HTTP, Chromium (tried: 156) keeps a Secure
 * cookie from localhost and 127.0.0.1 and drops it from any other host name; other browsers differ even on loopback. So
 * there plain names without Secure are used, rather than a sign-in that works at one address and silently not at the
 * next. HttpOnly and SameSite stay.
 */
export const cookieNames = ['session', 'wall', 'known'] as const;
export type CookieName = (typeof cookieNames)[number];

/** Longest life browsers grant a cookie (400 days); the server's own limits are shorter. */
const longestSeconds = 400 * 86_400;

/**
 * `Strict` would drop the session when a link in a text or a mail opens the app, showing sign-in to someone signed in;
 * `Lax` sends it for such top-level GETs only, and no GET changes anything.
 */
const base = { path: '/', httpOnly: true, sameSite: 'lax' } as const;

export function fullCookieName(name: CookieName, secure: boolean): string {
  return secure ? `__Host-tilth-${name}` : `tilth-${name}`;
}

export function readCookie(request: FastifyRequest, name: CookieName, secure: boolean): string | undefined {
  return request.cookies[fullCookieName(name, secure)];
}

export function setCookie(
  reply: FastifyReply,
  name: CookieName,
  value: string,
  options: { readonly secure: boolean; readonly seconds?: number },
): void {
  reply.setCookie(fullCookieName(name, options.secure), value, {
    ...base,
    secure: options.secure,
    maxAge: options.seconds ?? longestSeconds,
  });
}

export function clearCookie(reply: FastifyReply, name: CookieName, secure: boolean): void {
  reply.clearCookie(fullCookieName(name, secure), { ...base, secure });
}
