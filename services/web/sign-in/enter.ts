import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Person } from '../../../shared/yard/people.ts';
import type { Asker } from '../access/asker.ts';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { tooEasy } from './commonPasswords.ts';
import { clearCookie, readCookie, setCookie } from './cookies.ts';
import { sessionLongestMs, startSession } from './sessions.ts';
import { hashToken } from './tokens.ts';

/** Signs the browser in: ends the session it came with, starts a new one, and marks the browser as known. */
export async function enter(
  house: House,
  request: FastifyRequest,
  reply: FastifyReply,
  person: Person,
): Promise<Asker> {
  const secure = house.secureCookies;
  await endOwnSession(house, request);
  const token = await startSession(house.records, person.id, house.realClock.nowMs());
  setCookie(reply, 'session', token, { secure, seconds: sessionLongestMs / 1000 });
  const mark = readCookie(request, 'known', secure);
  const isKnown = house.knownBrowsers.check(mark, person.login) !== null;
  if (!isKnown) setCookie(reply, 'known', house.knownBrowsers.mark(person.login), { secure });
  return { kind: 'person', person, sessionHash: hashToken(token) };
}

/** Signs the browser out; its event streams end too. */
export async function leave(house: House, request: FastifyRequest, reply: FastifyReply): Promise<void> {
  await endOwnSession(house, request);
  clearCookie(reply, 'session', house.secureCookies);
  await house.live.recheck();
}

async function endOwnSession(house: House, request: FastifyRequest): Promise<void> {
  const token = readCookie(request, 'session', house.secureCookies);
  if (token !== undefined) await house.records.sessions.end(hashToken(token));
}

/** Refuses a password that is too easy to guess, naming the field but never the password. */
export async function checkNewPassword(
  house: House,
  password: string,
  aboutThem: readonly string[],
  field: string,
): Promise<void> {
  const yards = await house.records.yards.list();
  const allowed = tooEasy(password, [...aboutThem, ...yards.map((yard) => yard.name)]);
  if (allowed === null) return;
  const detail = `${field.split('/').pop()} is too easy to guess; allowed: ${allowed}`;
  throw new ApiProblem('bad-request', detail, { errors: [{ detail, pointer: `#/${field}` }] });
}
