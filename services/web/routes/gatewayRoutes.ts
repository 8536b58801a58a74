import type { FastifyReply, FastifyRequest } from 'fastify';
import type { CallbackAnswer, CallbackRequest, GatewayCallbackPort } from '../../notify/port.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';

/** Far more than one gateway sends; what guesses at the secret is held off. */
const rateLimit = { max: 600, timeWindow: '1 minute' };

/**
 * Where a text gateway calls us: delivery reports and texts that came in. Notify checks the proof, over the body as it
 * came, so nothing parses it here. By GET too, because some gateways know nothing else: the one place where a GET
 * changes something, and only with the secret.
 */
export function gatewayRoutes(app: App, house: House): void {
  const { gateway } = house;
  if (gateway === null) return;
  app.register((own, _options, done) => {
    own.removeAllContentTypeParsers();
    own.addContentTypeParser('*', { parseAs: 'buffer' }, (_request, body, done) => done(null, body));
    addCall(own as unknown as App, house, '/gateway/report', (request) => gateway.deliveryReport(request));
    addCall(own as unknown as App, house, '/gateway/inbound', (request) => gateway.inbound(request));
    done();
  });
}

function addCall(
  app: App,
  house: House,
  url: string,
  answer: (request: CallbackRequest) => ReturnType<GatewayCallbackPort['inbound']>,
): void {
  app.route({
    method: ['GET', 'POST'],
    url,
    exposeHeadRoute: false,
    config: { access: 'public', rateLimit },
    schema: { hide: true },
    handler: async (request, reply) => send(reply, await answer(asItCame(request, house.publicUrl()))),
  });
}

/** Signatures are over the address the gateway was given, which behind a proxy is not the one we hear. */
function asItCame(request: FastifyRequest, publicUrl: string): CallbackRequest {
  const headers = Object.fromEntries(
    Object.entries(request.headers).map(([name, value]) => [name, Array.isArray(value) ? value[0] : value]),
  );
  const body = request.body instanceof Uint8Array ? request.body : new Uint8Array();
  return { url: `${publicUrl}${request.url}`, headers, body };
}

function send(reply: FastifyReply, { status, contentType, body }: CallbackAnswer): FastifyReply {
  return reply.status(status).header('content-type', contentType).send(body);
}
