import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { doneSchema, idSchema } from '../../../shared/api/common.ts';
import {
  handOverLinkSchema,
  newPersonSchema,
  personChangeSchema,
  personSchema,
} from '../../../shared/api/people.ts';
import type { PersonChange, PersonView } from '../../../shared/api/types.ts';
import type { Person } from '../../../shared/yard/people.ts';
import { yardIdOf } from '../access/asker.ts';
import { requireConfirmed } from '../access/confirmed.ts';
import type { App } from '../app.ts';
import { audit, changesInWords } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { ApiProblem, badField, notFound } from '../problems/apiProblem.ts';
import { makeLink } from '../sign-in/links.ts';
import { answers } from './answers.ts';
import { defined } from './yardRoutes.ts';

const paramsSchema = z.object({ personId: idSchema });

/** People of the yard. An owner makes accounts and links, and never learns or chooses a password (ASVS 6.4.6). */
export function peopleRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/people',
    config: { access: 'owner' },
    schema: { response: answers(z.array(personSchema).readonly()) },
    handler: async (request) => (await house.records.people.list(yardIdOf(request))).map(personView),
  });

  app.route({
    method: 'POST',
    url: '/api/people',
    config: { access: 'owner' },
    schema: { body: newPersonSchema, response: answers(personSchema) },
    handler: async (request) => {
      const { login, phone, receivesTexts } = request.body;
      await requireConfirmed(house, request);
      refuseTextsWithoutPhone(phone, receivesTexts);
      if ((await house.records.people.byLogin(login)) !== null) throw loginTaken(login);
      const yardId = yardIdOf(request);
      const person = await house.records.people.create({ ...request.body, yardId, disabled: false }, null);
      await audit(house, request, { action: 'added a person', target: login, detail: `role ${person.role}` });
      factsChanged(house);
      house.live.announce([{ kind: 'people', yardId: person.yardId }]);
      return personView(person);
    },
  });

  app.route({
    method: 'PATCH',
    url: '/api/people/:personId',
    config: { access: 'owner' },
    schema: { params: paramsSchema, body: personChangeSchema, response: answers(personSchema) },
    handler: async (request) => {
      const before = await findPerson(house, request, request.params.personId);
      const change = defined(request.body);
      const after = { ...before, ...change };
      refuseTextsWithoutPhone(after.phone, after.receivesTexts);
      if (changesAccess(before, after)) await requireConfirmed(house, request);
      await keepAnOwner(house, before, request.body);
      const person = await house.records.people.update(before.id, change);
      if (person.disabled) await house.records.sessions.endAllOf(person.id);
      await audit(house, request, {
        action: 'changed a person',
        target: person.login,
        detail: changesInWords(before, change),
      });
      await house.live.recheck();
      factsChanged(house);
      house.live.announce([{ kind: 'people', yardId: person.yardId }]);
      return personView(person);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/people/:personId/password-link',
    config: { access: 'owner' },
    schema: {
      summary: 'One-time link by which this person chooses a password',
      params: paramsSchema,
      response: answers(handOverLinkSchema),
    },
    handler: async (request) => {
      const person = await findPerson(house, request, request.params.personId);
      await requireConfirmed(house, request);
      if (person.disabled) throw new ApiProblem('conflict', `${person.name} is disabled: enable them first.`);
      const link = await makeLink(
        house.records,
        'set-password',
        person.id,
        house.realClock.nowMs(),
        house.publicUrl(),
      );
      await audit(house, request, { action: 'made a password link', target: person.login });
      return link;
    },
  });

  app.route({
    method: 'POST',
    url: '/api/people/:personId/sign-out',
    config: { access: 'owner' },
    schema: { summary: 'End all sessions of a person', params: paramsSchema, response: answers(doneSchema) },
    handler: async (request) => {
      const person = await findPerson(house, request, request.params.personId);
      await house.records.sessions.endAllOf(person.id);
      await house.live.recheck();
      await audit(house, request, { action: 'signed a person out', target: person.login });
      return { done: true as const };
    },
  });
}

async function findPerson(house: House, request: FastifyRequest, personId: string): Promise<Person> {
  const person = await house.records.people.get(personId);
  if (person === null || person.yardId !== yardIdOf(request)) throw notFound('person', 'personId', personId);
  return person;
}

/** Where alarms go and who may change things; shutting somebody out must never wait for a password. */
function changesAccess(before: Person, after: Person): boolean {
  return (
    before.phone !== after.phone ||
    before.role !== after.role ||
    (before.disabled && after.disabled === false)
  );
}

/** The last owner who may sign in cannot be disabled or demoted: nobody could undo it. */
async function keepAnOwner(house: House, before: Person, change: PersonChange): Promise<void> {
  const staysOwner = (change.role ?? before.role) === 'owner' && !(change.disabled ?? before.disabled);
  if (staysOwner || before.role !== 'owner' || before.disabled) return;
  const people = await house.records.people.list(before.yardId);
  const others = people.filter(({ id, role, disabled }) => id !== before.id && role === 'owner' && !disabled);
  if (others.length === 0) {
    throw new ApiProblem('conflict', `${before.name} is the last owner: make somebody else an owner first.`);
  }
}

function refuseTextsWithoutPhone(phone: string | null, receivesTexts: boolean): void {
  if (receivesTexts && phone === null)
    throw badField('phone', null, 'a number, when texts are to be received');
}

function loginTaken(login: string): ApiProblem {
  const detail = `login is "${login}"; allowed: a name nobody here has`;
  return new ApiProblem('conflict', detail, { errors: [{ detail, pointer: '#/login' }] });
}

function personView({ yardId: _, ...person }: Person): PersonView {
  return person;
}
