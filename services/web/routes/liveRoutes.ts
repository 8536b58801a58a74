import type { FastifyReply, FastifyRequest } from 'fastify';
import type { LiveTick } from '../../../shared/api/types.ts';
import { type Asker, yardIdOf } from '../access/asker.ts';
import { askerOfSession, askerOfWallKey } from '../access/findAsker.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import type { Listener } from '../live/hub.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { channelsOf, newestMs, standingAt } from '../views/latest.ts';

/** A screen that has not read this much is gone or stuck; it resumes by its last event id when it comes back. */
const mostUnreadBytes = 256 * 1024;

/** `GET /api/live`: server-sent events. */
export function liveRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/live',
    exposeHeadRoute: false,
    config: { access: 'wall' },
    schema: { summary: 'Live events (text/event-stream), see shared/api/live.ts' },
    handler: async (request, reply) => {
      const lastEventId = request.headers['last-event-id'];
      const listener = listenerOf(house, request, reply);
      if (house.live.isFull()) {
        throw new ApiProblem('too-many-screens', 'Close one and try again.', { retryAfterSeconds: 30 });
      }
      startStream(reply);
      const stop = house.live.listen(listener, typeof lastEventId === 'string' ? lastEventId : null);
      reply.raw.on('close', () => stop());
      return reply;
    },
  });
}

/** Headers go out by hand because the answer never ends; `onSend` is not called for it. */
function startStream(reply: FastifyReply): void {
  reply.hijack();
  reply.raw.writeHead(200, {
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    'cross-origin-resource-policy': 'same-origin',
    // Asks reverse proxies not to hold events back.
    'x-accel-buffering': 'no',
  });
  reply.raw.flushHeaders();
}

function listenerOf(house: House, request: FastifyRequest, reply: FastifyReply): Listener {
  const { asker } = request;
  const yardId = yardIdOf(request);
  const stream = reply.raw;
  return {
    yardId,
    asker,
    write(text) {
      if (stream.destroyed || stream.writableLength > mostUnreadBytes) return false;
      stream.write(text);
      return true;
    },
    // One that reads gets its last event first; one that does not is cut off.
    close: () => (stream.writableLength > mostUnreadBytes ? stream.destroy() : stream.end()),
    askAgain: () => askerAgain(house, asker),
    tick: () => tickOf(house, yardId),
  };
}

function askerAgain(house: House, asker: Asker): Promise<Asker> {
  if (asker.kind === 'person') return askerOfSession(house, asker.sessionHash);
  if (asker.kind === 'wall') return askerOfWallKey(house, asker.link.tokenHash);
  return Promise.resolve(asker);
}

/** The time of the newest good reading is looked up once for everyone who ticks in the same moment. */
async function tickOf(house: House, yardId: string): Promise<LiveTick> {
  const dataMs = await house.dataTimeCache.get(yardId, async () => {
    const standing = standingAt(await house.records.placements.list(yardId), house.clock.nowMs());
    return newestMs(standing, await house.series.latest(channelsOf(standing)));
  });
  return { nowMs: house.clock.nowMs(), dataMs };
}
