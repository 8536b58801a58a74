import type { FastifyReply, FastifyRequest } from 'fastify';
import { doneSchema } from '../../../shared/api/common.ts';
import {
  changePasswordSchema,
  confirmSchema,
  sessionSchema,
  signInSchema,
} from '../../../shared/api/session.ts';
import type { SignIn } from '../../../shared/api/types.ts';
import type { Person } from '../../../shared/yard/people.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { clearCookie, readCookie, setCookie } from '../sign-in/cookies.ts';
import { checkNewPassword, enter, leave } from '../sign-in/enter.ts';
import type { SignInAttempt } from '../sign-in/signInThrottle.ts';
import { sessionView } from '../views/sessionView.ts';
import { answers } from './answers.ts';

/** Signing in and out. */
export function sessionRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/session',
    config: { access: 'public' },
    schema: { summary: 'Who is asking', response: answers(sessionSchema) },
    handler: async (request, reply) => {
      keepWallCookie(house, request, reply);
      return sessionView(house, request.asker);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/session',
    config: { access: 'public' },
    schema: { summary: 'Sign in', body: signInSchema, response: answers(sessionSchema) },
    handler: async (request, reply) => {
      const person = await checkSignIn(house, request, request.body);
      return sessionView(house, await enter(house, request, reply, person));
    },
  });

  app.route({
    method: 'DELETE',
    url: '/api/session',
    config: { access: 'public' },
    schema: { summary: 'Sign out', response: answers(doneSchema) },
    handler: async (request, reply) => {
      await leave(house, request, reply);
      clearCookie(reply, 'wall', house.secureCookies);
      return { done: true as const };
    },
  });

  app.route({
    method: 'POST',
    url: '/api/session/confirm',
    config: { access: 'viewer', rateLimit: { max: 10, timeWindow: '5 minutes' } },
    schema: { summary: 'Show own password again', body: confirmSchema, response: answers(doneSchema) },
    handler: async (request) => {
      const person = personOf(request);
      await refuseWrongPassword(house, person, request.body.password);
      if (request.asker.kind === 'person')
        await house.records.sessions.confirm(request.asker.sessionHash, house.realClock.nowMs());
      return { done: true as const };
    },
  });

  app.route({
    method: 'POST',
    url: '/api/session/password',
    config: { access: 'viewer', rateLimit: { max: 10, timeWindow: '5 minutes' } },
    schema: { summary: 'Change own password', body: changePasswordSchema, response: answers(doneSchema) },
    handler: async (request, reply) => {
      const person = personOf(request);
      const { currentPassword, newPassword } = request.body;
      await refuseWrongPassword(house, person, currentPassword);
      await checkNewPassword(house, newPassword, [person.login, person.name], 'newPassword');
      await house.records.people.setPassword(person.id, await house.passwords.hash(newPassword));
      await house.records.sessions.endAllOf(person.id);
      await enter(house, request, reply, person);
      await audit(house, request, { action: 'changed own password', target: person.login });
      await house.live.recheck();
      return { done: true as const };
    },
  });
}

async function refuseWrongPassword(house: House, person: Person, password: string): Promise<void> {
  const stored = await house.records.people.passwordHash(person.id);
  if (await house.passwords.verify(password, stored)) return;
  throw new ApiProblem('wrong-password', 'The current password is not right; nothing was changed.');
}

/** Browsers forget a cookie after 400 days at the latest; a wall runs longer. */
function keepWallCookie(house: House, request: FastifyRequest, reply: FastifyReply): void {
  const key = readCookie(request, 'wall', house.secureCookies);
  if (request.asker.kind === 'wall' && key !== undefined) {
    setCookie(reply, 'wall', key, { secure: house.secureCookies });
  }
}

/**
 * The person, when name and password are right. The answer is the same, and takes as long, whether the account is
 * unknown, disabled, has no password yet or the password is wrong (ASVS 6.3.8).
 */
async function checkSignIn(house: House, request: FastifyRequest, body: SignIn): Promise<Person> {
  const login = body.login.trim().toLowerCase();
  const mark = readCookie(request, 'known', house.secureCookies);
  const knownBrowser = house.knownBrowsers.check(mark, login);
  const attempt: SignInAttempt = { login, address: request.ip, knownBrowser };
  countTry(house, attempt);
  const found = await house.records.people.byLogin(login);
  const person = found === null || found.disabled ? null : found;
  const stored = person === null ? null : await house.records.people.passwordHash(person.id);
  const isRight = await house.passwords.verify(body.password, stored);
  if (!isRight || person === null || stored === null) {
    throw new ApiProblem('wrong-sign-in', 'Check both, and that capitals are not locked, and try again.');
  }
  house.throttle.succeeded(attempt);
  if (house.passwords.isOutdated(stored)) {
    await house.records.people.setPassword(person.id, await house.passwords.hash(body.password));
  }
  return person;
}

function countTry(house: House, attempt: SignInAttempt): void {
  const nowMs = house.realClock.nowMs();
  const seconds = house.throttle.waitSeconds(attempt, nowMs);
  if (seconds > 0) {
    const detail = `Too many wrong tries. Try again in ${seconds} s.`;
    throw new ApiProblem('too-many-tries', detail, { retryAfterSeconds: seconds });
  }
  house.throttle.failed(attempt, nowMs);
}
