import { Readable } from 'node:stream';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import { seriesQuerySchema, seriesSchema } from '../../../shared/api/series.ts';
import type { Pile, Placement } from '../../../shared/yard/yard.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { chooseStep, type SeriesRequest, seriesChannel } from '../views/seriesView.ts';
import { answers } from './answers.ts';
import { findPile } from './find.ts';

/** Curves of a pile. */
export function seriesRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/series',
    config: { access: 'viewer' },
    schema: {
      summary: 'Curves as columns: readings thinned to maxPoints a channel, or hourly or daily roll-ups',
      params: pileParamsSchema,
      querystring: seriesQuerySchema,
      response: answers(seriesSchema),
    },
    handler: async (request, reply) => {
      const pile = await findPile(house, request, request.params.pileId);
      const { fromMs, toMs, step, maxPoints, quality, channel } = request.query;
      const wanted = { fromMs, toMs, maxPoints, quality, step: chooseStep(step, toMs - fromMs) };
      const placements = await placementsOf(house, pile, channel);
      // Streamed channel by channel and past the schema: checking 100,000 numbers costs more than reading them.
      // The columns' shape is held by types and by tests against `seriesSchema`.
      const body = Readable.from(jsonPieces(house, placements, wanted), { objectMode: false });
      return reply.type('application/json; charset=utf-8').send(body as never);
    },
  });
}

async function placementsOf(house: House, pile: Pile, channel: string | undefined): Promise<Placement[]> {
  const placements = await house.records.placements.list(pile.yardId);
  const own = placements.filter(({ pileId }) => pileId === pile.id);
  const air = placements.filter(({ pileId }) => pileId === null);
  return [...own, ...air].filter((placement) => channel === undefined || placement.channel === channel);
}

async function* jsonPieces(
  house: House,
  placements: readonly Placement[],
  request: SeriesRequest,
): AsyncGenerator<string> {
  const { fromMs, toMs, step } = request;
  // The head goes out with the first channel: should the store refuse that one, the answer can still be a refusal.
  let unsent = `{"fromMs":${fromMs},"toMs":${toMs},"step":"${step}","channels":[`;
  for (const placement of placements) {
    const channel = await seriesChannel(house.series, placement, request);
    if (channel === null) continue;
    yield `${unsent}${JSON.stringify(channel)}`;
    unsent = ',';
  }
  yield unsent === ',' ? ']}' : `${unsent}]}`;
}
