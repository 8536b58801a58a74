import type { FastifyRequest } from 'fastify';
import type { House } from '../house.ts';
import { readCookie } from '../sign-in/cookies.ts';
import { personOfSession } from '../sign-in/sessions.ts';
import { hashToken } from '../sign-in/tokens.ts';
import type { Asker } from './asker.ts';

/** Finds out who is asking, from the cookies; a signed-in person goes before a wall link in the same browser. */
export async function findAsker(house: House, request: FastifyRequest): Promise<Asker> {
  const session = readCookie(request, 'session', house.secureCookies);
  if (session !== undefined) {
    const asker = await askerOfSession(house, hashToken(session));
    if (asker.kind !== 'none') return asker;
  }
  const key = readCookie(request, 'wall', house.secureCookies);
  return key === undefined ? { kind: 'none' } : await askerOfWallKey(house, hashToken(key));
}

/** Looks the session up anew: an open event stream asks this again and again. */
export async function askerOfSession(house: House, sessionHash: string): Promise<Asker> {
  const person = await personOfSession(house.records, sessionHash, house.realClock.nowMs());
  return person === null ? { kind: 'none' } : { kind: 'person', person, sessionHash };
}

export async function askerOfWallKey(house: House, keyHash: string): Promise<Asker> {
  const link = await house.records.wallLinks.byToken(keyHash);
  return link === null || link.revokedMs !== null ? { kind: 'none' } : { kind: 'wall', link };
}
