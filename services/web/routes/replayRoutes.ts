import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { encodePast } from '../../../shared/api/past.ts';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import { pastQuerySchema, replayRequestSchema, replaySchema } from '../../../shared/api/replay.ts';
import type { Past } from '../../../shared/rules/replayPast.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import type { App } from '../app.ts';
import { checkOverrides } from '../checkOverrides.ts';
import type { House } from '../house.ts';
import { ApiProblem, badField } from '../problems/apiProblem.ts';
import { createReplayRunner } from '../replay/runReplay.ts';
import { answers } from './answers.ts';
import { findPile, findYard } from './find.ts';

const dayMs = 86_400_000;

/** A pile's past judged again with other limits. Changes nothing, so viewers may try too. */
export function replayRoutes(app: App, house: House): void {
  const runner = createReplayRunner();

  app.route({
    method: 'POST',
    url: '/api/piles/:pileId/replay',
    config: { access: 'viewer' },
    schema: {
      summary: 'Judge a stretch of the past with limits on trial, the current ones and the method’s defaults',
      params: pileParamsSchema,
      body: replayRequestSchema,
      response: answers(replaySchema),
    },
    handler: async (request, reply) => {
      const pile = await findPile(house, request, request.params.pileId);
      const { fromMs, toMs, warmUpDays, overrides, textsFrom, troubles, suggest } = request.body;
      const candidate = overrides === null ? null : checkOverrides(house.conditions, pile.method, overrides);
      const gone = goneSignal(reply);
      const [past, current, yard] = await Promise.all([
        pastOf(house, pile, { fromMs: fromMs - warmUpDays * dayMs, toMs }),
        house.records.limits.current(pile.id),
        findYard(house, request),
      ]);
      const countFromMs = Math.max(fromMs, pile.startedMs);
      const { temperatureUnit } = yard;
      const job = { past, current, candidate, countFromMs, textsFrom, troubles, suggest, temperatureUnit };
      const outcome = await runner.run(job, gone);
      return { fromMs: countFromMs, toMs: past.toMs, currentVersion: current.version, ...outcome };
    },
  });

  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/past',
    config: { access: 'viewer' },
    schema: {
      summary: 'Everything a browser needs to replay a stretch by itself, as bytes: see shared/api/past.ts',
      params: pileParamsSchema,
      querystring: pastQuerySchema,
      response: answers(z.any()),
    },
    handler: async (request, reply) => {
      const pile = await findPile(house, request, request.params.pileId);
      const [past, limits, { temperatureUnit }] = await Promise.all([
        pastOf(house, pile, request.query),
        house.records.limits.current(pile.id),
        findYard(house, request),
      ]);
      const { version, overrides } = limits;
      const bytes = encodePast({ past, limits: { version, overrides }, temperatureUnit });
      return reply.type('application/octet-stream').send(Buffer.from(bytes.buffer) as never);
    },
  });
}

async function pastOf(
  house: House,
  pile: Pile,
  span: { readonly fromMs: number; readonly toMs: number },
): Promise<Past> {
  if (span.toMs <= pile.startedMs)
    throw badField('toMs', span.toMs, `later than the pile's start, ${pile.startedMs}`);
  const past = await house.rules.readPast?.(pile.id, span);
  if (past === undefined || past === null)
    throw new ApiProblem('not-ready', 'Judgement is not running here, so nothing can be replayed.');
  return past;
}

/** Aborts when whoever asked has gone away before the answer was ready. */
function goneSignal(reply: FastifyReply): AbortSignal {
  const gone = new AbortController();
  reply.raw.once('close', () => {
    if (!reply.raw.writableEnded) gone.abort(new ApiProblem('not-ready', 'Nobody waits for it any more.'));
  });
  return gone.signal;
}
