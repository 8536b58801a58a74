import { z } from 'zod';
import { idSchema } from '../../../shared/api/common.ts';
import { endPlacementSchema, newPlacementSchema, placementSchema } from '../../../shared/api/placements.ts';
import type { PlacementView } from '../../../shared/api/types.ts';
import type { Placement } from '../../../shared/yard/yard.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { badField, notFound } from '../problems/apiProblem.ts';
import { placementView } from '../views/pilePage.ts';
import { answers } from './answers.ts';
import { findPile } from './find.ts';
import { refuseFuture } from './pileRoutes.ts';

/** Which channel stands where, from when to when. */
export function placementRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/placements',
    config: { access: 'viewer' },
    schema: { response: answers(z.array(placementSchema).readonly()) },
    handler: async (request) => (await house.records.placements.list(yardIdOf(request))).map(placementView),
  });

  app.route({
    method: 'POST',
    url: '/api/placements',
    config: { access: 'keeper' },
    schema: { body: newPlacementSchema, response: answers(placementSchema) },
    handler: async (request) => {
      const { pileId, fromMs } = request.body;
      if (pileId !== null) await findPile(house, request, pileId);
      refuseFuture(house, 'fromMs', fromMs);
      const yardId = yardIdOf(request);
      return told(house, await house.records.placements.create({ ...request.body, yardId, toMs: null }));
    },
  });

  app.route({
    method: 'POST',
    url: '/api/placements/:placementId/end',
    config: { access: 'keeper' },
    schema: {
      params: z.object({ placementId: idSchema }),
      body: endPlacementSchema,
      response: answers(placementSchema),
    },
    handler: async (request) => {
      const { placementId } = request.params;
      const { toMs } = request.body;
      const all = await house.records.placements.list(yardIdOf(request));
      const placement = all.find(({ id }) => id === placementId);
      if (placement === undefined) throw notFound('placement', 'placementId', placementId);
      refuseFuture(house, 'toMs', toMs);
      if (toMs < placement.fromMs) throw badField('toMs', toMs, `${placement.fromMs} or later`);
      return told(house, await house.records.placements.end(placement.id, toMs));
    },
  });
}

function told(house: House, placement: Placement): PlacementView {
  const { pileId, yardId } = placement;
  factsChanged(house, pileId === null ? {} : { pileId });
  house.live.announce([pileId === null ? { kind: 'yard', yardId } : { kind: 'pile', pileId, yardId }]);
  return placementView(placement);
}
