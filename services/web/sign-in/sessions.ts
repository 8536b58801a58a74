import type { Person } from '../../../shared/yard/people.ts';
import type { Records, Session } from '../../records/port.ts';
import { hashToken, newToken } from './tokens.ts';

const dayMs = 86_400_000;
/**
 * Longer than a bank's: the phone in a grower's pocket must open at six in the morning without a password, and what a
 * thief could do is bounded (ASVS 7.3 asks that the risk be weighed and the limits be enforced here, not in the cookie).
 */
export const sessionIdleMs = 14 * dayMs;
export const sessionLongestMs = 90 * dayMs;
/** A write per request would wear out a memory card. */
const touchEveryMs = 10 * 60_000;

/** Starts a session with a new token (never one the browser brought); returns the token for the cookie. */
export async function startSession(records: Records, personId: string, nowMs: number): Promise<string> {
  const token = newToken();
  await records.sessions.create({
    tokenHash: hashToken(token),
    personId,
    createdMs: nowMs,
    lastUsedMs: nowMs,
    expiresMs: nowMs + sessionLongestMs,
  });
  return token;
}

/** The person behind a session token, or null when it is unknown, too old, idle too long or the person is disabled. */
export async function personOfSession(
  records: Records,
  tokenHash: string,
  nowMs: number,
): Promise<Person | null> {
  const session = await records.sessions.get(tokenHash);
  if (session === null) return null;
  if (isOver(session, nowMs)) {
    await records.sessions.end(tokenHash);
    return null;
  }
  const person = await records.people.get(session.personId);
  if (person === null || person.disabled) return null;
  if (nowMs - session.lastUsedMs > touchEveryMs) await records.sessions.touch(tokenHash, nowMs);
  return person;
}

function isOver(session: Session, nowMs: number): boolean {
  return nowMs >= session.expiresMs || nowMs - session.lastUsedMs >= sessionIdleMs;
}
