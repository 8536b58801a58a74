import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { mayUse } from './asker.ts';
import { refuseCrossSite } from './crossSite.ts';
import { findAsker } from './findAsker.ts';

/** Finds the asker of every request and lets through only what its route allows. Deny by default. */
export function guardRoutes(app: FastifyInstance, house: House): void {
  app.decorateRequest('asker', null as never);
  app.addHook('onRoute', (route) => {
    if (route.config?.access === undefined) {
      throw new Error(
        `route ${String(route.method)} ${route.url} does not say who may use it (config.access)`,
      );
    }
  });
  app.addHook('onRequest', async (request) => {
    request.asker = await findAsker(house, request);
    if (request.is404) return;
    refuseCrossSite(request, house.publicUrl());
    refuseUnlessAllowed(request);
  });
}

function refuseUnlessAllowed(request: FastifyRequest): void {
  const access = request.routeOptions.config.access ?? 'owner';
  if (mayUse(request.asker, access)) return;
  if (request.asker.kind === 'none') {
    throw new ApiProblem('not-signed-in', 'Your session is over, or you have not signed in yet.');
  }
  throw new ApiProblem('not-allowed', `This needs the role ${access} or above.`);
}
