import { z } from 'zod';
import { doneSchema, idSchema } from '../../../shared/api/common.ts';
import {
  contactWaySchema,
  dutySchema,
  newContactWaySchema,
  saveDutySchema,
} from '../../../shared/api/duty.ts';
import type { DutyView } from '../../../shared/api/types.ts';
import { roundsFor } from '../../../shared/messages/plan.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { ContactWay, DutyPlanVersion } from '../../records/port.ts';
import { personOf } from '../access/asker.ts';
import { requireConfirmed } from '../access/confirmed.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { badField, notFound } from '../problems/apiProblem.ts';
import { peopleNames } from '../views/names.ts';
import { answers } from './answers.ts';
import { findYard } from './find.ts';

const personParams = z.object({ personId: idSchema });
const wayParams = z.object({ wayId: idSchema });

/** Who is told, when, and by which ways beside the phone. */
export function dutyRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/duty',
    config: { access: 'viewer' },
    schema: { summary: 'The duty plan, and who is on duty now', response: answers(dutySchema) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      return dutyView(house, yard, await house.records.duty.current(yard.id));
    },
  });

  app.route({
    method: 'PUT',
    url: '/api/duty',
    config: { access: 'owner' },
    schema: { body: saveDutySchema, response: answers(dutySchema) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      const { plan, expectedVersion } = request.body;
      await refuseStrangers(house, yard, plan);
      const { id: by } = personOf(request);
      const change = { yardId: yard.id, plan, by, savedMs: house.clock.nowMs(), expectedVersion };
      const saved = await house.records.duty.save(change);
      await audit(house, request, { action: 'changed the duty plan', target: `version ${saved.version}` });
      factsChanged(house);
      house.live.announce([{ kind: 'yard', yardId: yard.id }]);
      return dutyView(house, yard, saved);
    },
  });

  wayRoutes(app, house);
}

function wayRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/contact-ways',
    config: { access: 'owner' },
    schema: { response: answers(z.array(contactWaySchema).readonly()) },
    handler: async (request) => house.records.ways.list((await findYard(house, request)).id),
  });

  app.route({
    method: 'POST',
    url: '/api/people/:personId/contact-ways',
    config: { access: 'owner' },
    schema: { params: personParams, body: newContactWaySchema, response: answers(contactWaySchema) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      const { personId } = request.params;
      const person = await house.records.people.get(personId);
      if (person === null || person.yardId !== yard.id) throw notFound('person', 'personId', personId);
      await requireConfirmed(house, request);
      const way = { ...request.body, personId, createdMs: house.clock.nowMs() };
      const made = await house.records.ways.create(way);
      await audit(house, request, { action: `added a way by ${way.channel}`, target: person.login });
      factsChanged(house);
      return made;
    },
  });

  app.route({
    method: 'DELETE',
    url: '/api/contact-ways/:wayId',
    config: { access: 'owner' },
    schema: { params: wayParams, response: answers(doneSchema) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      const { wayId } = request.params;
      const way = (await house.records.ways.list(yard.id)).find(({ id }) => id === wayId);
      if (way === undefined) throw notFound('way to reach a person', 'wayId', wayId);
      await requireConfirmed(house, request);
      await house.records.ways.remove(wayId);
      await audit(house, request, { action: `removed a way by ${way.channel}`, target: way.personId });
      factsChanged(house);
      return { done: true as const };
    },
  });
}

/** A turn of somebody who is not of this yard would leave its hours to nobody. */
async function refuseStrangers(house: House, yard: Yard, plan: DutyView['plan']): Promise<void> {
  const known = new Set((await house.records.people.list(yard.id)).map(({ id }) => id));
  for (const list of ['shifts', 'away'] as const)
    for (const [index, { personId }] of plan[list].entries())
      if (!known.has(personId))
        throw badField(`plan.${list}.${index}.personId`, personId, 'a person of this yard');
}

function turnTakers(people: readonly Person[], ways: readonly ContactWay[]): DutyView['people'] {
  const own = (id: string) => ways.some((way) => way.personId === id && way.goneMs === null);
  return people
    .filter(({ disabled }) => !disabled)
    .map(({ id, name, phone, receivesTexts }) => ({
      id,
      name,
      reachable: (phone !== null && receivesTexts) || own(id),
    }));
}

async function dutyView(
  house: House,
  yard: Yard,
  { version, plan, by, savedMs }: DutyPlanVersion,
): Promise<DutyView> {
  const [nameOf, people, ways] = await Promise.all([
    peopleNames(house, yard.id),
    house.records.people.list(yard.id),
    house.records.ways.list(yard.id),
  ]);
  const telling = { people, ways, plan, timeZone: yard.timeZone, nowMs: house.clock.nowMs() };
  const rounds = roundsFor('high', { ...telling, textChannel: house.config.textChannel });
  const onDuty = rounds.map((round) => round.map((id) => nameOf(id) ?? id));
  return { version, plan, by: nameOf(by), savedMs, onDuty, people: turnTakers(people, ways) };
}
