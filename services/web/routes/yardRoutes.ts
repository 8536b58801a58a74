import { wallQuerySchema, wallSchema } from '../../../shared/api/wall.ts';
import { yardChangeSchema, yardSchema } from '../../../shared/api/yard.ts';
import { yardMapSchema } from '../../../shared/api/yardMap.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit, changesInWords } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { yardView } from '../views/pilePage.ts';
import { wallView } from '../views/wallView.ts';
import { keepYardMap, yardMap } from '../views/yardMap.ts';
import { answers } from './answers.ts';
import { findYard } from './find.ts';

/** The yard and its wall. */
export function yardRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/wall',
    config: { access: 'wall' },
    schema: {
      summary: 'Everything the wall shows, or that of some piles',
      querystring: wallQuerySchema,
      response: answers(wallSchema),
    },
    handler: async (request) => {
      const yardId = yardIdOf(request);
      const { piles = null } = request.query;
      const asked = `${yardId} ${piles?.join() ?? ''}`;
      const view = await house.wallCache.get(asked, () => wallView(house, yardId, piles));
      return { ...view, nowMs: house.clock.nowMs() };
    },
  });

  app.route({
    method: 'GET',
    url: '/api/yard',
    config: { access: 'wall' },
    schema: { response: answers(yardSchema) },
    handler: async (request) => yardView(await findYard(house, request)),
  });

  app.route({
    method: 'PATCH',
    url: '/api/yard',
    config: { access: 'owner' },
    schema: { body: yardChangeSchema, response: answers(yardSchema) },
    handler: async (request) => {
      const before = await findYard(house, request);
      const yard = await house.records.yards.update(before.id, defined(request.body));
      const detail = changesInWords(before, request.body);
      await audit(house, request, { action: 'changed the yard', target: yard.name, detail });
      factsChanged(house);
      house.live.announce([{ kind: 'yard', yardId: yard.id }]);
      return yardView(yard);
    },
  });
}

/** The yard's map: which place is where, for walls that are ordered by it. */
export function yardMapRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/yard/map',
    config: { access: 'viewer' },
    schema: { response: answers(yardMapSchema) },
    handler: async (request) => ({ places: await yardMap(house, yardIdOf(request)) }),
  });

  app.route({
    method: 'PUT',
    url: '/api/yard/map',
    config: { access: 'keeper' },
    schema: { body: yardMapSchema, response: answers(yardMapSchema) },
    handler: async (request) => {
      const yardId = yardIdOf(request);
      await keepYardMap(house, yardId, request.body);
      await audit(house, request, {
        action: 'drew the map',
        target: 'yard',
        detail: `${request.body.places.length} places`,
      });
      house.live.announce([{ kind: 'yard', yardId }]);
      return request.body;
    },
  });
}

/** Drops members that are there but undefined: "not given" and "given as undefined" are the same to a record store. */
export function defined<T extends object>(change: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  const given = Object.entries(change).filter(([, value]) => value !== undefined);
  return Object.fromEntries(given) as { [K in keyof T]: Exclude<T[K], undefined> };
}
