import { doneSchema } from '../../../shared/api/common.ts';
import { expectedSchema, outlookSchema } from '../../../shared/api/outlook.ts';
import { pileFormSchema } from '../../../shared/api/pileForm.ts';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import { planSchema } from '../../../shared/compost/planner/planSchema.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { designOfPile, expectedView, outlookView } from '../views/outlookView.ts';
import { answers } from './answers.ts';
import { findPile } from './find.ts';

/** What is to come of a pile, and how it was planned. */
export function outlookRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/outlook',
    config: { access: 'viewer' },
    schema: {
      summary: 'Forecast fitted to the pile’s own readings, or why there is none yet',
      params: pileParamsSchema,
      response: answers(outlookSchema),
    },
    handler: async (request) => outlookView(house, await findPile(house, request, request.params.pileId)),
  });

  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/expected',
    config: { access: 'viewer' },
    schema: {
      summary: 'The band the pile’s plan, or a usual pile of its method, keeps to',
      params: pileParamsSchema,
      response: answers(expectedSchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      return { expected: await expectedView(house, pile) };
    },
  });

  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/form',
    config: { access: 'viewer' },
    schema: {
      summary:
        'Shape, channels and place of the core probe as planned; form is null where it was not planned here',
      params: pileParamsSchema,
      response: answers(pileFormSchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      return { form: (await designOfPile(house, pile.id))?.form ?? null };
    },
  });

  app.route({
    method: 'PUT',
    url: '/api/piles/:pileId/plan',
    config: { access: 'keeper' },
    schema: {
      summary: 'The plan a pile was built from: its pictures, its expected course and its forecast use it',
      params: pileParamsSchema,
      body: planSchema,
      response: answers(doneSchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      await house.records.designs.save(pile.id, JSON.stringify(request.body), house.clock.nowMs());
      house.live.announce([{ kind: 'pile', pileId: pile.id, yardId: pile.yardId }]);
      return { done: true as const };
    },
  });
}
