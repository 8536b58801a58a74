import {
  firstSetUpSchema,
  linkTokenSchema,
  linkViewSchema,
  sessionSchema,
  setPasswordSchema,
} from '../../../shared/api/session.ts';
import type { FirstSetUp } from '../../../shared/api/types.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { SetupLink } from '../../records/port.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { checkNewPassword, enter } from '../sign-in/enter.ts';
import { hashToken } from '../sign-in/tokens.ts';
import { sessionView } from '../views/sessionView.ts';
import { answers } from './answers.ts';

const config = { access: 'public', rateLimit: { max: 30, timeWindow: '1 minute' } } as const;

/** One-time links: first set-up, choosing a password, the demo's sign-in. Public: the secret in the link is the key. */
export function linkRoutes(app: App, house: House): void {
  app.route({
    method: 'POST',
    url: '/api/links/look',
    config,
    schema: {
      summary: 'What a link is for; does not use it up',
      body: linkTokenSchema,
      response: answers(linkViewSchema),
    },
    handler: async (request) => {
      const link = await peek(house, request.body.token);
      const person = link.personId === null ? null : await house.records.people.get(link.personId);
      const { purpose, expiresMs } = link;
      return { purpose, expiresMs, login: person?.login ?? null, name: person?.name ?? null };
    },
  });

  app.route({
    method: 'POST',
    url: '/api/links/sign-in',
    config,
    schema: { summary: 'Sign in by link', body: linkTokenSchema, response: answers(sessionSchema) },
    handler: async (request, reply) => {
      const person = await personOfLink(house, await peek(house, request.body.token, 'sign-in'));
      await take(house, request.body.token);
      return sessionView(house, await enter(house, request, reply, person));
    },
  });

  app.route({
    method: 'POST',
    url: '/api/links/set-password',
    config,
    schema: { summary: 'Choose a password', body: setPasswordSchema, response: answers(sessionSchema) },
    handler: async (request, reply) => {
      const { token, password } = request.body;
      const person = await personOfLink(house, await peek(house, token, 'set-password'));
      await checkNewPassword(house, password, [person.login, person.name], 'password');
      await take(house, token);
      await setPassword(house, person, password);
      return sessionView(house, await enter(house, request, reply, person));
    },
  });

  app.route({
    method: 'POST',
    url: '/api/links/first-set-up',
    config,
    schema: { summary: 'First owner and yard', body: firstSetUpSchema, response: answers(sessionSchema) },
    handler: async (request, reply) => {
      const { token, person, yard } = request.body;
      await peek(house, token, 'first-setup');
      await checkNewPassword(
        house,
        person.password,
        [person.login, person.name, yard.name],
        'person/password',
      );
      await take(house, token);
      const owner = await createFirstOwner(house, request.body);
      return sessionView(house, await enter(house, request, reply, owner));
    },
  });
}

const unusable = 'It works once and for a limited time. Ask the owner of the yard for a new one.';

/** Everything is checked against the link before it is taken, so that a refused password does not use it up. */
async function peek(house: House, token: string, purpose?: SetupLink['purpose']): Promise<SetupLink> {
  const link = await house.records.setupLinks.peek(hashToken(token), house.realClock.nowMs());
  if (link === null || (purpose !== undefined && link.purpose !== purpose)) {
    throw new ApiProblem('wrong-link', unusable);
  }
  return link;
}

/** Of two who use a link at once the records let one through. */
async function take(house: House, token: string): Promise<void> {
  const link = await house.records.setupLinks.use(hashToken(token), house.realClock.nowMs());
  if (link === null) throw new ApiProblem('wrong-link', unusable);
}

async function personOfLink(house: House, link: SetupLink): Promise<Person> {
  const person = link.personId === null ? null : await house.records.people.get(link.personId);
  if (person === null || person.disabled) throw new ApiProblem('wrong-link', unusable);
  return person;
}

async function setPassword(house: House, person: Person, password: string): Promise<void> {
  await house.records.people.setPassword(person.id, await house.passwords.hash(password));
  await house.records.sessions.endAllOf(person.id);
  await house.live.recheck();
  await house.records.audit.add({
    yardId: person.yardId,
    atMs: house.clock.nowMs(),
    by: person.id,
    role: person.role,
    action: 'chose a password by link',
    target: person.login,
    detail: '',
  });
}

/** A yard that is there already (from the demo or an import) takes the names given; else it is made. */
async function createFirstOwner(house: House, setUp: FirstSetUp): Promise<Person> {
  const { people, yards } = house.records;
  if ((await people.count()) > 0) throw new ApiProblem('wrong-link', 'This yard is set up already.');
  const passwordHash = await house.passwords.hash(setUp.person.password);
  const [existing] = await yards.list();
  const yard =
    existing === undefined ? await yards.create(setUp.yard) : await yards.update(existing.id, setUp.yard);
  const { login, name } = setUp.person;
  const owner = { yardId: yard.id, login, name, role: 'owner', phone: null, disabled: false } as const;
  const person = await people.create({ ...owner, receivesTexts: false, textsFrom: 'low' }, passwordHash);
  await house.records.audit.add({
    yardId: yard.id,
    atMs: house.clock.nowMs(),
    by: person.id,
    role: 'owner',
    action: 'set up the yard',
    target: yard.name,
    detail: `first owner ${login}`,
  });
  return person;
}
