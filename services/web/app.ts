import { randomUUID } from 'node:crypto';
import cookie from '@fastify/cookie';
import rateLimit from '@fastify/rate-limit';
import swagger from '@fastify/swagger';
import Fastify, {
  type FastifyBaseLogger,
  type FastifyInstance,
  type FastifyServerOptions,
  LogController,
  type RawReplyDefaultExpression,
  type RawRequestDefaultExpression,
  type RawServerDefault,
} from 'fastify';
import {
  jsonSchemaTransform,
  serializerCompiler,
  validatorCompiler,
  type ZodTypeProvider,
} from 'fastify-type-provider-zod';
import type { House } from './house.ts';
import { ApiProblem } from './problems/apiProblem.ts';
import { handleError } from './problems/errorHandler.ts';

/** The web application with zod as its language. */
export type App = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** What an application needs before it has routes. */
export interface AppGround {
  readonly config: Pick<House['config'], 'tls' | 'trustProxy'>;
  readonly logger: House['logger'];
}

/** Largest body: limits of every condition fit many times over. */
const bodyLimitBytes = 256 * 1024;

/** An application that parses, checks, answers and refuses, but has no routes yet. */
export async function createApp(house: AppGround): Promise<App> {
  const app = Fastify(serverOptions(house)).withTypeProvider<ZodTypeProvider>();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler(handleError);
  // A form of another site can send text without a preflight: JSON only.
  app.removeContentTypeParser('text/plain');
  app.setNotFoundHandler(() => {
    throw new ApiProblem('not-found', 'There is nothing at this address.');
  });
  logAnswers(app);
  await app.register(cookie);
  await app.register(rateLimit, { global: false });
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Tilthwatch',
        version: '1',
        description: 'See shared/api/README.md for the rules for callers.',
      },
    },
    transform: jsonSchemaTransform,
  });
  return app;
}

function serverOptions(house: AppGround): FastifyServerOptions {
  const { tls, trustProxy } = house.config;
  const options = {
    loggerInstance: house.logger,
    // Ours alone: what a caller sends could be made to look like another's line in the log.
    genReqId: () => randomUUID(),
    // Addresses hold secrets (answer links, wall keys): only route patterns are logged, by `logAnswers`.
    logController: new LogController({ disableRequestLogging: true, requestIdLogLabel: 'request' }),
    // Probe names and tokens in a path are longer than the usual 100.
    routerOptions: { maxParamLength: 600 },
    trustProxy,
    bodyLimit: bodyLimitBytes,
    forceCloseConnections: true,
    ...(tls === null ? {} : { https: { cert: tls.certificate, key: tls.key, minVersion: 'TLSv1.2' } }),
  };
  return options as FastifyServerOptions;
}

function logAnswers(app: App): void {
  app.addHook('onResponse', async (request, reply) => {
    const route = request.routeOptions.url ?? 'unknown address';
    const milliseconds = Math.round(reply.elapsedTime);
    request.log.debug({ method: request.method, route, status: reply.statusCode, milliseconds }, 'answered');
  });
}
