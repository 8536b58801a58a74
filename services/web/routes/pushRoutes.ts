import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { channelTestSchema, newPushSchema, pushListSchema } from '../../../shared/api/channels.ts';
import { doneSchema, idSchema } from '../../../shared/api/common.ts';
import type { PushList } from '../../../shared/api/types.ts';
import type { ContactWay } from '../../records/port.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { ApiProblem, notFound } from '../problems/apiProblem.ts';
import { answers } from './answers.ts';
import { testBy } from './testBy.ts';

const paramsSchema = z.object({ subscriptionId: idSchema });
/** More browsers than anybody carries; an endless list would be an endless number of calls for one alarm. */
const mostBrowsers = 10;

/** Web push: a person has the browser in their hand told, and ends it again. Each sees only their own. */
export function pushRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/push',
    config: { access: 'viewer' },
    schema: {
      summary: 'Key to subscribe with, and the browsers the asker had subscribe',
      response: answers(pushListSchema),
    },
    handler: async (request) => pushList(house, await ownWays(house, request)),
  });

  app.route({
    method: 'POST',
    url: '/api/push',
    config: { access: 'viewer', rateLimit: { max: 20, timeWindow: '5 minutes' } },
    schema: { body: newPushSchema, response: answers(pushListSchema) },
    handler: async (request) => {
      if (house.channels === null || house.channels.pushKey() === null)
        throw new ApiProblem('conflict', 'Web push is not set up: the configuration has no webPush.');
      const { subscription, replaces } = request.body;
      const { id: personId, login } = personOf(request);
      const known = await ownWays(house, request);
      // The same browser again, or one whose earlier subscription ended: the new one is what counts.
      const isSame = (endpoint: string) => endpoint === subscription.endpoint || endpoint === replaces;
      const same = known.filter(({ address }) => isSame(endpointOf(address)));
      const replaced = same.find(({ address }) => endpointOf(address) === replaces);
      const toldFrom = replaced?.toldFrom ?? request.body.toldFrom;
      for (const { id } of same) await house.records.ways.remove(id);
      if (known.length - same.length >= mostBrowsers)
        throw new ApiProblem('conflict', `At most ${mostBrowsers} browsers: end one of the others first.`);
      const address = JSON.stringify(subscription);
      const createdMs = house.clock.nowMs();
      await house.records.ways.create({ personId, channel: 'web-push', address, toldFrom, createdMs });
      await audit(house, request, { action: 'had a browser told by web push', target: login });
      factsChanged(house);
      return pushList(house, await ownWays(house, request));
    },
  });

  app.route({
    method: 'POST',
    url: '/api/push/:subscriptionId/test',
    config: { access: 'viewer', rateLimit: { max: 5, timeWindow: '5 minutes' } },
    schema: {
      summary: 'Send a test to a browser of the asker and wait for what its push service says',
      params: paramsSchema,
      response: answers(channelTestSchema),
    },
    handler: async (request) => {
      const own = await ownWay(house, request, request.params.subscriptionId);
      await audit(house, request, { action: 'sent a test by web-push', target: personOf(request).login });
      return testBy(house, 'web-push', own.address);
    },
  });

  app.route({
    method: 'DELETE',
    url: '/api/push/:subscriptionId',
    config: { access: 'viewer' },
    schema: { params: paramsSchema, response: answers(doneSchema) },
    handler: async (request) => {
      const own = await ownWay(house, request, request.params.subscriptionId);
      await house.records.ways.remove(own.id);
      await audit(house, request, { action: 'ended a web push', target: personOf(request).login });
      factsChanged(house);
      return { done: true as const };
    },
  });
}

async function ownWays(house: House, request: FastifyRequest): Promise<ContactWay[]> {
  const { id, yardId } = personOf(request);
  const ways = await house.records.ways.list(yardId);
  return ways.filter(({ personId, channel }) => personId === id && channel === 'web-push');
}

async function ownWay(house: House, request: FastifyRequest, subscriptionId: string): Promise<ContactWay> {
  const own = (await ownWays(house, request)).find(({ id }) => id === subscriptionId);
  if (own === undefined) throw notFound('subscription', 'subscriptionId', subscriptionId);
  return own;
}

function pushList(house: House, ways: readonly ContactWay[]): PushList {
  return {
    publicKey: house.channels?.pushKey() ?? null,
    subscriptions: ways.map(({ id, address, toldFrom, createdMs, goneMs }) => {
      const endpoint = endpointOf(address);
      return { id, endpoint, service: hostOf(endpoint), toldFrom, createdMs, goneMs };
    }),
  };
}

/** Endpoint of a stored subscription; only this file writes them, through its schema. */
function endpointOf(address: string): string {
  return (JSON.parse(address) as { endpoint: string }).endpoint;
}

function hostOf(endpoint: string): string {
  return new URL(endpoint).host;
}
