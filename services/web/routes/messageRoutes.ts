import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { doneSchema, limitQuerySchema } from '../../../shared/api/common.ts';
import { messageSchema, testTextSchema } from '../../../shared/api/messages.ts';
import { wordingsOf } from '../../../shared/messages/wordings.ts';
import { fill } from '../../../shared/messages/words/messageWords.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { NewMessage } from '../../records/port.ts';
import { personOf, yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import type { House } from '../house.ts';
import { ApiProblem, badField, notFound } from '../problems/apiProblem.ts';
import { messageView } from '../views/messageView.ts';
import { peopleNames } from '../views/names.ts';
import { answers } from './answers.ts';
import { findYard } from './find.ts';

const testTextGoodForMs = 3_600_000;

/** Messages with their delivery history, and a text to try the gateway with. */
export function messageRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/messages',
    config: { access: 'keeper' },
    schema: { querystring: limitQuerySchema, response: answers(z.array(messageSchema).readonly()) },
    handler: async (request) => {
      const yardId = yardIdOf(request);
      const nameOfPerson = await peopleNames(house, yardId);
      const messages = await house.records.messages.list(yardId, request.query.limit);
      return Promise.all(messages.map((message) => messageView(house, message, nameOfPerson)));
    },
  });

  app.route({
    method: 'POST',
    url: '/api/messages/test',
    config: { access: 'viewer', rateLimit: { max: 5, timeWindow: '5 minutes' } },
    schema: {
      summary: 'Send a test text: to anybody for keepers, else to oneself',
      body: testTextSchema,
      response: answers(doneSchema),
    },
    handler: async (request) => {
      const yard = await findYard(house, request);
      const { personId } = request.body;
      const asker = personOf(request);
      if (asker.role === 'viewer' && asker.id !== personId)
        throw new ApiProblem('not-allowed', 'A viewer may send a test text to themselves only.');
      const person = await house.records.people.get(personId);
      if (person === null || person.yardId !== yard.id) throw notFound('person', 'personId', personId);
      if (person.phone === null) throw badField('personId', personId, 'somebody with a phone number');
      const { overrides } = await house.records.wordings.current(yard.id);
      const template = wordingsOf(overrides)(person.language).tests.person;
      const text = fill(template, { yard: yard.name, name: person.name });
      const messages = [testText(house, text, person, person.phone)];
      await house.records.alarms.commit({ alarms: [], transitions: [], messages, statuses: [], marks: [] });
      await audit(house, request, { action: 'sent a test text', target: person.login });
      house.notify?.nudge();
      house.live.announce([{ kind: 'messages', yardId: yard.id }]);
      return { done: true as const };
    },
  });
}

function testText(house: House, text: string, person: Person, address: string): NewMessage {
  const nowMs = house.clock.nowMs();
  return {
    yardId: person.yardId,
    pileId: null,
    alarmId: null,
    occurrence: null,
    idempotencyKey: `test ${randomUUID()}`,
    personId: person.id,
    channel: house.config.textChannel,
    address,
    text,
    priority: 'low',
    createdMs: nowMs,
    notBeforeMs: nowMs,
    expiresMs: nowMs + testTextGoodForMs,
    answerLink: null,
    kind: 'test',
  };
}
