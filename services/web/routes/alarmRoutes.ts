import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Alarm, AlarmEvent } from '../../../shared/alarms/alarm.ts';
import {
  alarmListSchema,
  alarmSchema,
  alarmTransitionSchema,
  outOfServiceSchema,
  shelveSchema,
} from '../../../shared/api/alarms.ts';
import { idSchema, limitQuerySchema } from '../../../shared/api/common.ts';
import type { AlarmAction, AlarmView } from '../../../shared/api/types.ts';
import { personOf, yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { alarmViewer, byPressingness, roleForAction, transitionView } from '../views/alarmView.ts';
import { peopleNames } from '../views/names.ts';
import { answers } from './answers.ts';
import { findAlarm, roleOf } from './find.ts';

const paramsSchema = z.object({ alarmId: idSchema });
const listQuerySchema = z.strictObject({
  standing: z.enum(['true', 'false']).default('true').describe('false: also alarms that are normal now'),
});

/** Alarms, and what people do to them. Every action goes through rules, which know what is possible now. */
export function alarmRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/alarms',
    config: { access: 'viewer' },
    schema: { querystring: listQuerySchema, response: answers(alarmListSchema) },
    handler: async (request) => {
      const yardId = yardIdOf(request);
      const standingOnly = request.query.standing === 'true';
      const alarms = await house.records.alarms.list(yardId, { standingOnly });
      const view = await alarmViewer(house, yardId, roleOf(request));
      return { nowMs: house.clock.nowMs(), alarms: await Promise.all(alarms.sort(byPressingness).map(view)) };
    },
  });

  app.route({
    method: 'GET',
    url: '/api/alarms/:alarmId',
    config: { access: 'viewer' },
    schema: { params: paramsSchema, response: answers(alarmSchema) },
    handler: async (request) =>
      shown(house, request, await findAlarm(house, request, request.params.alarmId)),
  });

  app.route({
    method: 'GET',
    url: '/api/alarms/:alarmId/history',
    config: { access: 'viewer' },
    schema: {
      params: paramsSchema,
      querystring: limitQuerySchema,
      response: answers(z.array(alarmTransitionSchema).readonly()),
    },
    handler: async (request) => {
      const { condition, id, yardId } = await findAlarm(house, request, request.params.alarmId);
      const nameOfPerson = await peopleNames(house, yardId);
      const newest = (await house.records.alarms.transitions(id)).slice(-request.query.limit).reverse();
      return newest.map((step) => transitionView(house, nameOfPerson, { ...step, condition }));
    },
  });

  for (const action of ['acknowledge', 'unshelve', 'return-to-service', 'reset'] as const) {
    app.route({
      method: 'POST',
      url: `/api/alarms/:alarmId/${action}`,
      config: { access: roleForAction[action] },
      schema: { params: paramsSchema, response: answers(alarmSchema) },
      handler: async (request) => act(house, request, request.params.alarmId, { kind: action }),
    });
  }

  app.route({
    method: 'POST',
    url: '/api/alarms/:alarmId/shelve',
    config: { access: roleForAction.shelve },
    schema: { params: paramsSchema, body: shelveSchema, response: answers(alarmSchema) },
    handler: async (request) => {
      const { minutes, reason } = request.body;
      const untilMs = house.clock.nowMs() + minutes * 60_000;
      return act(house, request, request.params.alarmId, { kind: 'shelve', untilMs, reason });
    },
  });

  app.route({
    method: 'POST',
    url: '/api/alarms/:alarmId/take-out-of-service',
    config: { access: roleForAction['take-out-of-service'] },
    schema: { params: paramsSchema, body: outOfServiceSchema, response: answers(alarmSchema) },
    handler: async (request) => {
      const { reason } = request.body;
      return act(house, request, request.params.alarmId, { kind: 'take-out-of-service', reason });
    },
  });
}

/** A person's event without what every one of them carries. */
type Deed =
  | { readonly kind: Exclude<AlarmAction, 'shelve' | 'take-out-of-service'> }
  | { readonly kind: 'shelve'; readonly untilMs: number; readonly reason: string }
  | { readonly kind: 'take-out-of-service'; readonly reason: string };

async function act(house: House, request: FastifyRequest, alarmId: string, deed: Deed): Promise<AlarmView> {
  await findAlarm(house, request, alarmId);
  const event: AlarmEvent = { ...deed, atMs: house.clock.nowMs(), by: personOf(request).id };
  const alarm = await house.rules.act(alarmId, event);
  house.live.announce([{ kind: 'alarm', alarmId, yardId: alarm.yardId }]);
  return shown(house, request, alarm);
}

async function shown(house: House, request: FastifyRequest, alarm: Alarm): Promise<AlarmView> {
  return (await alarmViewer(house, alarm.yardId, roleOf(request)))(alarm);
}
