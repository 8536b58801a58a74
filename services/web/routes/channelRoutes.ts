import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  channelListSchema,
  channelSchema,
  channelTestSchema,
  testChannelSchema,
} from '../../../shared/api/channels.ts';
import { messageChannels } from '../../../shared/api/messages.ts';
import type { ChannelView } from '../../../shared/api/types.ts';
import type { ChannelStanding } from '../../notify/port.ts';
import type { ChannelKind } from '../../records/port.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import type { House } from '../house.ts';
import { badField, notFound } from '../problems/apiProblem.ts';
import { answers } from './answers.ts';
import { findYard } from './find.ts';
import { channelsWith, testBy } from './testBy.ts';

const paramsSchema = z.object({ channel: z.enum(messageChannels) });

/** How messages leave: what is set up, how it stands, and a test of each. */
export function channelRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/channels',
    config: { access: 'keeper' },
    schema: {
      summary: 'Ways messages leave by, and how each stands',
      response: answers(channelListSchema),
    },
    handler: async (request) => ({
      channels: await Promise.all(
        (house.channels?.kinds() ?? []).map((kind) => channelView(house, yardIdOf(request), kind)),
      ),
      textChannel: house.config.textChannel,
      isKnown: house.channels?.isKnown() ?? false,
    }),
  });

  app.route({
    method: 'POST',
    url: '/api/channels/:channel/check',
    config: { access: 'owner', rateLimit: { max: 20, timeWindow: '5 minutes' } },
    schema: {
      summary: 'Look whether it would work, without sending',
      params: paramsSchema,
      response: answers(channelSchema),
    },
    handler: async (request) => {
      const { channel } = request.params;
      const standing = await channelsWith(house, channel).check(channel);
      if (standing === null) throw notFound('channel', 'channel', channel);
      return channelView(house, yardIdOf(request), channel, standing);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/channels/:channel/test',
    config: { access: 'owner', rateLimit: { max: 10, timeWindow: '5 minutes' } },
    schema: {
      summary: 'Send a test message now and wait for what the other side says',
      params: paramsSchema,
      body: testChannelSchema,
      response: answers(channelTestSchema),
    },
    handler: async (request) => {
      const { channel } = request.params;
      channelsWith(house, channel);
      const { address, target } = await whereTo(house, request, channel, request.body);
      await audit(house, request, { action: `sent a test by ${channel}`, target });
      return testBy(house, channel, address);
    },
  });
}

async function channelView(
  house: House,
  yardId: string,
  channel: ChannelKind,
  looked?: ChannelStanding,
): Promise<ChannelView> {
  const found = looked ?? house.channels?.standings().find((one) => one.channel === channel);
  const { sent, failed } = await house.records.messages.lastAttempts(yardId, channel);
  return {
    channel,
    standing: found === undefined ? null : standingView(found),
    lastSent: sent && { atMs: sent.finishedMs, detail: sent.detail },
    lastFailed: failed && { atMs: failed.finishedMs, detail: failed.detail },
  };
}

function standingView({ channel: _, ...standing }: ChannelStanding): ChannelView['standing'] {
  return standing;
}

async function whereTo(
  house: House,
  request: FastifyRequest,
  channel: ChannelKind,
  { personId, address }: { personId?: string | undefined; address?: string | undefined },
): Promise<{ readonly address: string; readonly target: string }> {
  if (personId === undefined) return { address: address!, target: 'an address' };
  const yard = await findYard(house, request);
  const person = await house.records.people.get(personId);
  if (person === null || person.yardId !== yard.id) throw notFound('person', 'personId', personId);
  const isText = channel === 'sms-http' || channel === 'sms-modem';
  const ways = isText ? [] : await house.records.ways.list(yard.id);
  const way = ways.find((one) => one.personId === personId && one.channel === channel && one.goneMs === null);
  const own = isText ? person.phone : (way?.address ?? null);
  const wanted = isText ? 'somebody with a phone number' : `somebody with an address for ${channel}`;
  if (own === null) throw badField('personId', personId, wanted);
  return { address: own, target: person.login };
}
