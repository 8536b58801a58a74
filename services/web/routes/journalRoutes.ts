import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { idSchema } from '../../../shared/api/common.ts';
import { takeBackHours } from '../../../shared/api/constants.ts';
import { journalEntrySchema, newJournalEntrySchema } from '../../../shared/api/journal.ts';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import type { JournalEntryView } from '../../../shared/api/types.ts';
import type { JournalEntry } from '../../../shared/yard/journal.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { journalViewer, mayTakeBack } from '../views/journalView.ts';
import { peopleNames } from '../views/names.ts';
import { answers } from './answers.ts';
import { findEntry, findPile } from './find.ts';
import { refuseFuture } from './pileRoutes.ts';

export const entryParamsSchema = z.object({ entryId: idSchema });

/** What people did to a pile or saw in it. Entries are added and never changed; a wrong press is taken back. */
export function journalRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/journal',
    config: { access: 'viewer' },
    schema: { params: pileParamsSchema, response: answers(z.array(journalEntrySchema).readonly()) },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      const view = await viewer(house, request, pile);
      const entries = await house.records.journal.list(pile.id);
      return entries.map(view).sort((a, b) => b.timeMs - a.timeMs);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/piles/:pileId/journal',
    config: { access: 'keeper' },
    schema: {
      summary: 'Write an entry; sent again with the same pressKey it is still one entry',
      params: pileParamsSchema,
      body: newJournalEntrySchema,
      response: answers(journalEntrySchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      refuseFuture(house, 'timeMs', request.body.timeMs);
      const { depthMetres, ...body } = request.body;
      const entry = await house.records.journal.add({
        ...body,
        ...(depthMetres === null ? {} : { depthMetres }),
        pileId: pile.id,
        by: personOf(request).id,
        recordedAtMs: house.clock.nowMs(),
      });
      return changed(house, request, pile, entry);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/journal/:entryId/take-back',
    config: { access: 'keeper' },
    schema: {
      summary:
        'Take back a wrong press: it counts no more and is listed no more, and stays stored as taken back',
      params: entryParamsSchema,
      response: answers(journalEntrySchema),
    },
    handler: async (request) => {
      const { entry, pile } = await findEntry(house, request, request.params.entryId);
      const nowMs = house.clock.nowMs();
      const isLate = nowMs > entry.recordedAtMs + takeBackHours * 3_600_000;
      if (!mayTakeBack(entry, personOf(request)) || isLate)
        throw new ApiProblem(
          'conflict',
          `Only whoever wrote an entry can take it back, within ${takeBackHours} hours. Write another that says what is right.`,
        );
      const taken = await house.records.journal.takeBack(entry.id, nowMs);
      await audit(house, request, {
        action: 'journal.taken-back',
        target: pile.id,
        detail: `${entry.kind} of ${new Date(entry.timeMs).toISOString()}`,
      });
      return changed(house, request, pile, taken);
    },
  });
}

async function viewer(house: House, request: FastifyRequest, pile: Pile) {
  const person = request.asker.kind === 'person' ? personOf(request) : null;
  return journalViewer(await peopleNames(house, pile.yardId), person);
}

/** Tells judgement and open screens, and answers with the entry. */
export async function changed(
  house: House,
  request: FastifyRequest,
  pile: Pile,
  entry: JournalEntry,
): Promise<JournalEntryView> {
  factsChanged(house, { pileId: pile.id });
  house.live.announce([{ kind: 'pile', pileId: pile.id, yardId: pile.yardId }]);
  return (await viewer(house, request, pile))(entry);
}
