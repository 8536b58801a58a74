import { z } from 'zod';
import { journalEntrySchema, newJournalEntrySchema } from '../../../shared/api/journal.ts';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { journalView } from '../views/journalView.ts';
import { peopleNames } from '../views/names.ts';
import { answers } from './answers.ts';
import { findPile } from './find.ts';
import { refuseFuture } from './pileRoutes.ts';

/** What people did to a pile or saw in it. Entries are added, never changed. */
export function journalRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/journal',
    config: { access: 'viewer' },
    schema: { params: pileParamsSchema, response: answers(z.array(journalEntrySchema).readonly()) },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      const nameOfPerson = await peopleNames(house, pile.yardId);
      const entries = await house.records.journal.list(pile.id);
      return entries.map((entry) => journalView(entry, nameOfPerson)).sort((a, b) => b.timeMs - a.timeMs);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/piles/:pileId/journal',
    config: { access: 'keeper' },
    schema: {
      params: pileParamsSchema,
      body: newJournalEntrySchema,
      response: answers(journalEntrySchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      refuseFuture(house, 'timeMs', request.body.timeMs);
      const entry = await house.records.journal.add({
        ...request.body,
        pileId: pile.id,
        by: personOf(request).id,
        recordedAtMs: house.clock.nowMs(),
      });
      factsChanged(house, { pileId: pile.id });
      house.live.announce([{ kind: 'pile', pileId: pile.id, yardId: pile.yardId }]);
      return journalView(entry, await peopleNames(house, pile.yardId));
    },
  });
}
