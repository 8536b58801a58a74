import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { type Access, mayUse } from './asker.ts';
import { refuseCrossSite } from './crossSite.ts';
import { findAsker } from './findAsker.ts';

export interface RouteAccess {
  /** E.g. `GET /api/piles`. */
  readonly route: string;
  readonly access: Access;
}

declare module 'fastify' {
  interface FastifyInstance {
    /** Every route and who may use it. */
    accessList(): readonly RouteAccess[];
  }
}

/** Finds the asker of every request and lets through only what its route allows. Deny by default. */
export function guardRoutes(app: FastifyInstance, house: House): void {
  const list: RouteAccess[] = [];
  app.decorate('accessList', () => list);
  app.decorateRequest('asker', null as never);
  app.addHook('onRoute', (route) => {
    const name = `${String(route.method)} ${route.url}`;
    const access = route.config?.access;
    if (access === undefined) throw new Error(`route ${name} does not say who may use it (config.access)`);
    // HEAD goes with its GET and shares its config.
    if (route.method !== 'HEAD') list.push({ route: name, access });
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
