import { createHash, randomBytes } from 'node:crypto';

/** Token of an answer link: 96 random bits in 16 characters, so that the text stays within one segment. */
export function newAnswerToken(): string {
  return randomBytes(12).toString('base64url');
}

/** What is stored of it: SHA-256 in hex, the one form the answer page looks up. */
export function hashAnswerToken(token: string): string {
  return createHash('sha256').update(token, 'utf8').digest('hex');
}
