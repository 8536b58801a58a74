import { z } from 'zod';
import { pilePageSchema, pileParamsSchema } from '../../../shared/api/pilePage.ts';
import { endPileSchema, newPileSchema, pileChangeSchema, pileSchema } from '../../../shared/api/piles.ts';
import type { JournalKind } from '../../../shared/yard/journal.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { personOf, yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { badField } from '../problems/apiProblem.ts';
import { pilePage } from '../views/pilePage.ts';
import { answers } from './answers.ts';
import { findPile, findYard, roleOf } from './find.ts';
import { defined } from './yardRoutes.ts';

/** Piles and the page of one. */
export function pileRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles',
    config: { access: 'viewer' },
    schema: { summary: 'All piles, also ended ones', response: answers(z.array(pileSchema).readonly()) },
    handler: async (request) => house.records.piles.list(yardIdOf(request)),
  });

  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/page',
    config: { access: 'viewer' },
    schema: { params: pileParamsSchema, response: answers(pilePageSchema) },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      const person = request.asker.kind === 'person' ? personOf(request) : null;
      return pilePage(house, pile, await findYard(house, request), { role: roleOf(request), person });
    },
  });

  app.route({
    method: 'POST',
    url: '/api/piles',
    config: { access: 'keeper' },
    schema: {
      summary: 'Start a pile; its journal begins with "built"',
      body: newPileSchema,
      response: answers(pileSchema),
    },
    handler: async (request) => {
      const { startedMs } = request.body;
      refuseFuture(house, 'startedMs', startedMs);
      const pile = await house.records.piles.create({ ...request.body, yardId: yardIdOf(request) });
      await note(house, pile, 'built', startedMs, personOf(request).id);
      return told(house, pile);
    },
  });

  app.route({
    method: 'PATCH',
    url: '/api/piles/:pileId',
    config: { access: 'keeper' },
    schema: { params: pileParamsSchema, body: pileChangeSchema, response: answers(pileSchema) },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      if (request.body.startedMs !== undefined) refuseFuture(house, 'startedMs', request.body.startedMs);
      return told(house, await house.records.piles.update(pile.id, defined(request.body)));
    },
  });

  app.route({
    method: 'POST',
    url: '/api/piles/:pileId/end',
    config: { access: 'keeper' },
    schema: {
      summary: 'End a pile; its journal ends with "finished" and its probes are free again',
      params: pileParamsSchema,
      body: endPileSchema,
      response: answers(pileSchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      const { endedMs } = request.body;
      refuseFuture(house, 'endedMs', endedMs);
      if (endedMs <= pile.startedMs) throw badField('endedMs', endedMs, `later than ${pile.startedMs}`);
      await endPlacements(house, pile, endedMs);
      const ended = await house.records.piles.end(pile.id, endedMs);
      await note(house, pile, 'finished', endedMs, personOf(request).id);
      return told(house, ended);
    },
  });
}

/** A clock a little ahead on somebody's phone is not worth a refusal. */
const futureToleranceMs = 5 * 60_000;

export function refuseFuture(house: House, field: string, timeMs: number): void {
  const latestMs = house.clock.nowMs() + futureToleranceMs;
  if (timeMs > latestMs) throw badField(field, timeMs, `not in the future (at most ${latestMs})`);
}

async function note(house: House, pile: Pile, kind: JournalKind, timeMs: number, by: string): Promise<void> {
  const recordedAtMs = house.clock.nowMs();
  await house.records.journal.add({ pileId: pile.id, timeMs, kind, value: null, note: '', by, recordedAtMs });
}

async function endPlacements(house: House, pile: Pile, endedMs: number): Promise<void> {
  const placements = await house.records.placements.forPile(pile.id);
  for (const { id, toMs, fromMs } of placements) {
    if (toMs === null) await house.records.placements.end(id, Math.max(endedMs, fromMs + 1));
  }
}

function told(house: House, pile: Pile): Pile {
  factsChanged(house, { pileId: pile.id });
  house.live.announce([{ kind: 'pile', pileId: pile.id, yardId: pile.yardId }]);
  return pile;
}
