import { limitsSchema, saveLimitsSchema } from '../../../shared/api/limits.ts';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { checkOverrides } from '../checkOverrides.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { limitsView } from '../views/limitsView.ts';
import { answers } from './answers.ts';
import { findPile } from './find.ts';

/** Limits of a pile: method defaults plus what was changed, in versions. */
export function limitsRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/limits',
    config: { access: 'viewer' },
    schema: { params: pileParamsSchema, response: answers(limitsSchema) },
    handler: async (request) => limitsView(house, await findPile(house, request, request.params.pileId)),
  });

  app.route({
    method: 'PUT',
    url: '/api/piles/:pileId/limits',
    config: { access: 'keeper' },
    schema: { params: pileParamsSchema, body: saveLimitsSchema, response: answers(limitsSchema) },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      const { expectedVersion, reason } = request.body;
      const overrides = checkOverrides(house.conditions, pile.method, request.body.overrides);
      const by = personOf(request).id;
      const savedMs = house.clock.nowMs();
      const change = { pileId: pile.id, overrides, reason, by, savedMs, expectedVersion };
      const saved = await house.records.limits.save(change);
      await audit(house, request, {
        action: `saved limits version ${saved.version}`,
        target: pile.name,
        detail: `${reason}; ${JSON.stringify(overrides)}`,
      });
      factsChanged(house, { pileId: pile.id });
      house.live.announce([{ kind: 'pile', pileId: pile.id }]);
      return limitsView(house, pile);
    },
  });
}
