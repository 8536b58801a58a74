import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Alarm, AlarmEvent } from '../../../shared/alarms/alarm.ts';
import { lifecycleTable } from '../../../shared/alarms/lifecycleTable.ts';
import {
  acknowledgeSchema,
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
import { ApiProblem } from '../problems/apiProblem.ts';
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

  app.route({
    method: 'POST',
    url: '/api/alarms/:alarmId/acknowledge',
    config: { access: roleForAction.acknowledge },
    schema: { params: paramsSchema, body: acknowledgeSchema, response: answers(alarmSchema) },
    handler: async (request) => {
      const alarm = await asPressed(house, request, request.params.alarmId, request.body?.occurrence);
      // Sent twice over a bad link, or somebody else was quicker: it has been seen.
      const outcome = lifecycleTable[alarm.state].acknowledge;
      const isSeen = request.body != null && (outcome === 'stay' || alarm.state === 'normal');
      if (isSeen) return shown(house, request, alarm);
      return act(house, request, alarm.id, { kind: 'acknowledge' });
    },
  });

  for (const action of ['unshelve', 'return-to-service', 'reset'] as const) {
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
      const { minutes, reason, occurrence, pressedMs } = request.body;
      const alarm = await asPressed(house, request, request.params.alarmId, occurrence);
      const nowMs = house.clock.nowMs();
      // Counted from the press, however late it arrives: sent twice it ends no later.
      const untilMs = Math.min(pressedMs ?? nowMs, nowMs) + minutes * 60_000;
      if (untilMs <= nowMs)
        throw new ApiProblem(
          'changed-meanwhile',
          'It arrived so late that this shelving would be over by now.',
        );
      if (alarm.state === 'shelved' && alarm.shelvedUntilMs === untilMs) return shown(house, request, alarm);
      return act(house, request, alarm.id, { kind: 'shelve', untilMs, reason });
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

/** The alarm, unless it is not the one that was looked at when the button was pressed. */
async function asPressed(
  house: House,
  request: FastifyRequest,
  alarmId: string,
  occurrence: number | undefined,
): Promise<Alarm> {
  const alarm = await findAlarm(house, request, alarmId);
  if (occurrence !== undefined && alarm.occurrence !== occurrence)
    throw new ApiProblem(
      'changed-meanwhile',
      'This alarm has come anew since the button was pressed. Look at it again.',
    );
  return alarm;
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
