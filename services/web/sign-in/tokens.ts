import { createHash, randomBytes } from 'node:crypto';

/** A new secret for a link, a session or a probe: 256 random bits, 43 characters that survive addresses and typing. */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}

/**
 * What is stored instead of a token. A plain SHA-256 is enough because tokens are random; only passwords, which people
 * choose, need a slow hash.
 */
export function hashToken(token: string): string {
  return createHash('sha256').update(token, 'utf8').digest('hex');
}
